//! Impulses at the nose and at the cloth together, integrated through slip, stick and reversal.
//!
//! The form of Mathavan, Jackson & Parkin 2010, Proc. `IMechE` C 224(9):1863–1873; the end of the
//! impact by energetic restitution (Stronge 2000, *Impact Mechanics*): the normal force gives back
//! e² of the work it took. The law is positively homogeneous, so an impact is scaled to unit speed,
//! solved and scaled back.

mod flow;
mod integrate;
mod law;
mod leave;
mod pace;
mod pair;
mod regime;
#[expect(clippy::unreadable_literal, reason = "the coefficients stand as they are printed")]
mod runge_kutta;

use super::{Bounce, CushionContact, Rebound};
use crate::vector::{Vec2, Vec3};
use integrate::Impact;
use law::Law;
use pace::Pace;

/// A ball whose slip at the cloth is less than this share of its motion rolls in without slip.
const ROLLS_IN: f64 = 1e-12;

/// How an integrated impact went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ImpactTrace {
    /// Integration steps taken.
    pub steps: u32,
    /// Times that a contact began or ceased to stick.
    pub regime_changes: u32,
}

/// The rebound by the nose-and-cloth model, to 1e-9 of the incoming speed.
pub fn nose_and_cloth(contact: &CushionContact, before: Bounce) -> Rebound {
    nose_and_cloth_traced(contact, before).0
}

/// As [`nose_and_cloth`] for every ball of `before` at one cushion, to the same bits; `after` takes the
/// rebounds in the same order.
///
/// # Panics
///
/// When the slices differ in length.
pub fn nose_and_cloth_many(contact: &CushionContact, before: &[Bounce], after: &mut [Rebound]) {
    assert_eq!(before.len(), after.len(), "one rebound for each ball");
    for (ball, rebound) in before.iter().zip(after) {
        *rebound = nose_and_cloth(contact, *ball);
    }
}

/// As [`nose_and_cloth`], with how it went.
pub fn nose_and_cloth_traced(contact: &CushionContact, before: Bounce) -> (Rebound, ImpactTrace) {
    solve(contact, before, Pace::USUAL)
}

fn solve(contact: &CushionContact, before: Bounce, pace: Pace) -> (Rebound, ImpactTrace) {
    let (sin, cos, radius) = (contact.sin_theta, contact.cos_theta, contact.radius_m);
    let restitution = contact.restitution_at(before.velocity.y);
    let outside_checked_speed = before.velocity.y > contact.checked_speed_m_s;
    let surface = before.spin * radius;
    let scale = (before.velocity.dot(before.velocity) + surface.dot(surface)).sqrt();
    if before.velocity.y <= 0.0 || !scale.is_finite() {
        let unchanged = Rebound {
            velocity: before.velocity,
            spin: before.spin,
            restitution,
            outside_checked_speed,
            hop: false,
        };
        return (unchanged, ImpactTrace::default());
    }
    let (v, w) = (before.velocity * (1.0 / scale), surface * (1.0 / scale));
    let law = Law::new(sin, cos, contact.nose_friction, contact.cloth_friction);
    let mut slips = [v.x + w.y * sin - w.z * cos, -v.y * sin + w.x, v.x - w.y, v.y + w.x];
    // What rounding leaves of the slip of a ball that rolls in must not decide whether it sticks.
    if slips[2].abs() + slips[3].abs() < ROLLS_IN {
        (slips[2], slips[3]) = (0.0, 0.0);
    }
    let mut impact = Impact::new(&law, slips, pace);
    let end = impact.run(restitution);
    let mut after = assemble(sin, cos, v, w, &end);
    // A dead cushion ends the impact at standstill; no cushion leaves the ball going in.
    after.0.y = if restitution == 0.0 { 0.0 } else { after.0.y.min(0.0) };
    let rebound = Rebound {
        velocity: after.0 * scale,
        spin: after.1 * (scale / radius),
        restitution,
        outside_checked_speed,
        hop: impact.hop,
    };
    (rebound, ImpactTrace { steps: impact.steps, regime_changes: impact.regime_changes })
}

/// Velocity and surface spin from the four slips at the end.
///
/// The slips leave one combination open along the cushion; friction at either contact keeps
/// (5/2)·vx + wy + wz·(1 + S)/C as it was.
fn assemble(sin: f64, cos: f64, v: Vec2, w: Vec3, end: &[f64; 4]) -> (Vec2, Vec3) {
    let lever = (1.0 + sin) / cos;
    let kept = 2.5 * v.x + w.y + lever * w.z;
    let per_cos = lever / cos;
    let [slip_x, slip_up, cloth_x, cloth_y] = *end;
    let wy = (kept - 2.5 * cloth_x - per_cos * (cloth_x - slip_x)) / (3.5 + per_cos * (1.0 + sin));
    let vx = cloth_x + wy;
    let vy = (cloth_y - slip_up) / (1.0 + sin);
    let wz = (vx + sin * wy - slip_x) / cos;
    (Vec2::new(vx, vy), Vec3::new(cloth_y - vy, wy, wz))
}

#[cfg(test)]
mod tests;

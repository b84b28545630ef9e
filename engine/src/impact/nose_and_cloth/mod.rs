//! Impulses at the nose and at the cloth together, integrated through slip, stick and reversal.
//!
//! The form of Mathavan, Jackson & Parkin 2010, Proc. `IMechE` C 224(9):1863–1873; the end of the
//! impact by energetic restitution (Stronge 2000, *Impact Mechanics*): the normal force gives back
//! e² of the work it took. The law is positively homogeneous, so an impact is scaled to unit speed,
//! solved and scaled back.

#![expect(
    clippy::inline_always,
    reason = "a step is compiled for a wider register only where all of it is inlined"
)]

mod choice;
mod contact;
mod course;
mod flow;
mod glide;
mod integrator;
mod lanes;
mod law;
mod pace;
mod pair;
mod regime;
#[expect(clippy::unreadable_literal, reason = "the coefficients stand as they are printed")]
mod runge_kutta;
mod slow_slip;

use super::{Bounce, CushionContact, Rebound};
use crate::vector::{Vec2, Vec3};
use course::Course;
use glide::{Glide, GlideEnd};
use integrator::Impact;
pub use lanes::nose_and_cloth_many;
use law::{Law, Slips};
use pace::Pace;

/// A ball whose slip at the cloth is less than this share of its motion rolls in without slip.
const ROLLS_IN: f64 = 1e-12;

/// The course of an integrated impact.
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

/// As [`nose_and_cloth`], with its course.
pub fn nose_and_cloth_traced(contact: &CushionContact, before: Bounce) -> (Rebound, ImpactTrace) {
    solve(contact, before, Pace::USUAL)
}

fn solve(contact: &CushionContact, before: Bounce, pace: Pace) -> (Rebound, ImpactTrace) {
    let cushion = PreparedCushion::new(contact, pace);
    match cushion.first_touch(before) {
        Some(touch) => {
            let mut course = cushion.course(&touch);
            let mut trace = Trace::default();
            loop {
                match cushion.glide.step(&mut course) {
                    GlideEnd::Glide => {}
                    GlideEnd::Ended => break,
                    GlideEnd::Other => {
                        if cushion.other_steps(&mut course, &mut trace) == GlideEnd::Ended {
                            break;
                        }
                    }
                }
            }
            let rebound = cushion.rebound(&touch, &course.y, trace.hop);
            let Trace { regime_changes, .. } = trace;
            (rebound, ImpactTrace { steps: course.steps_u32(), regime_changes })
        }
        None => (Rebound::untouched(contact, before), ImpactTrace::default()),
    }
}

/// The regimes that the steps without gliding met.
#[derive(Debug, Clone, Copy, Default)]
struct Trace {
    regime_changes: u32,
    hop: bool,
}

/// A cushion made ready for any number of impacts.
struct PreparedCushion<'a> {
    contact: &'a CushionContact,
    law: Law,
    glide: Glide,
    pace: Pace,
}

/// A slower ball is stopped: squares of its speeds have not all their digits, or none.
const SLOWEST_M_S: f64 = 1e-140;

/// An impact at its beginning, scaled.
#[derive(Clone, Copy)]
struct ScaledImpact {
    /// Length of the incoming state, m/s: the divisor of all speeds.
    scale: f64,
    velocity: Vec2,
    /// Spin as a speed of the surface.
    spin: Vec3,
    restitution: f64,
    outside_checked_speed: bool,
}

impl<'a> PreparedCushion<'a> {
    fn new(contact: &'a CushionContact, pace: Pace) -> Self {
        let law = Law::new(
            contact.sin_theta,
            contact.cos_theta,
            contact.nose_friction,
            contact.impact_cloth_friction,
        );
        Self { contact, law, glide: Glide::new(&law, pace), pace }
    }

    /// `None` for a ball that is not on its way into the cushion, is not finite, or is so slow that the squares of
    /// its speeds vanish.
    #[inline]
    fn first_touch(&self, before: Bounce) -> Option<ScaledImpact> {
        let contact = self.contact;
        let surface = before.spin * contact.radius_m;
        let scale = (before.velocity.dot(before.velocity) + surface.dot(surface)).sqrt();
        if before.velocity.y <= 0.0 || !scale.is_finite() || scale < SLOWEST_M_S {
            return None;
        }
        Some(ScaledImpact {
            scale,
            velocity: before.velocity * (1.0 / scale),
            spin: surface * (1.0 / scale),
            restitution: contact.restitution_at(before.velocity.y),
            outside_checked_speed: before.velocity.y > contact.checked_speed_m_s,
        })
    }

    #[inline]
    fn course(&self, touch: &ScaledImpact) -> Course {
        let (sin, cos) = (self.law.sin, self.law.cos);
        let (v, w) = (touch.velocity, touch.spin);
        let mut slips = [v.x + w.y * sin - w.z * cos, -v.y * sin + w.x, v.x - w.y, v.y + w.x];
        // What rounding leaves of the slip of a ball that rolls in must not decide whether it sticks.
        if slips[2].abs() + slips[3].abs() < ROLLS_IN {
            (slips[2], slips[3]) = (0.0, 0.0);
        }
        Course::new(&self.law, slips, touch.restitution)
    }

    /// Takes the steps that do not glide, until the course can glide on or has ended.
    fn other_steps(&self, course: &mut Course, trace: &mut Trace) -> GlideEnd {
        let mut impact = Impact::new(&self.law, &self.glide, *course, self.pace);
        let next = impact.run();
        *course = impact.course;
        trace.regime_changes += impact.regime_changes;
        trace.hop |= impact.hop;
        next
    }

    /// The ball that leaves with these slips.
    #[inline]
    fn rebound(&self, touch: &ScaledImpact, end: &Slips, hop: bool) -> Rebound {
        let (mut velocity, spin) =
            assemble(self.law.sin, self.law.cos, touch.velocity, touch.spin, end);
        // A dead cushion ends the impact at standstill; no cushion leaves the ball going in.
        velocity.y = if touch.restitution == 0.0 { 0.0 } else { velocity.y.min(0.0) };
        Rebound {
            velocity: velocity * touch.scale,
            spin: spin * (touch.scale / self.contact.radius_m),
            restitution: touch.restitution,
            outside_checked_speed: touch.outside_checked_speed,
            hop,
        }
    }
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

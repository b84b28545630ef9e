//! Ball against ball: restitution along the line of centres, Coulomb friction against the slip
//! vector, its coefficient following the slip as that falls.

use super::falling_friction::slip_lost_m_s;
use crate::equipment::{Ball, BallContact};
use crate::vector::{Vec2, Vec3};

/// One ball at a contact of two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Radius, m.
    pub radius_m: f64,
    /// Mass, kg; its moment of inertia is (2/5)·m·R².
    pub mass_kg: f64,
}

impl From<&Ball> for Body {
    fn from(ball: &Ball) -> Self {
        Self { radius_m: ball.radius_m(), mass_kg: ball.mass_kg }
    }
}

/// The effect of two balls on each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallHit {
    /// Velocity, m/s, and spin, rad/s, of each ball afterwards.
    pub after: [(Vec2, Vec3); 2],
    /// Impulse along the line of centres, N·s; 0 when the balls did not close.
    pub normal_impulse: f64,
    /// Impulse of friction, N·s.
    pub friction_impulse: f64,
    /// Slip of the first ball's surface over the second's when contact begins, m/s: its part square
    /// to the line of centres in the table's plane (positive to the left of the normal) …
    pub slip_across_m_s: f64,
    /// … and its part up along the contact.
    pub slip_up_m_s: f64,
    /// Length of the slip vector, m/s.
    pub slip_m_s: f64,
    /// The coefficient of friction at that slip, with which contact begins.
    pub friction: f64,
    /// The surfaces slid all through the contact; otherwise friction stopped their slip.
    pub slides: bool,
}

/// The frame of a contact: the line of centres from the first ball to the second, the horizontal
/// tangent to the left of it, and the tangent that rises.
struct ContactFrame {
    /// Unit, in the table's plane.
    normal: Vec2,
    /// Unit, in the table's plane, square to the normal.
    left: Vec2,
    /// Cosine of the tilt of the line of centres.
    cos: f64,
    /// Sine of the tilt; positive when the second ball is the larger one.
    sin: f64,
    /// m₁m₂/(m₁ + m₂), kg.
    reduced_mass: f64,
}

impl ContactFrame {
    fn new(normal: Vec2, bodies: &[Body; 2]) -> Self {
        let (cos, sin) = tilt(bodies);
        let left = Vec2::new(-normal.y, normal.x);
        Self { normal, left, cos, sin, reduced_mass: reduced_mass(bodies) }
    }
}

/// Two balls that rest on one plane touch where their centres, R₁ and R₂ high and R₁ + R₂ apart, are
/// 2√(R₁R₂) apart in the plane. Cosine and sine.
fn tilt(bodies: &[Body; 2]) -> (f64, f64) {
    let [first, second] = [bodies[0].radius_m, bodies[1].radius_m];
    if first == second {
        return (1.0, 0.0);
    }
    let sum = first + second;
    (2.0 * (first * second).sqrt() / sum, (second - first) / sum)
}

fn closing(normal: Vec2, before: &[(Vec2, Vec3); 2]) -> f64 {
    (before[0].0 - before[1].0).dot(normal)
}

fn reduced_mass(bodies: &[Body; 2]) -> f64 {
    bodies[0].mass_kg * bodies[1].mass_kg / (bodies[0].mass_kg + bodies[1].mass_kg)
}

/// Speed at which two balls close in the table's plane, m/s; not positive when they do not.
/// `normal` is the unit vector in the plane from the first centre to the second.
pub fn approach_speed(normal: Vec2, before: [(Vec2, Vec3); 2]) -> f64 {
    closing(normal, &before)
}

/// The factor from the speed at which two balls close in the table's plane to the impulse along the line of
/// centres that ends their closing along that line, kg: m₁m₂/(m₁ + m₂), times the cosine of the line's tilt.
/// An impact of restitution e has (1 + e) times as much.
pub fn effective_mass(bodies: [Body; 2]) -> f64 {
    reduced_mass(&bodies) * tilt(&bodies).0
}

/// Both balls after they met.
///
/// `normal` is the unit vector in the table's plane from the first centre to the second; `before`
/// holds each ball's velocity and spin. Balls that do not close are left as they are.
///
/// Derived from Newton–Euler for uniform solid balls. Along the line of centres the speed of closing
/// reverses by Newton's ratio e. Square to it, friction acts against the slip vector, whose vertical
/// part carries follow and draw over and whose horizontal part throws and carries side over. Friction
/// does not turn the slip's direction, only its size changes: its impulse is ∫ μ(slip)·dPn along the
/// way, at most what ends the slip, (2/7)·m₁m₂/(m₁ + m₂)·|slip|. Where μ is the same at every slip that
/// is the smaller of μ·Pn and of what ends it.
///
/// **Left out**: friction between the balls would lift one and press the other, and so does the line
/// of centres where the balls differ in size (it is tilted: they rest on one cloth). That vertical
/// velocity is discarded and the cloth gives no impulse. Only where the tilt would leave the balls
/// still closing in the plane, small e and very unlike radii, do the cloth and the ball over it hold
/// until they no longer close.
///
/// Exchanging the balls exchanges the results to the bit; so does a mirror along either axis.
#[must_use]
pub fn ball_ball(
    contact: &BallContact,
    normal: Vec2,
    bodies: [Body; 2],
    before: [(Vec2, Vec3); 2],
) -> BallHit {
    let frame = ContactFrame::new(normal, &bodies);
    let speed = closing(normal, &before);
    if speed <= 0.0 {
        return resolve(contact, &frame, &bodies, before, 0.0);
    }
    let reduced = frame.reduced_mass;
    let normal_impulse = (1.0 + contact.restitution) * (reduced * frame.cos) * speed;
    let mut hit = resolve(contact, &frame, &bodies, before, normal_impulse);
    if frame.sin != 0.0 {
        let still = closing(normal, &hit.after);
        if still > 0.0 {
            let level = normal * (reduced * still);
            hit.after[0].0 = hit.after[0].0 - level * (1.0 / bodies[0].mass_kg);
            hit.after[1].0 += level * (1.0 / bodies[1].mass_kg);
            hit.normal_impulse += reduced * still / frame.cos;
        }
    }
    hit
}

/// Both balls after an impulse of `normal_impulse`, N·s and not negative, along their line of
/// centres and the friction that goes with it, as in [`ball_ball`]: for contacts that are resolved
/// together with others, where something else than this contact's restitution decides the impulse.
#[must_use]
pub fn with_normal_impulse(
    contact: &BallContact,
    normal: Vec2,
    bodies: [Body; 2],
    before: [(Vec2, Vec3); 2],
    normal_impulse: f64,
) -> BallHit {
    resolve(contact, &ContactFrame::new(normal, &bodies), &bodies, before, normal_impulse)
}

/// Every sum here changes sign as a whole, or not at all, when the balls are exchanged or an axis is
/// mirrored: that is what keeps the symmetries to the bit.
fn resolve(
    contact: &BallContact,
    frame: &ContactFrame,
    bodies: &[Body; 2],
    before: [(Vec2, Vec3); 2],
    normal_impulse: f64,
) -> BallHit {
    let ContactFrame { normal, left, cos, sin, reduced_mass } = *frame;
    let [first, second] = bodies;
    let [(v1, w1), (v2, w2)] = before;

    // Slip (v₁ − v₂) + (R₁w₁ + R₂w₂) × n, n = (cos·normal, sin), on the tangents left and
    // n × left = (−sin·normal, cos).
    let relative = v1 - v2;
    let turning = Vec3::new(
        first.radius_m * w1.x + second.radius_m * w2.x,
        first.radius_m * w1.y + second.radius_m * w2.y,
        first.radius_m * w1.z + second.radius_m * w2.z,
    );
    let level_turning = Vec2::new(turning.x, turning.y);
    let across = relative.dot(left) + (cos * turning.z - sin * level_turning.dot(normal));
    let up = -(sin * relative.dot(normal)) - level_turning.dot(left);
    let slip = (across * across + up * up).sqrt();

    let friction = contact.friction_at(slip);
    // Tangential impulse that takes 1 m/s of slip, kg.
    let against_slip = 2.0 / 7.0 * reduced_mass;
    let ends_slip = against_slip * slip;
    let most = match contact.same_friction() {
        Some(same) => same * normal_impulse,
        None => against_slip * slip_lost_m_s(contact, slip, normal_impulse / against_slip),
    };
    let slides = most < ends_slip && normal_impulse > 0.0;
    let friction_impulse = most.min(ends_slip);
    let per_slip = if slip > 0.0 { friction_impulse / slip } else { 0.0 };
    let (p_across, p_up) = (per_slip * across, per_slip * up);

    // On the second ball; the first has the opposite.
    let along = cos * normal_impulse - sin * p_up;
    let level =
        Vec2::new(along * normal.x + p_across * left.x, along * normal.y + p_across * left.y);
    // n × impulse. Both balls are turned the same way.
    let lean = -(sin * p_across);
    let turn =
        Vec3::new(lean * normal.x - p_up * left.x, lean * normal.y - p_up * left.y, cos * p_across);
    let pushed = |velocity: Vec2, spin: Vec3, body: &Body, sign: f64| {
        let by_mass = sign / body.mass_kg;
        let by_inertia = 2.5 / (body.mass_kg * body.radius_m);
        (
            Vec2::new(velocity.x + by_mass * level.x, velocity.y + by_mass * level.y),
            Vec3::new(
                spin.x - by_inertia * turn.x,
                spin.y - by_inertia * turn.y,
                spin.z - by_inertia * turn.z,
            ),
        )
    };
    BallHit {
        after: [pushed(v1, w1, first, -1.0), pushed(v2, w2, second, 1.0)],
        normal_impulse,
        friction_impulse,
        slip_across_m_s: across,
        slip_up_m_s: up,
        slip_m_s: slip,
        friction,
        slides,
    }
}

#[cfg(test)]
mod tests;

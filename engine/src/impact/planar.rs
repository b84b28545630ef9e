//! The textbook impact of a sphere's equator with a rough wall (θ = 0), in closed form.

use super::{Bounce, CushionContact, Rebound};
use crate::vector::{Vec2, Vec3};

/// Newton's restitution square to the cushion and Coulomb friction along it: the impulse along the
/// cushion is min(μ·Pn, (2/7)·m·|slip|) against the slip vx − R·wz. The spin about horizontal axes
/// is kept. Derived from Newton–Euler for I = (2/5)·m·R².
pub fn planar(contact: &CushionContact, before: Bounce) -> Rebound {
    let normal_speed = before.velocity.y;
    if normal_speed <= 0.0 {
        return Rebound::untouched(contact, before);
    }
    let restitution = contact.restitution_at(normal_speed);
    let normal_impulse = (1.0 + restitution) * normal_speed;
    let slip = before.velocity.x - contact.radius_m * before.spin.z;
    let impulse = (contact.nose_friction * normal_impulse).min(2.0 / 7.0 * slip.abs());
    let signed = if slip > 0.0 { -impulse } else { impulse };
    Rebound {
        velocity: Vec2::new(before.velocity.x + signed, -restitution * normal_speed),
        spin: Vec3::new(
            before.spin.x,
            before.spin.y,
            before.spin.z - 2.5 * signed / contact.radius_m,
        ),
        restitution,
        outside_checked_speed: normal_speed > contact.checked_speed_m_s,
        hop: false,
    }
}

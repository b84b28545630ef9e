//! One impulse at the raised nose, in closed form; the cloth's reaction is left out.

use super::{Bounce, CushionContact, Rebound};
use crate::vector::{Vec2, Vec3};

/// The kind of model of Han 2005, J. Mech. Sci. Tech. 19(4):976–984, derived from Newton–Euler:
/// the approach speed along the line of centres is vn = vy·cosθ, the normal impulse
/// Pn = m·(1 + e)·vn, and the friction min(μ·Pn, (2/7)·m·|s|) acts against the slip at the nose,
/// s = (vx + R·wy·sinθ − R·wz·cosθ, −vy·sinθ + R·wx) along x and (0, −sinθ, cosθ). The vertical
/// velocity that would result is set to zero, as the cloth and gravity keep the ball down. Where
/// that would leave the centre on its way into the cushion (little restitution under a high nose,
/// or much draw), the cushion stops it: vy = 0.
pub fn nose_only(contact: &CushionContact, before: Bounce) -> Rebound {
    let (sin, cos, radius) = (contact.sin_theta, contact.cos_theta, contact.radius_m);
    let (v, w) = (before.velocity, before.spin);
    if v.y <= 0.0 {
        return Rebound::untouched(contact, before);
    }
    let restitution = contact.restitution_at(v.y);
    let normal_impulse = (1.0 + restitution) * v.y * cos;
    let slip_x = v.x + radius * (w.y * sin - w.z * cos);
    let slip_up = -v.y * sin + radius * w.x;
    let slip = (slip_x * slip_x + slip_up * slip_up).sqrt();
    let friction = (contact.nose_friction * normal_impulse).min(2.0 / 7.0 * slip);
    let (along, up) = if slip > 0.0 {
        (-friction * slip_x / slip, -friction * slip_up / slip)
    } else {
        (0.0, 0.0)
    };
    let per_radius = 2.5 / radius;
    Rebound {
        velocity: Vec2::new(v.x + along, (v.y - normal_impulse * cos - up * sin).min(0.0)),
        spin: Vec3::new(
            w.x + per_radius * up,
            w.y + per_radius * along * sin,
            w.z - per_radius * along * cos,
        ),
        restitution,
        outside_checked_speed: v.y > contact.checked_speed_m_s,
        hop: false,
    }
}

//! The nose-and-cloth impact by a fixed number of plain steps in impulse, as its authors describe it
//! (Mathavan, Jackson & Parkin 2010, Proc. Inst. Mech. Eng. C 224(9):1863–1873).

use railproof_engine::impact::{Bounce, CushionContact};
use railproof_engine::vector::{Vec2, Vec3};

/// Velocity and spin after about `steps` steps (their length is set from the approach speed, as the
/// impulse of the whole impact is not known beforehand).
pub fn fixed_step_impact(contact: &CushionContact, before: Bounce, steps: u32) -> Bounce {
    let (sin, cos, radius) = (contact.sin_theta, contact.cos_theta, contact.radius_m);
    let restitution = contact.restitution_at(before.velocity.y);
    let step = (1.0 + restitution) * before.velocity.y / f64::from(steps);
    let turn = 2.5 / radius;
    let (mut v, mut w) = (before.velocity, before.spin);
    let (mut work, mut end_work) = (0.0, f64::NEG_INFINITY);
    while v.y > 0.0 || work > end_work {
        let nose = Vec2::new(v.x + radius * (w.y * sin - w.z * cos), -v.y * sin + radius * w.x)
            .unit_or_zero();
        let cloth = Vec2::new(v.x - radius * w.y, v.y + radius * w.x).unit_or_zero();
        let press = (sin + contact.nose_friction * nose.y * cos).max(0.0);
        let grip = nose * contact.nose_friction;
        let drag = cloth * (contact.impact_cloth_friction * press);
        let speed = v.y;
        v = Vec2::new(v.x - (grip.x + drag.x) * step, v.y - (cos - grip.y * sin + drag.y) * step);
        w = Vec3::new(
            w.x - turn * (grip.y + drag.y) * step,
            w.y - turn * (grip.x * sin - drag.x) * step,
            w.z + turn * grip.x * cos * step,
        );
        work += 0.5 * (speed + v.y) * cos * step;
        if speed > 0.0 && v.y <= 0.0 {
            end_work = (1.0 - restitution * restitution) * work;
        }
    }
    Bounce { velocity: v, spin: w }
}

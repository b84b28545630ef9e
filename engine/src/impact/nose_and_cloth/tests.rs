//! Check values computed by an independent program from the published equations, to 1e-5.

use super::*;

fn contact(sin: f64, e: f64, nose: f64, cloth: f64) -> CushionContact {
    CushionContact {
        radius_m: 1.0,
        sin_theta: sin,
        cos_theta: (1.0 - sin * sin).sqrt(),
        nose_friction: nose,
        cloth_friction: cloth,
        restitution: e,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        checked_speed_m_s: 2.5,
    }
}

fn rolling(angle_deg: f64, wz: f64) -> Bounce {
    let angle = angle_deg.to_radians();
    let velocity = Vec2::new(libm::cos(angle), libm::sin(angle));
    Bounce { velocity, spin: Vec3::new(-velocity.y, velocity.x, wz) }
}

fn stun(angle_deg: f64) -> Bounce {
    Bounce { spin: Vec3::ZERO, ..rolling(angle_deg, 0.0) }
}

#[test]
fn agrees_with_independent_values() {
    let snooker = contact(0.4, 0.98, 0.14, 0.212);
    let pool = contact(0.27, 0.85, 0.2, 0.2);
    let cases = [
        (snooker, stun(90.0), [0.0, -0.83732, -0.07830, 0.0, 0.0]),
        (snooker, rolling(90.0, 0.0), [0.0, -0.91066, -0.23517, 0.0, 0.0]),
        (snooker, stun(45.0), [0.42057, -0.62871, -0.03293, 0.08662, 0.41225]),
        (snooker, rolling(45.0, 0.0), [0.51390, -0.67406, -0.18251, 0.51390, 0.44269]),
        (snooker, rolling(45.0, 1.0), [0.68613, -0.64411, -0.16710, 0.68613, 1.04807]),
        (snooker, rolling(45.0, -1.0), [0.48941, -0.68226, -0.24281, 0.48941, -0.50120]),
        (snooker, rolling(30.0, 0.0), [0.71409, -0.48168, -0.16491, 0.71409, 0.34813]),
        (pool, rolling(45.0, 0.0), [0.49575, -0.59442, -0.20092, 0.55477, 0.51610]),
    ];
    for (contact, before, expected) in cases {
        let (after, trace) = nose_and_cloth_traced(&contact, before);
        let got = [after.velocity.x, after.velocity.y, after.spin.x, after.spin.y, after.spin.z];
        for (value, wanted) in got.iter().zip(expected) {
            assert!((value - wanted).abs() < 1.1e-5, "{got:?} against {expected:?}, {trace:?}");
        }
    }
}

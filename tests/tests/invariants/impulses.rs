//! The impulses behind a rebound, worked out backwards from the change of velocity and spin and
//! held to the friction cones. Mass 1.

use crate::strategies::{cases, impact, size};
use proptest::prelude::*;
use railproof_engine::impact::{
    Bounce, CushionContact, Rebound, nose_and_cloth, nose_only, planar,
};

/// The ball's gain: velocity along x and y, and spin as the impulses that make it, R·Δw/2.5.
struct Change {
    velocity: [f64; 2],
    turn: [f64; 3],
}

impl Change {
    fn new(before: &Bounce, after: &Rebound, radius: f64) -> Self {
        let turn = |a: f64, b: f64| (a - b) * radius / 2.5;
        Self {
            velocity: [after.velocity.x - before.velocity.x, after.velocity.y - before.velocity.y],
            turn: [
                turn(after.spin.x, before.spin.x),
                turn(after.spin.y, before.spin.y),
                turn(after.spin.z, before.spin.z),
            ],
        }
    }
}

/// Impulse at the nose for a given total of its normal part, and what is left for the cloth.
struct Shares {
    nose: [f64; 2],
    cloth: [f64; 2],
    cloth_normal: f64,
}

/// The nose at (0, cosθ, sinθ) gives −P along the line of centres, `nose` along x and up the nose;
/// the cloth at (0, 0, −1) gives `cloth` along x and y and its normal impulse, which keeps the centre
/// at its height. Five changes leave one unknown, P itself.
fn shares(contact: &CushionContact, change: &Change, normal: f64) -> Shares {
    let (sin, cos) = (contact.sin_theta, contact.cos_theta);
    let along = -change.turn[2] / cos;
    let into = (change.velocity[1] + cos * normal + sin * change.turn[0]) / (1.0 + sin);
    let up = change.turn[0] - into;
    Shares {
        nose: [along, up],
        cloth: [change.velocity[0] - along, into],
        cloth_normal: sin * normal - cos * up,
    }
}

fn length(v: [f64; 2]) -> f64 {
    (v[0] * v[0] + v[1] * v[1]).sqrt()
}

/// The least value of a convex function between two places, by golden section.
fn least(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let mut best = f(low).min(f(high));
    for _ in 0..90 {
        let (a, b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        let (at_a, at_b) = (f(a), f(b));
        best = best.min(at_a).min(at_b);
        if at_a <= at_b {
            high = b;
        } else {
            low = a;
        }
    }
    best
}

proptest! {
    #![proptest_config(cases(1))]

    /// Planar: the tangential impulse is inside the cone, works against the slip, and is at the
    /// cone's edge unless it has ended the slip.
    #[test]
    fn planar_friction((contact, before) in impact()) {
        let radius = contact.radius_m;
        let after = planar(&contact, before);
        let within = 1e-12 * size(&before, radius);
        let change = Change::new(&before, &after, radius);
        let normal = -change.velocity[1];
        let tangential = change.velocity[0];
        prop_assert!((normal - (1.0 + after.restitution) * before.velocity.y).abs() <= within);
        prop_assert!((change.turn[2] + tangential).abs() <= within);
        prop_assert_eq!((after.spin.x, after.spin.y), (before.spin.x, before.spin.y));
        let cone = contact.nose_friction * normal;
        prop_assert!(tangential.abs() <= cone + within);
        let slip = before.velocity.x - radius * before.spin.z;
        prop_assert!(tangential * slip <= 0.0);
        let left = after.velocity.x - radius * after.spin.z;
        prop_assert!(left.abs() <= 10.0 * within || (tangential.abs() - cone).abs() <= within);
        prop_assert!(left * slip >= -within * size(&before, radius));
    }

    /// Nose-only: the same for the raised contact. The vertical impulse, whose velocity the model
    /// discards, shows in the spin.
    #[test]
    fn nose_only_friction((contact, before) in impact()) {
        let (sin, cos, radius) = (contact.sin_theta, contact.cos_theta, contact.radius_m);
        let after = nose_only(&contact, before);
        let scale = size(&before, radius);
        let within = 4e-12 * scale;
        let change = Change::new(&before, &after, radius);
        let [along, up] = [-change.turn[2] / cos, change.turn[0]];
        let normal = (1.0 + after.restitution) * before.velocity.y * cos;
        prop_assert!((change.turn[1] - sin * along).abs() <= within);
        prop_assert!((change.velocity[0] - along).abs() <= within);
        // The centre never goes on into the cushion; where the impulse would leave it so, it stops.
        let into = before.velocity.y - cos * normal - sin * up;
        prop_assert!((after.velocity.y - into.min(0.0)).abs() <= within);
        let cone = contact.nose_friction * normal;
        prop_assert!(length([along, up]) <= cone + within);
        let slip = [
            before.velocity.x + radius * (before.spin.y * sin - before.spin.z * cos),
            radius * before.spin.x - before.velocity.y * sin,
        ];
        prop_assert!(along * slip[0] + up * slip[1] <= within * scale);
        prop_assert!((along * slip[1] - up * slip[0]).abs() <= within * scale);
        // Both parts of the slip fade at 7/2 of the impulse.
        let left = [slip[0] + 3.5 * along, slip[1] + 3.5 * up];
        prop_assert!(length(left) <= within || (length([along, up]) - cone).abs() <= within);
    }

    /// Nose-and-cloth: the cloth and nose impulses along the rail are known from the spin; for the
    /// rest some normal impulse must exist for which both contacts are inside their cones (sums of
    /// friction are no longer than μ times sums of pressure). Necessary, not sufficient: how each
    /// moment goes is held by the independent integration.
    #[test]
    fn nose_and_cloth_friction((contact, before) in impact()) {
        let (sin, radius) = (contact.sin_theta, contact.radius_m);
        let after = nose_and_cloth(&contact, before);
        let scale = size(&before, radius);
        let change = Change::new(&before, &after, radius);
        let any = shares(&contact, &change, 0.0);
        let lever = change.turn[1] - (sin * any.nose[0] - any.cloth[0]);
        prop_assert!(lever.abs() <= 1e-11 * scale, "the spin about y is out by {lever}");
        let outside = |normal: f64| {
            let Shares { nose, cloth, cloth_normal } = shares(&contact, &change, normal);
            let nose_excess = length(nose) - contact.nose_friction * normal;
            // Where the ball would hop the cloth's pressure is cut off, so its total is unknown.
            let cloth_excess = if after.hop {
                f64::NEG_INFINITY
            } else {
                (length(cloth) - contact.impact_cloth_friction * cloth_normal).max(-cloth_normal)
            };
            nose_excess.max(cloth_excess)
        };
        let excess = least(outside, 0.0, 50.0 * scale);
        prop_assert!(excess <= 1e-9 * scale, "outside the cones by {}", excess / scale);
    }
}

//! Tip against ball: spin for the offset, squirt for the shaft.

use super::{exact, printed};
use railproof_engine::equipment::{Ball, Cue};
use railproof_engine::stroke::{Stroke, StruckBall};

const BALL: Ball = Ball { diameter_m: 0.057_15, mass_kg: 0.17 };

/// 2 m/s along x; the ball is `ratio` times as heavy as the shaft's end.
fn struck(ratio: f64, side_offset: f64, height_offset: f64) -> StruckBall {
    let cue = Cue { end_mass_kg: BALL.mass_kg / ratio, miscue_offset: 0.9, ..Cue::USUAL };
    let stroke = Stroke { side_offset, height_offset, ..Stroke::centre(2.0, 0.0) };
    stroke.strike(&BALL, &cue).expect("it is within range")
}

/// Computed from tanα = (5/2)·b·√(1 − b²)/(1 + (5/2)·(1 − b²) + m/mₑ) (the end-mass model of Shepard
/// 2001; derived), b = 0.5.
#[test]
fn squirt_at_half_the_radius() {
    for (ratio, digits) in [(10.0, "4.806"), (20.0, "2.709"), (30.0, "1.886")] {
        printed(struck(ratio, 0.5, 0.0).squirt_rad.to_degrees(), digits);
        printed(struck(ratio, -0.5, 0.0).squirt_rad.to_degrees(), &format!("-{digits}"));
    }
}

/// Derived: an impulse at b, square to itself, turns a uniform ball with w·R/v = (5/2)·b/R. Squirt turns
/// the impulse towards the centre, so an offset counted from the cue's axis gives
/// (1 + m/mₑ)/(1 + m/mₑ + (5/2)·c²) of that, c² = 1 − b²: for an end of a twentieth of the ball's mass
/// 10.6 % less at small offsets and 8.2 % less at half the radius. A shaft without squirt gives it whole.
#[test]
fn spin_for_the_offset() {
    let radius = BALL.radius_m();
    for b in [-0.5, -0.4, 0.1, 0.4] {
        let share = 21.0 / (21.0 + 2.5 * (1.0 - b * b));
        exact(struck(20.0, 0.0, b).spin.y * radius, 2.5 * b * 2.0 * share);
        exact(struck(20.0, b, 0.0).spin.z * radius, 2.5 * b * 2.0 * share);
    }
    let lost = |b: f64| 100.0 * (1.0 - struck(20.0, b, 0.0).spin.z * radius / (5.0 * b));
    printed(lost(0.001), "10.6");
    printed(lost(0.5), "8.2");

    // 2/5 of the radius above the centre rolls at once.
    let cue = Cue { end_mass_kg: 0.0, miscue_offset: 0.9, ..Cue::USUAL };
    let stroke = Stroke { height_offset: 0.4, ..Stroke::centre(2.0, 0.0) };
    let rolling = stroke.strike(&BALL, &cue).expect("it is within range");
    exact(rolling.spin.y * radius, rolling.velocity.x);
}

/// The squirt formula re-derived without it: three impulses at the tip (along the cue and two square
/// to it) such that the ball's surface and the end mass leave with the same velocity square to the
/// cue, solved as a linear system for an offset to the right and above.
#[test]
fn squirt_by_impulses() {
    for (ratio, side, height) in
        [(20.0, 0.5, 0.0), (15.0, 0.3, 0.3), (30.0, -0.2, 0.45), (8.0, 0.6, -0.4)]
    {
        let depth = f64::sqrt(1.0 - side * side - height * height);
        // m = R = 1, unit impulse along the cue (x); y left, z up. The tip's place:
        let tip = [-depth, -side, height];
        // Velocity of the surface at the tip for an impulse there.
        let surface = |impulse: [f64; 3]| {
            let spin = cross(tip, impulse).map(|w| 2.5 * w);
            let turned = cross(spin, tip);
            [0, 1, 2].map(|k| impulse[k] + turned[k])
        };
        let along = surface([1.0, 0.0, 0.0]);
        let (left, up) = (surface([0.0, 1.0, 0.0]), surface([0.0, 0.0, 1.0]));
        // The end mass 1/ratio moves with −ratio times the impulse it gives.
        let (a, b, c, d) = (left[1] + ratio, up[1], left[2], up[2] + ratio);
        let aside = (-along[1] * d + along[2] * b) / (a * d - b * c);
        exact(struck(ratio, side, height).squirt_rad, aside.atan());
    }
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

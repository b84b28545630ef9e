//! Strokes over the whole of what is accepted.

use crate::strategies::{accepted, any_size, between, cases};
use proptest::prelude::*;
use railproof_engine::equipment::{Ball, Cue};
use railproof_engine::stroke::{Stroke, StrokeError, StruckBall};

fn stroke() -> impl Strategy<Value = Stroke> {
    (
        any_size(0.02, 10.0),
        between(-7.0, 7.0),
        between(-1.2, 1.2),
        between(-1.2, 1.2),
        prop_oneof![Just(0.0), accepted(Stroke::ELEVATION)],
        prop::bool::ANY,
    )
        .prop_map(
            |(speed_m_s, aim_rad, side_offset, height_offset, elevation_rad, allow_miscue)| {
                Stroke {
                    speed_m_s,
                    aim_rad,
                    side_offset,
                    height_offset,
                    elevation_rad,
                    least_elevation: false,
                    allow_miscue,
                }
            },
        )
}

fn ball() -> impl Strategy<Value = Ball> {
    (accepted(Ball::DIAMETER), accepted(Ball::MASS))
        .prop_map(|(diameter_m, mass_kg)| Ball { diameter_m, mass_kg })
}

fn cue() -> impl Strategy<Value = Cue> {
    (accepted(Cue::END_MASS), accepted(Cue::MISCUE_OFFSET))
        .prop_map(|(end_mass_kg, miscue_offset)| Cue { end_mass_kg, miscue_offset, ..Cue::USUAL })
}

fn numbers(struck: &StruckBall) -> Vec<f64> {
    let StruckBall { velocity: v, up_m_s, spin: w, squirt_rad, .. } = struck;
    vec![v.x, v.y, *up_m_s, w.x, w.y, w.z, *squirt_rad]
}

/// A signed zero counts as zero.
fn bits(numbers: &[f64]) -> Vec<u64> {
    numbers.iter().map(|number| (number + 0.0).to_bits()).collect()
}

proptest! {
    #![proptest_config(cases(1))]

    /// Every refused stroke is refused for its offset, and no other is refused.
    #[test]
    fn refusals(stroke in stroke(), ball in ball(), cue in cue()) {
        let offset = stroke.side_offset.hypot(stroke.height_offset);
        match stroke.strike(&ball, &cue) {
            Err(StrokeError::OutsideBall { .. }) => prop_assert!(offset >= 1.0 - 1e-15),
            Err(StrokeError::Miscue { .. }) => {
                prop_assert!(offset > cue.miscue_offset && offset < 1.0 + 1e-15);
                prop_assert!(!stroke.allow_miscue);
            }
            Err(other) => prop_assert!(false, "{other}"),
            Ok(struck) => {
                prop_assert!(offset < 1.0 + 1e-15);
                prop_assert!(numbers(&struck).iter().all(|number| number.is_finite()));
                prop_assert_eq!(struck.miscue, stroke.offset() > cue.miscue_offset * (1.0 + 1e-12));
            }
        }
    }

    /// The mirror y → −y.
    #[test]
    fn strokes_mirror(stroke in stroke(), ball in ball(), cue in cue()) {
        let image = Stroke { aim_rad: -stroke.aim_rad, side_offset: -stroke.side_offset, ..stroke };
        if let (Ok(struck), Ok(image)) = (stroke.strike(&ball, &cue), image.strike(&ball, &cue)) {
            let [vx, vy, up, wx, wy, wz, squirt] = numbers(&struck)[..] else { unreachable!() };
            prop_assert_eq!(bits(&[vx, -vy, up, -wx, wy, -wz, -squirt]), bits(&numbers(&image)));
        }
    }

    #[test]
    fn speeds_scale(stroke in stroke(), ball in ball(), cue in cue()) {
        let faster = Stroke { speed_m_s: 2.0 * stroke.speed_m_s, ..stroke };
        if let (Ok(slow), Ok(fast)) = (stroke.strike(&ball, &cue), faster.strike(&ball, &cue)) {
            let mut wanted = numbers(&slow);
            wanted[..6].iter_mut().for_each(|number| *number *= 2.0);
            prop_assert_eq!(bits(&wanted), bits(&numbers(&fast)));
        }
    }

    /// One impulse whatever the elevation: the spin is (5/2)·v/R times its arm about the centre, about
    /// an axis square to the cue; along the cue the ball has the speed that was asked for; squirt goes
    /// away from the tip.
    #[test]
    fn spin_and_speed(stroke in stroke(), ball in ball(), cue in cue()) {
        if let Ok(struck) = stroke.strike(&ball, &cue) {
            let (b, StruckBall { velocity: v, up_m_s, .. }) = (stroke.offset(), struck);
            let speed = (v.x * v.x + v.y * v.y + up_m_s * up_m_s).sqrt();
            let lean = (stroke.speed_m_s / speed).min(1.0).acos();
            let arm = (b.min(1.0).asin() - lean).sin();
            let surface = struck.spin.norm() * ball.radius_m();
            // The arc cosine near 1 gives half of the digits.
            prop_assert!((surface - 2.5 * arm * speed).abs() <= 1e-7 * stroke.speed_m_s);

            let (sin, cos) = stroke.aim_rad.sin_cos();
            let (down, level) = stroke.elevation_rad.sin_cos();
            let along =
                level * (cos * struck.spin.x + sin * struck.spin.y) - down * struck.spin.z;
            prop_assert!((along * ball.radius_m()).abs() <= 1e-13 * stroke.speed_m_s);

            let ahead = level * (cos * v.x + sin * v.y) - down * up_m_s;
            prop_assert!((ahead - stroke.speed_m_s).abs() <= 1e-13 * stroke.speed_m_s);
            prop_assert!(struck.squirt_rad * stroke.side_offset >= 0.0);
        }
    }
}

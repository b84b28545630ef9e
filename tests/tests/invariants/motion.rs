//! A free ball: what friction keeps, what it takes, and that no change of phase is stepped past.

use crate::strategies::{cases, free_ball};
use proptest::prelude::*;
use railproof_engine::motion::{BallState, Path, Phase};
use railproof_engine::vector::Vec2;

/// Where a path is looked at: from the start until well past rest, or for ten seconds where nothing
/// ends it.
fn horizon(path: &Path) -> f64 {
    let end = path.rests_from_s();
    if end.is_finite() { 1.1 * end } else { 10.0 }
}

fn scale(state: &BallState, radius: f64) -> f64 {
    state.velocity.norm() + radius * state.spin.norm()
}

proptest! {
    #![proptest_config(cases(1))]

    #[test]
    fn energy_never_grows((start, cloth) in free_ball(), a in 0.0..1.0_f64, b in 0.0..1.0_f64) {
        let path = Path::new(start, cloth);
        let at = |share: f64| path.state_at(share * horizon(&path));
        let (early, late) = (at(a.min(b)), at(a.max(b)));
        prop_assert!(early.is_finite() && late.is_finite());
        let energy = |state: BallState| state.energy_per_mass(cloth.radius_m);
        prop_assert!(energy(early) <= energy(start) * (1.0 + 1e-12));
        prop_assert!(energy(late) <= energy(early) + 1e-12 * energy(start));
    }

    /// The cloth's force acts at the lowest point, so the moment of momentum about it stays: while
    /// sliding, v + (2/5)·R·(wy, −wx) is one vector.
    #[test]
    fn moment_about_the_contact_is_kept((start, cloth) in free_ball(), share in 0.0..1.0_f64) {
        let path = Path::new(start, cloth);
        let time = share * if path.rolls_from_s().is_finite() { path.rolls_from_s() } else { 9.0 };
        let moment = |state: BallState| {
            state.velocity + Vec2::new(state.spin.y, -state.spin.x) * (0.4 * cloth.radius_m)
        };
        let moved = moment(path.state_at(time)) - moment(start);
        prop_assert!(moved.norm() <= 1e-12 * scale(&start, cloth.radius_m));
    }

    /// Slip keeps its direction and fades to nothing exactly where rolling begins; it never comes
    /// back, and the rolling ball never turns round.
    #[test]
    fn slide_ends_in_roll((start, cloth) in free_ball(), share in 0.0..1.0_f64) {
        let path = Path::new(start, cloth);
        let radius = cloth.radius_m;
        let scale = scale(&start, radius);
        let first = start.cloth_slip(radius);
        let rolls = path.rolls_from_s();
        let time = share * if rolls.is_finite() { rolls } else { 9.0 };
        if time < rolls {
            let slip = path.state_at(time).cloth_slip(radius);
            prop_assert_eq!(path.phase_at(time), Phase::Slide);
            prop_assert!(slip.cross(first).abs() <= 1e-12 * scale * scale);
            prop_assert!(slip.dot(first) >= -1e-12 * scale * scale);
            let left = first.norm() - 3.5 * cloth.sliding_deceleration_m_s2 * time;
            prop_assert!((slip.norm() - left).abs() <= 1e-12 * scale);
        }
        if rolls.is_finite() {
            let rolling = path.state_at(rolls);
            let end = path.rests_from_s();
            let length = if end.is_finite() { 1.1 * end - rolls } else { 10.0 };
            let later = path.state_at(rolls + share * length);
            for state in [rolling, later] {
                prop_assert!(state.cloth_slip(radius).norm() <= 1e-12 * scale);
            }
            prop_assert!(later.velocity.dot(rolling.velocity) >= 0.0);
            prop_assert!(later.velocity.cross(rolling.velocity).abs() <= 1e-12 * scale * scale);
            prop_assert!(later.velocity.norm() <= rolling.velocity.norm() * (1.0 + 1e-12));
        }
    }

    /// Spin about the vertical only fades, and stops at nothing.
    #[test]
    fn pivot_never_turns_round((start, cloth) in free_ball(), a in 0.0..1.0_f64, b in 0.0..1.0_f64) {
        let path = Path::new(start, cloth);
        let at = |share: f64| path.state_at(share * horizon(&path)).spin.z;
        let (early, late) = (at(a.min(b)), at(a.max(b)));
        prop_assert!(late * start.spin.z >= 0.0 && late.abs() <= early.abs());
        if path.rests_from_s().is_finite() {
            let rest = path.state_at(path.rests_from_s());
            prop_assert_eq!((rest.velocity, rest.spin.norm()), (Vec2::ZERO, 0.0));
            prop_assert_eq!(path.phase_at(path.rests_from_s()), Phase::Rest);
        }
    }

    /// The state does not jump where one phase becomes another.
    #[test]
    fn phases_join((start, cloth) in free_ball()) {
        let path = Path::new(start, cloth);
        let scale = scale(&start, cloth.radius_m);
        for time in [path.rolls_from_s(), path.centre_rests_from_s(), path.rests_from_s()] {
            if !(time.is_finite() && time > 0.0) {
                continue;
            }
            let (before, after) = (path.state_at(time.next_down()), path.state_at(time));
            let reach = 1.0 + scale * time;
            // Two neighbouring late times are so far apart that the ball really slows between them.
            let slowing = cloth.rolling_deceleration_m_s2
                + 2.5 * cloth.sliding_deceleration_m_s2
                + cloth.radius_m * cloth.pivot_deceleration_rad_s2;
            let within = 1e-12 * scale + slowing * (time - time.next_down());
            prop_assert!((after.position - before.position).norm() <= 1e-12 * reach);
            prop_assert!((after.velocity - before.velocity).norm() <= within);
            for (a, b) in [
                (after.spin.x, before.spin.x),
                (after.spin.y, before.spin.y),
                (after.spin.z, before.spin.z),
            ] {
                prop_assert!((a - b).abs() * cloth.radius_m <= within, "{a} after {b}");
            }
        }
    }
}

proptest! {
    #![proptest_config(cases(5))]

    /// The first crossing is on the line, goes outwards, and no sample before it shows another.
    #[test]
    fn the_first_crossing_is_the_first(
        (start, cloth) in free_ball(), turn in 0.0..core::f64::consts::TAU,
        reach in 0.0..1.0_f64, after in prop_oneof![Just(0.0), 0.0..1.0_f64],
    ) {
        const SAMPLES: u32 = 400;
        let path = Path::new(start, cloth);
        let normal = Vec2::new(turn.cos(), turn.sin());
        let end = horizon(&path).min(20.0);
        let depth = |time: f64| normal.dot(path.state_at(time).position);
        // A line somewhere about the path.
        let offset = depth(reach * end) * (0.2 + reach);
        let after = after * end;
        let found = path.first_crossing(normal, offset, after);
        // The crossing may lie far beyond the stretch that is sampled: rounding grows with the way.
        let size = |until: f64| 1.0 + offset.abs() + scale(&start, cloth.radius_m) * until;
        let rounding = 1e-12 * size(end);
        if let Some(time) = found {
            let size = size(time.max(end));
            let rounding = 1e-12 * size;
            prop_assert!(time > after);
            prop_assert!((depth(time) - offset).abs() <= rounding);
            prop_assert!(normal.dot(path.state_at(time).velocity) >= -1e-6 * size);
        }
        let stop = found.unwrap_or(end).min(end);
        let mut outside = depth(after) > offset - rounding;
        for sample in 1..SAMPLES {
            let time = after + (stop - after) * f64::from(sample) / f64::from(SAMPLES);
            let beyond = depth(time) - offset;
            prop_assert!(outside || beyond <= rounding, "beyond by {beyond} at {time} of {found:?}");
            outside = outside && beyond >= -rounding;
        }
    }
}

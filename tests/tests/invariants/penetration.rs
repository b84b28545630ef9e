//! No ball is ever beyond a groove, except in the mouth of the pocket it is played to.

use crate::strategies::{any_bank, cases, launch, line, placed};
use proptest::prelude::*;
use railproof_engine::bank::{Arrival, Bank, BankEnding};
use railproof_engine::motion::{ClothMotion, Path};
use railproof_engine::rail::Side;
use railproof_engine::vector::Vec2;

const SAMPLES: u32 = 100;
const DEEPEST_M: f64 = 1e-12;

/// The distance of a place beyond a groove where there is a cushion or another pocket.
fn beyond(bank: &Bank, place: Vec2) -> f64 {
    let geometry = bank.geometry();
    let in_target = |side: Side, along: f64| {
        geometry.openings.iter().any(|opening| {
            opening.pocket == geometry.pocket
                && opening.side == side
                // The very end of an opening belongs to neither.
                && along > opening.from_m - DEEPEST_M
                && along < opening.to_m + DEEPEST_M
        })
    };
    [
        (Side::Banked, place.y - geometry.span_m, place.x),
        (Side::Opposite, -place.y, place.x),
        (Side::Low, geometry.low_groove_m - place.x, place.y),
        (Side::High, place.x - geometry.high_groove_m, place.y),
    ]
    .into_iter()
    .filter(|(side, _, along)| !in_target(*side, *along))
    .map(|(_, depth, _)| depth)
    .fold(f64::NEG_INFINITY, f64::max)
}

/// When a path comes to a place that it is known to pass, by sampling and closing in.
fn time_at(path: &Path, place: Vec2, until_s: f64) -> f64 {
    let distance = |time: f64| (path.state_at(time).position - place).norm();
    let step = until_s / f64::from(20 * SAMPLES);
    let mut nearest = (0..=20 * SAMPLES)
        .map(|sample| f64::from(sample) * step)
        .min_by(|a, b| distance(*a).total_cmp(&distance(*b)))
        .unwrap_or(0.0);
    let mut reach = step;
    while reach > 1e-14 * until_s {
        for time in [nearest - reach, nearest + reach] {
            if time >= 0.0 && distance(time) < distance(nearest) {
                nearest = time;
            }
        }
        reach *= 0.5;
    }
    nearest
}

proptest! {
    #![proptest_config(cases(5))]

    #[test]
    fn no_ball_is_beyond_a_groove(bank in any_bank(), line in line(), launch in launch()) {
        let launch = placed(&bank, launch);
        let outcome = bank.play(line, launch).expect("it is valid");
        if outcome.ending == BankEnding::NoRoom {
            return Ok(());
        }
        let cloth = ClothMotion::new(bank.equipment());
        let geometry = bank.geometry();
        // A ball touches a mouth point when its centre is R·cosθ from it. What the engine calls its
        // way after that is the path extended to the mouth line.
        let touches = |place: Vec2| {
            [geometry.mouth.long_point, geometry.mouth.short_point]
                .into_iter()
                .any(|point| (place - point).norm() < geometry.groove_m)
        };
        let sampled = |path: &Path, until_s: f64, place: &str| {
            for sample in 0..SAMPLES {
                let time = until_s * f64::from(sample) / f64::from(SAMPLES);
                let centre = path.state_at(time).position;
                if touches(centre) {
                    break;
                }
                let depth = beyond(&bank, centre);
                // Numbers around a metre, solved to rounding.
                let deepest = DEEPEST_M * (1.0 + geometry.high_groove_m);
                prop_assert!(depth <= deepest, "{depth} m deep {place} the rail: {outcome:?}");
            }
            Ok(())
        };
        let way_in = Path::new(outcome.launch, cloth);
        match outcome.at_rail {
            Some(at_rail) => sampled(&way_in, at_rail.time_s, "before")?,
            None => {
                if let BankEnding::StoppedBeforeRail(_) = outcome.ending {
                    sampled(&way_in, way_in.centre_rests_from_s(), "before")?;
                }
                return Ok(());
            }
        }
        // Held in the groove, it may run off the cushion's end.
        let Some(rebound) = outcome.rebound else { return Ok(()) };
        let way_out = Path::new(rebound.state, cloth);
        let since_departure = |arrival: Arrival| arrival.time_s - rebound.held_s;
        let rests = way_out.centre_rests_from_s();
        let until = match outcome.ending {
            BankEnding::AtMouth => since_departure(outcome.arrival.expect("it is at the mouth")),
            BankEnding::OtherRail(_, place) | BankEnding::OtherPocket(_, place) => {
                // Nothing need slow it: from where its way is straight, it covers the rest
                // of it at no less than half its speed.
                let slide = way_out.rolls_from_s();
                let (from_s, straight) =
                    if slide.is_finite() { (slide, way_out.roll()) } else { (0.0, way_out.slide()) };
                let far = (place - straight.position).norm() / straight.velocity.norm();
                let passes = if far.is_finite() { from_s + 2.0 * far } else { rests };
                let until = outcome.arrival.map_or(rests, since_departure).min(passes);
                let time = time_at(&way_out, place, until);
                let off = (way_out.state_at(time).position - place).norm();
                prop_assert!(off <= 1e-6, "the path misses its own end by {off}: {outcome:?}");
                time
            }
            BankEnding::StoppedBeforeMouth(_) => rests,
            BankEnding::StoppedBeforeRail(_) | BankEnding::NoRoom => 0.0,
        };
        sampled(&way_out, until, "after")?;
    }
}

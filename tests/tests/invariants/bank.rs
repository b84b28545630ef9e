//! Whole banks: finite numbers out of any valid input, and verdicts that follow from the geometry.

use crate::strategies::{
    any_bank, cases, equipment, launch, line, placed, playable, rail_and_pocket,
};
use proptest::prelude::*;
use railproof_engine::bank::{Bank, BankEnding, BankVerdict, Direction, Outcome};
use railproof_engine::equipment::RailModel;
use railproof_engine::motion::BallState;
use railproof_engine::rail::Line;

fn finite(outcome: &Outcome) -> bool {
    let states = [
        Some(outcome.launch),
        outcome.at_rail.map(|at_rail| at_rail.state),
        outcome.rebound.map(|rebound| rebound.state),
        outcome.arrival.map(|arrival| arrival.state),
    ];
    let places = match outcome.ending {
        BankEnding::OtherRail(_, place)
        | BankEnding::OtherPocket(_, place)
        | BankEnding::StoppedBeforeRail(place)
        | BankEnding::StoppedBeforeMouth(place) => place.is_finite(),
        BankEnding::AtMouth | BankEnding::NoRoom => true,
    };
    let rest = [
        outcome.at_rail.map(|at_rail| at_rail.time_s),
        outcome.at_rail.map(|at_rail| at_rail.contact),
        outcome.at_rail.map(|at_rail| at_rail.incidence_rad()),
        outcome.rebound.map(|rebound| rebound.restitution),
        outcome.rebound.map(|rebound| rebound.held_s),
        outcome.rebound.map(|rebound| rebound.departure),
        outcome.arrival.map(|arrival| arrival.time_s),
        outcome.arrival.map(|arrival| arrival.clearance_long_m),
        outcome.arrival.map(|arrival| arrival.clearance_short_m),
        outcome.miss_m(),
        outcome.clearance_m(),
        outcome.angle_difference_rad(),
    ];
    let rebound = outcome.rebound.is_none_or(|rebound| {
        rebound.rolling_velocity.is_finite() && !rebound.rolls_after_s.is_nan()
    });
    states.iter().flatten().all(BallState::is_finite)
        && places
        && rebound
        && outcome.target.is_finite()
        && rest.iter().flatten().all(|number| number.is_finite())
}

/// The verdict agrees with the rest of the outcome.
fn consistent(bank: &Bank, line: Line, outcome: &Outcome) -> Result<(), TestCaseError> {
    let verdict = outcome.verdict();
    let came_to_rail = outcome.at_rail.is_some();
    // A ball that runs off the cushion's end while it is held never comes off the rail.
    let ran_off = match outcome.ending {
        BankEnding::OtherPocket(_, place) | BankEnding::OtherRail(_, place) => {
            outcome.rebound.is_none() && place.y == bank.geometry().span_m
        }
        _ => false,
    };
    prop_assert!(came_to_rail == outcome.rebound.is_some() || came_to_rail && ran_off);
    match outcome.ending {
        BankEnding::AtMouth => {
            let arrival = outcome.arrival;
            prop_assert!(arrival.is_some());
            if let Some(arrival) = arrival {
                let clears = arrival.clearance_long_m > 0.0 && arrival.clearance_short_m > 0.0;
                prop_assert_eq!(verdict == BankVerdict::Holds, clears);
                let side = if arrival.miss_m > 0.0 { Direction::Long } else { Direction::Short };
                prop_assert!(clears || verdict == BankVerdict::TouchesPoint(side));
            }
        }
        BankEnding::OtherRail(..) => {
            let expected = match outcome.arrival {
                Some(arrival) if arrival.miss_m > 0.0 => BankVerdict::Long,
                Some(_) => BankVerdict::Short,
                None => BankVerdict::OtherRail,
            };
            prop_assert_eq!(verdict, expected);
        }
        BankEnding::OtherPocket(..) => prop_assert_eq!(verdict, BankVerdict::OtherPocket),
        BankEnding::NoRoom => prop_assert_eq!(verdict, BankVerdict::NoRoom),
        BankEnding::StoppedBeforeRail(_) => {
            prop_assert_eq!(verdict, BankVerdict::StoppedBeforeRail);
            prop_assert!(!came_to_rail);
        }
        BankEnding::StoppedBeforeMouth(_) => {
            prop_assert_eq!(verdict, BankVerdict::StoppedBeforeMouth);
            prop_assert!(outcome.arrival.is_none());
        }
    }
    let Some(arrival) = outcome.arrival else { return Ok(()) };
    // Distances of the mouth points from the path's tangent, by cross products.
    let (geometry, groove) = (bank.geometry(), bank.geometry().groove_m);
    let mut mouth = geometry.mouth;
    // A side pocket straight across that is played from its other side is mirrored.
    if line.contact < 0.0 && geometry.pocket.is_side() && !geometry.rail.is_end() {
        std::mem::swap(&mut mouth.long_point, &mut mouth.short_point);
    }
    let along = arrival.state.velocity.unit_or_zero();
    let left_of = |point| along.cross(point - arrival.state.position);
    let sense = if left_of(mouth.long_point) >= left_of(mouth.short_point) { 1.0 } else { -1.0 };
    let (long, short) = (sense * left_of(mouth.long_point), -sense * left_of(mouth.short_point));
    let within = 1e-11 * (1.0 + arrival.state.position.norm());
    prop_assert!((arrival.clearance_long_m - (long - groove)).abs() <= within);
    prop_assert!((arrival.clearance_short_m - (short - groove)).abs() <= within);
    prop_assert!((arrival.miss_m - 0.5 * (short - long)).abs() <= within);
    Ok(())
}

proptest! {
    #![proptest_config(cases(1))]

    #[test]
    fn any_valid_bank_is_finite_and_consistent(
        bank in any_bank(), line in line(), launch in launch(),
    ) {
        let launch = placed(&bank, launch);
        let outcome = bank.play(line, launch).expect("it is valid");
        prop_assert!(finite(&outcome), "{outcome:?}");
        consistent(&bank, line, &outcome)?;
        let speed = |state: &BallState| state.velocity.norm();
        prop_assert!((speed(&outcome.launch) - launch.speed_m_s).abs() <= 1e-12 * launch.speed_m_s);
    }

    /// The same where banks mostly come to the mouth.
    #[test]
    fn banks_that_are_played_are_consistent(
        equipment in playable(), (rail, pocket) in rail_and_pocket(),
        contact in 0.3..4.0_f64, ratio in 1.7..2.7_f64, launch in launch(),
    ) {
        let bank = Bank::new(&equipment, rail, pocket, RailModel::NoseAndCloth).expect("a bank");
        let line = Line::new(contact, ratio * contact);
        let outcome = bank.play(line, placed(&bank, launch)).expect("it is valid");
        prop_assert!(finite(&outcome), "{outcome:?}");
        consistent(&bank, line, &outcome)?;
    }
}

proptest! {
    // A bank that is stepped in time costs thousands of solved ones.
    #![proptest_config(cases(500))]

    #[test]
    fn a_compliant_bank_is_finite_and_consistent(
        equipment in equipment(), (rail, pocket) in rail_and_pocket(), line in line(),
        launch in launch(),
    ) {
        let mut equipment = equipment;
        // What it can resolve; the proptest strategy also gives the limit of an impulse.
        let contact_time_s = &mut equipment.cushion.contact_time_s;
        *contact_time_s = contact_time_s.max(0.5e-3);
        let bank = Bank::new(&equipment, rail, pocket, RailModel::Compliant).expect("a bank");
        let outcome = bank.play(line, placed(&bank, launch)).expect("it is valid");
        prop_assert!(finite(&outcome), "{outcome:?}");
        consistent(&bank, line, &outcome)?;
    }
}

//! A contact that lasts: what it moves, and that nothing else changes.

use crate::strategies::{any_bank, cases, launch, line, placed};
use proptest::prelude::*;
use railproof_engine::bank::{Bank, BankEnding, BankError, Outcome};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::motion::{ClothMotion, Path};
use railproof_engine::rail::{Line, Pocket, Rail, Side};

fn lasting(bank: &Bank, contact_time_s: f64) -> Bank {
    let mut equipment: Equipment = bank.equipment().clone();
    equipment.cushion.contact_time_s = contact_time_s;
    let geometry = bank.geometry();
    Bank::new(&equipment, geometry.rail, geometry.pocket, bank.model()).expect("it was a bank")
}

/// A side pocket straight across from a long rail is played from its other side as a mirror image,
/// whose mouth is not the one that the geometry has.
fn mirrored(bank: &Bank, line: Line) -> bool {
    line.contact < 0.0 && bank.geometry().pocket.is_side() && !bank.geometry().rail.is_end()
}

/// The ends of the cushion that the ball is against, along the banked groove, m.
fn cushion_around(bank: &Bank, place_m: f64) -> (f64, f64) {
    let geometry = bank.geometry();
    let (mut low, mut high) = (geometry.low_groove_m, geometry.high_groove_m);
    for opening in geometry.openings.iter().filter(|opening| opening.side == Side::Banked) {
        if opening.to_m <= place_m {
            low = low.max(opening.to_m);
        }
        if opening.from_m >= place_m {
            high = high.min(opening.from_m);
        }
    }
    (low, high)
}

/// When the way off the rail crosses the mouth line, s after it left.
fn crossing_s(bank: &Bank, outcome: &Outcome) -> Option<f64> {
    let mouth = &bank.geometry().mouth;
    let path = Path::new(outcome.rebound?.state, ClothMotion::new(bank.equipment()));
    path.first_crossing(mouth.outward, mouth.outward.dot(mouth.midpoint), 0.0)
}

proptest! {
    #![proptest_config(cases(1))]

    /// Without contact time the ball leaves where and when it met the rail. With it nothing before
    /// the rail and nothing of the impulse changes, and the ball leaves ½(vx before + vx after)·t
    /// further along, to the bit, unless that is past the end of the cushion.
    #[test]
    fn contact_time_moves_the_departure_by_the_mean_speed_and_nothing_else(
        bank in any_bank(), line in line(), launch in launch(),
    ) {
        let launch = placed(&bank, launch);
        let held_s = bank.equipment().cushion.contact_time_s;
        let impulse = lasting(&bank, 0.0).play(line, launch).expect("it is valid");
        let lasts = bank.play(line, launch).expect("it is valid");
        prop_assert_eq!(impulse.launch, lasts.launch);
        prop_assert_eq!(impulse.at_rail, lasts.at_rail);
        let (Some(at_rail), Some(leaves)) = (impulse.at_rail, impulse.rebound) else {
            prop_assert_eq!(impulse, lasts);
            return Ok(());
        };
        prop_assert_eq!(leaves.state.position, at_rail.state.position);
        prop_assert_eq!((leaves.held_s, leaves.departure), (0.0, at_rail.contact));
        let along = 0.5 * (at_rail.state.velocity.x + leaves.state.velocity.x) * held_s;
        let further = at_rail.state.position.x + along;
        let Some(rebound) = lasts.rebound else {
            let (low, high) = cushion_around(&bank, at_rail.state.position.x);
            match lasts.ending {
                BankEnding::OtherPocket(_, place) | BankEnding::OtherRail(_, place) => {
                    prop_assert_eq!(place.y, bank.geometry().span_m);
                    if mirrored(&bank, line) {
                        return Ok(());
                    }
                    prop_assert!(further < low || further > high, "{further} in {low}..{high}");
                    prop_assert_eq!(place.x, if further < low { low } else { high });
                }
                other => prop_assert!(false, "{other:?}"),
            }
            return Ok(());
        };
        prop_assert_eq!(rebound.state.position.x, further);
        prop_assert_eq!(rebound.departure, further / bank.geometry().diamond_m);
        prop_assert_eq!(rebound.state.position.y, leaves.state.position.y);
        prop_assert_eq!(rebound.state.velocity, leaves.state.velocity);
        prop_assert_eq!(rebound.state.spin, leaves.state.spin);
        prop_assert_eq!(rebound.held_s, held_s);
        prop_assert_eq!(rebound.rolls_after_s, leaves.rolls_after_s);
    }

    /// The time of arrival counts from where the ball met the rail, so it includes the contact.
    #[test]
    fn arrival_includes_the_contact_time(bank in any_bank(), line in line(), launch in launch()) {
        if mirrored(&bank, line) {
            return Ok(());
        }
        for held_s in [0.0, bank.equipment().cushion.contact_time_s] {
            let bank = lasting(&bank, held_s);
            let outcome = bank.play(line, placed(&bank, launch)).expect("it is valid");
            let crossing_s = crossing_s(&bank, &outcome);
            let expected = crossing_s.map(|crossing_s| crossing_s + held_s);
            prop_assert_eq!(outcome.arrival.map(|arrival| arrival.time_s), expected);
        }
    }
}

/// The compliant model steps through the contact, so it needs one; the others do not.
#[test]
fn the_compliant_model_refuses_a_contact_that_it_cannot_resolve() {
    let mut equipment = railproof_tests::shipped_equipment("nine-foot");
    for (contact_time_s, resolved) in [(0.0, false), (0.4e-3, false), (0.5e-3, true), (0.05, true)]
    {
        equipment.cushion.contact_time_s = contact_time_s;
        let equipment = equipment.clone().validated().expect("every other model takes it");
        let made = |model| Bank::new(&equipment, Rail::Left, Pocket::FootRight, model);
        assert!(made(RailModel::NoseAndCloth).is_ok());
        match made(RailModel::Compliant) {
            Ok(_) => assert!(resolved, "{contact_time_s} s"),
            Err(error @ BankError::ShortContact(_)) => {
                assert!(!resolved, "{contact_time_s} s");
                let words = error.to_string();
                assert!(words.contains("steps through the contact"), "{words}");
                assert!(words.contains("0.5 ms"), "{words}");
            }
            Err(other) => panic!("{other}"),
        }
    }
}

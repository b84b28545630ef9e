//! A miss as a sum over its causes.

use crate::strategies::{cases, impulse_model, playable, rail_and_pocket};
use proptest::prelude::*;
use railproof_engine::attribution::{
    Attribution, Cause, NotAttributed, REFERENCE_SPEED_M_S, of_bank, of_difference, shapley,
};
use railproof_engine::bank::{Bank, Launch, Outcome};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_tests::shipped_equipment;
use std::convert::Infallible;

fn banks() -> impl Strategy<Value = Bank> {
    (playable(), rail_and_pocket(), impulse_model()).prop_map(
        |(equipment, (rail, pocket), model)| {
            Bank::new(&equipment, rail, pocket, model).expect("the pocket opens elsewhere")
        },
    )
}

fn launches() -> impl Strategy<Value = Launch> {
    let off_rail = prop_oneof![Just(0.0), 0.0..0.5_f64];
    let aim = prop_oneof![Just(0.0), -0.05..0.05_f64];
    let (roll, side) =
        (prop_oneof![Just(0.0), -0.8..1.0_f64], prop_oneof![Just(0.0), -0.5..0.5_f64]);
    (off_rail, 0.8..12.0_f64, roll, side, aim).prop_map(
        |(off_rail_m, speed_m_s, roll, side, aim_error_rad)| Launch {
            off_rail_m,
            speed_m_s,
            roll,
            side,
            aim_error_rad,
        },
    )
}

fn lines() -> impl Strategy<Value = Line> {
    (0.4..4.0_f64, 1.6..2.8_f64).prop_map(|(contact, slope)| Line::new(contact, slope * contact))
}

fn play(bank: &Bank, line: Line, launch: Launch) -> Outcome {
    bank.play(line, launch).expect("it is valid")
}

fn sum(why: &Attribution) -> f64 {
    why.remainder_m + why.shares.iter().map(|share| share.share_m).sum::<f64>()
}

fn share(why: &Attribution, cause: Cause) -> f64 {
    let found = why.shares.iter().find(|share| share.cause == cause);
    found.unwrap_or_else(|| panic!("no {cause:?}")).share_m
}

fn nine_foot(change: impl FnOnce(&mut railproof_engine::equipment::Equipment)) -> Bank {
    let mut equipment = shipped_equipment("nine-foot");
    change(&mut equipment);
    Bank::new(&equipment, Rail::Left, Pocket::FootRight, RailModel::Planar).expect("it is a bank")
}

proptest! {
    #![proptest_config(cases(10))]

    /// The sum is the miss, what is left is the miss of the line itself (a frozen stun ball at the
    /// stated speed), and whatever is as stated has no share.
    #[test]
    fn shares_add_up_to_the_miss(bank in banks(), line in lines(), launch in launches()) {
        let outcome = play(&bank, line, launch);
        let Ok(why) = of_bank(&bank, line, &outcome) else {
            // Refused with a reason, and never where all is as stated.
            prop_assert!(outcome.miss_m().is_none() || launch.speed_m_s != REFERENCE_SPEED_M_S);
            return Ok(());
        };
        let miss = outcome.miss_m().expect("it has a miss");
        prop_assert_eq!(why.miss_m, miss);
        prop_assert!((sum(&why) - miss).abs() < 1e-9, "{} {miss}", sum(&why));
        let itself = play(&bank, line, Launch::frozen_stun(REFERENCE_SPEED_M_S));
        if let Some(itself) = itself.miss_m() {
            prop_assert!((why.remainder_m - itself).abs() < 1e-8, "{} {itself}", why.remainder_m);
        }
        if launch.aim_error_rad == 0.0 {
            prop_assert_eq!(share(&why, Cause::Aim), 0.0);
        }
        if launch.side == 0.0 {
            prop_assert_eq!(share(&why, Cause::Side), 0.0);
        }
        if launch.off_rail_m == 0.0 && launch.roll == 0.0 {
            prop_assert_eq!(share(&why, Cause::Roll), 0.0);
        }
        let cushion = &bank.equipment().cushion;
        if cushion.restitution_loss_s_m == 0.0 {
            prop_assert_eq!(share(&why, Cause::Restitution), 0.0);
        }
        if cushion.contact_time_s == 0.0 {
            prop_assert_eq!(share(&why, Cause::Carry), 0.0);
        }
    }

    /// A bank as stated misses by the line itself, and nothing else has a share.
    #[test]
    fn as_stated_all_of_it_is_the_lines_own(bank in banks(), line in lines()) {
        let outcome = play(&bank, line, Launch::frozen_stun(REFERENCE_SPEED_M_S));
        let Ok(why) = of_bank(&bank, line, &outcome) else { return Ok(()) };
        prop_assert_eq!(Some(why.remainder_m), outcome.miss_m());
        prop_assert!(why.shares.iter().all(|share| share.share_m == 0.0), "{why:?}");
    }

    /// Switching one cause alone: with all else as stated its share is the whole change.
    #[test]
    fn one_cause_alone_has_the_whole_change(
        bank in banks(), line in lines(), side in -0.5..0.5_f64, roll in -0.8..1.0_f64,
    ) {
        let stated = Launch::frozen_stun(REFERENCE_SPEED_M_S);
        let Some(itself) = play(&bank, line, stated).miss_m() else { return Ok(()) };
        let cases = [(Launch { side, ..stated }, Cause::Side), (Launch { roll, ..stated }, Cause::Roll)];
        for (launch, cause) in cases {
            let outcome = play(&bank, line, launch);
            let Ok(why) = of_bank(&bank, line, &outcome) else { continue };
            let change = outcome.miss_m().expect("it has a miss") - itself;
            prop_assert!((share(&why, cause) - change).abs() < 1e-8, "{why:?} {change}");
        }
    }

    /// Against another bank the sum is the difference, and a bank does not differ from itself.
    #[test]
    fn differences_add_up(
        banks in (banks(), banks()), line in lines(), launches in (launches(), launches()),
    ) {
        let here = play(&banks.0, line, launches.0);
        let there = play(&banks.0, line, launches.1);
        if let Ok((why, played)) = of_difference((&banks.0, &here), (&banks.0, &there)) {
            prop_assert_eq!((Some(why.miss_m), Some(why.remainder_m)), (here.miss_m(), there.miss_m()));
            prop_assert!((sum(&why) - why.miss_m).abs() < 1e-9);
            prop_assert!(played <= 16, "{played}");
            prop_assert!(why.shares.iter().all(|share| share.cause != Cause::Table));
        }
        if let Ok((why, played)) = of_difference((&banks.0, &here), (&banks.0, &here)) {
            prop_assert_eq!(played, 0);
            prop_assert!(why.shares.iter().all(|share| share.share_m == 0.0));
        }
        let other = play(&banks.1, line, launches.1);
        if let Ok((why, _)) = of_difference((&banks.0, &here), (&banks.1, &other)) {
            prop_assert!((sum(&why) - why.miss_m).abs() < 1e-9);
        }
    }

    /// Renumbering the players of a game renumbers their shares, to the bit; the shares add up.
    #[test]
    fn the_order_of_the_causes_does_not_matter(
        values in prop::collection::vec(-1.0..1.0_f64, 32),
        order in Just(vec![0_usize, 1, 2, 3, 4]).prop_shuffle(),
    ) {
        let Ok(shares) = shapley(5, |set| Ok::<f64, Infallible>(values[set]));
        let renumbered = |set: usize| {
            order.iter().enumerate().fold(0, |own, (at, player)| own | ((set >> at & 1) << player))
        };
        let Ok(others) = shapley(5, |set| Ok::<f64, Infallible>(values[renumbered(set)]));
        for (at, player) in order.iter().enumerate() {
            prop_assert_eq!(others[at].to_bits(), shares[*player].to_bits());
        }
        prop_assert!((shares.iter().sum::<f64>() - (values[31] - values[0])).abs() < 1e-14);
    }
}

/// Derived: a stun ball off a smooth planar cushion keeps its speed along the rail and slides
/// straight on, so contact time moves its way by vx·t along the rail and nothing else; against the
/// stated speed by vx·t·(1 − 4/v), square to its path.
#[test]
fn the_carry_of_a_smooth_cushion_is_that_of_the_closed_form() {
    let bank = nine_foot(|equipment| {
        equipment.cushion.nose_friction = 0.0;
        equipment.cushion.restitution_loss_s_m = 0.0;
        equipment.cushion.contact_time_s = 0.015;
    });
    let line = Line::new(2.0, 4.4);
    for speed_m_s in [2.0, 7.0, 9.0] {
        let outcome = play(&bank, line, Launch::frozen_stun(speed_m_s));
        let why = of_bank(&bank, line, &outcome).expect("it can be attributed");
        let along_m = outcome.launch.velocity.x.abs() * 0.015 * (1.0 - 4.0 / speed_m_s);
        let way = outcome.rebound.expect("it comes off").state.velocity.unit_or_zero();
        // Moving a straight way along the rail by d moves its miss by d·|way.y|, square to it.
        let expected = along_m * way.y.abs();
        assert!((share(&why, Cause::Carry) - expected).abs() < 1e-12, "{why:?} {expected}");
        for cause in [Cause::Aim, Cause::Roll, Cause::Side, Cause::Restitution] {
            assert_eq!(share(&why, cause), 0.0);
        }
        assert!(share(&why, Cause::Bend).abs() < 1e-12, "{why:?}");
    }
}

/// On a usual table every miss of a usual bank is attributed; a guess at what is refused would hide
/// behind the properties above.
#[test]
fn usual_misses_are_all_attributed() {
    let equipment = shipped_equipment("nine-foot");
    let mut count = 0;
    for model in [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar] {
        let bank = Bank::new(&equipment, Rail::Left, Pocket::FootRight, model).expect("it is one");
        for contact in [1.0, 1.5, 2.0, 2.5, 3.0, 3.5] {
            for (off_rail_m, speed_m_s) in
                [(0.0, 2.0), (0.0, 9.0), (0.3, 1.5), (0.3, 4.0), (0.3, 12.0)]
            {
                for (roll, side) in [(0.0, 0.0), (0.4, 0.0), (-0.3, 0.2), (0.0, -0.3)] {
                    let stun = Launch::frozen_stun(speed_m_s);
                    let launch = Launch { off_rail_m, roll, side, ..stun };
                    let line = Line::new(contact, 2.2 * contact);
                    let outcome = play(&bank, line, launch);
                    if outcome.miss_m().is_some() {
                        count += 1;
                        let why = of_bank(&bank, line, &outcome);
                        assert!(why.is_ok(), "{why:?} {line:?} {launch:?}");
                    }
                }
            }
        }
    }
    assert!(count > 300, "{count}");
}

/// The compliant model's impact is one stepped whole, and a ball that stops has no miss.
#[test]
fn where_nothing_is_attributed_it_says_why() {
    let equipment = shipped_equipment("nine-foot");
    let soft = Bank::new(&equipment, Rail::Left, Pocket::FootRight, RailModel::Compliant)
        .expect("it is a bank");
    let line = Line::new(2.0, 4.4);
    let outcome = play(&soft, line, Launch::frozen_stun(3.0));
    assert_eq!(of_bank(&soft, line, &outcome), Err(NotAttributed::Compliant));
    let bank = nine_foot(|_| {});
    let outcome = play(&bank, line, Launch::frozen_stun(0.1));
    assert_eq!(of_bank(&bank, line, &outcome), Err(NotAttributed::NoMiss));
}

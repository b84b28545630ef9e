//! No banks, few banks, refused banks, and columns used again.

use super::support::{Draws, hold_against_alone, usual};
use railproof_engine::bank::{Bank, BankVerdict, Launch};
use railproof_engine::batch::{ColumnChoice, Inputs, Outcomes, play};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Pocket, Rail};
use railproof_tests::shipped_equipment;

fn bank() -> Bank {
    Bank::new(&shipped_equipment("nine-foot"), Rail::Left, Pocket::FootRight, RailModel::Planar)
        .expect("a bank")
}

fn some(count: usize, seed: u64) -> Inputs {
    let (mut draws, mut inputs) = (Draws::of(seed), Inputs::default());
    for _ in 0..count {
        let (line, launch) = usual(&mut draws, bank().geometry().span_m);
        inputs.push(line, launch);
    }
    inputs
}

#[test]
fn any_number_of_banks_is_played() {
    for count in (0..=17).chain([63, 64, 65, 127, 128, 129, 200]) {
        hold_against_alone(&bank(), &some(count, count as u64));
    }
}

/// NaN differs from itself; its print does not.
fn printed(outcomes: &Outcomes) -> String {
    format!("{outcomes:?}")
}

#[test]
fn columns_are_used_again() {
    let mut used = Outcomes::default();
    for count in [100, 7, 300, 0, 64] {
        for wanted in [ColumnChoice::Everything, ColumnChoice::Verdicts, ColumnChoice::Everything] {
            let inputs = some(count, 5);
            play(&bank(), &inputs, wanted, &mut used);
            let mut fresh = Outcomes::default();
            play(&bank(), &inputs, wanted, &mut fresh);
            assert_eq!(printed(&used), printed(&fresh));
        }
    }
}

#[test]
fn pieces_put_together_are_the_whole() {
    let (mut inputs, mut together) = (Inputs::default(), Outcomes::default());
    for seed in 0..5 {
        let (piece, mut played) = (some(70, seed), Outcomes::default());
        play(&bank(), &piece, ColumnChoice::Everything, &mut played);
        inputs.append(&piece);
        together.append(&played);
    }
    let mut whole = Outcomes::default();
    play(&bank(), &inputs, ColumnChoice::Everything, &mut whole);
    assert_eq!(printed(&together), printed(&whole));
    together.push_nothing();
    assert_eq!((together.len(), together.verdict[350]), (351, BankVerdict::NoRoom));
    assert!(together.miss_m[350].is_nan() && together.restitution[350].is_nan());
    together.clear();
    assert_eq!(printed(&together), printed(&Outcomes::default()));
}

#[test]
fn what_a_bank_alone_refuses_is_not_played() {
    let span_m = bank().geometry().span_m;
    let good = Launch::frozen_stun(3.0);
    let bad = [
        Launch { off_rail_m: -0.1, ..good },
        Launch { off_rail_m: span_m + 1e-9, ..good },
        Launch { speed_m_s: 0.0, ..good },
        Launch { speed_m_s: f64::NAN, ..good },
        Launch { roll: 3.1, ..good },
        Launch { side: f64::INFINITY, ..good },
        Launch { aim_error_rad: 0.31, ..good },
    ];
    let inputs = some(150, 9);
    let mut as_they_were = Outcomes::default();
    play(&bank(), &inputs, ColumnChoice::Everything, &mut as_they_were);
    for launch in bad {
        assert!(bank().play(inputs.line(97), launch).is_err());
        let (mut with_bad, mut outcomes) = (Inputs::default(), Outcomes::default());
        for i in 0..150 {
            with_bad.push(inputs.line(i), if i == 97 { launch } else { inputs.launch(i) });
        }
        play(&bank(), &with_bad, ColumnChoice::Everything, &mut outcomes);
        assert_eq!(outcomes.verdict[97], BankVerdict::NoRoom);
        assert!(outcomes.miss_m[97].is_nan() && outcomes.speed_at_rail_m_s[97].is_nan());
        // The others are what they were.
        for i in (0..150).filter(|i| *i != 97) {
            assert_eq!(outcomes.verdict[i], as_they_were.verdict[i]);
            assert_eq!(outcomes.miss_m[i].to_bits(), as_they_were.miss_m[i].to_bits());
        }
    }
}

#[test]
fn lines_that_are_no_numbers_have_no_room() {
    let mut inputs = some(20, 11);
    for (index, number) in [(3, f64::NAN), (4, f64::INFINITY), (5, 1e300), (6, -1e300)] {
        inputs.contact[index] = number;
        inputs.start[index + 8] = number;
    }
    hold_against_alone(&bank(), &inputs);
}

//! No banks, few banks, refused banks, and columns used again.

use crate::support::{Draws, hold_against_alone, usual};
use railproof_engine::bank::{Bank, Launch, LaunchError};
use railproof_engine::batch::{Inputs, Outcomes, Verdicts, play, play_verdicts};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_tests::shipped_equipment;

fn bank() -> Bank {
    Bank::new(&shipped_equipment("nine-foot"), Rail::Left, Pocket::FootRight, RailModel::Planar)
        .expect("a bank")
}

fn some(count: usize, seed: u64) -> Inputs {
    let (mut draws, mut inputs) = (Draws(seed), Inputs::default());
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

#[test]
fn columns_are_used_again() {
    let (mut outcomes, mut verdicts) = (Outcomes::default(), Verdicts::default());
    for count in [100, 7, 300, 0, 64] {
        let inputs = some(count, 5);
        play(&bank(), &inputs, &mut outcomes).expect("accepted launches");
        play_verdicts(&bank(), &inputs, &mut verdicts).expect("accepted launches");
        let (mut fresh, mut fresh_verdicts) = (Outcomes::default(), Verdicts::default());
        play(&bank(), &inputs, &mut fresh).expect("accepted launches");
        play_verdicts(&bank(), &inputs, &mut fresh_verdicts).expect("accepted launches");
        // What is not a number differs from itself; its print does not.
        assert_eq!(format!("{outcomes:?}"), format!("{fresh:?}"));
        assert_eq!(format!("{verdicts:?}"), format!("{fresh_verdicts:?}"));
    }
}

#[test]
fn what_a_bank_alone_refuses_is_refused_by_its_place() {
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
    for launch in bad {
        let mut inputs = some(150, 9);
        // A later one is bad too: the first in order is named.
        for index in [97, 140] {
            inputs.off_rail_m[index] = launch.off_rail_m;
            inputs.speed_m_s[index] = launch.speed_m_s;
            inputs.roll[index] = launch.roll;
            inputs.side[index] = launch.side;
            inputs.aim_error_rad[index] = launch.aim_error_rad;
        }
        let line = Line::new(inputs.contact[97], inputs.start[97]);
        let alone: LaunchError = bank().play(line, launch).expect_err("a refused launch");
        let mut outcomes = Outcomes::default();
        let refused = play(&bank(), &inputs, &mut outcomes).expect_err("a refused launch");
        assert_eq!((refused.index, refused.error), (97, alone));
        assert!(outcomes.is_empty());
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

//! The invented hall: its map of the groove rule has something to show. Its values are made up, so
//! this holds the demonstration together and says nothing about real tables.

use super::{Case, by_rule, span};
use railproof_engine::bank::{BankVerdict, Direction, Launch};
use railproof_engine::units::INCH_M;
use railproof_tests::shipped_equipment;

/// Verdicts over contacts 1.25 to 3.5 and the given speeds, m/s.
fn verdicts(case: &Case, off_rail_in: f64, speeds: impl Iterator<Item = f64>) -> Vec<BankVerdict> {
    speeds
        .flat_map(|speed| span(1.25, 3.5, 0.25).map(move |contact| (contact, speed)))
        .map(|(contact, speed)| {
            let launch = Launch { off_rail_m: off_rail_in * INCH_M, ..Launch::frozen_stun(speed) };
            by_rule(&case.long, contact, launch).verdict()
        })
        .collect()
}

#[test]
fn frozen_banks_hold_and_slow_ones_off_the_rail_break_long() {
    let hall = Case::new("harbour-hall", &shipped_equipment("harbour-hall"));
    let share = |off_rail_in: f64| {
        let all = verdicts(&hall, off_rail_in, span(2.0, 6.0, 0.25));
        let holding = all.iter().filter(|verdict| **verdict == BankVerdict::Holds).count();
        holding as f64 / all.len() as f64
    };
    let shares = [0.0, 4.0, 12.0].map(share);
    // 0.94, 0.85, 0.64: the rule breaks further the further the ball is off the rail.
    assert!(shares[0] >= 0.9, "{shares:?}");
    assert!(shares[0] > shares[1] && shares[1] > shares[2], "{shares:?}");
    assert!((0.5..0.75).contains(&shares[2]), "{shares:?}");
    let slow = verdicts(&hall, 12.0, span(2.0, 3.0, 0.25));
    let long = |verdict: &BankVerdict| verdict.direction() == Some(Direction::Long);
    assert!(slow.iter().all(long), "{slow:?}");
}

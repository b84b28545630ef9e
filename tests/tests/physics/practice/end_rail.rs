//! The end-rail bank of the same numbers: twice as far to run, a frozen ball with three tenths of
//! natural roll. Contacts 1 to 1.75, whose starts lie on the end rail. Common practice, no source.

use super::{Case, by_rule, cases, miss_mm, span};
use railproof_engine::bank::{Launch, aim_margin, exact_start};
use railproof_engine::rail::Line;

fn rolling(speed_m_s: f64, roll: f64) -> Launch {
    Launch { roll, ..Launch::frozen_stun(speed_m_s) }
}

/// The length by which the end-rail bank is longer, mm.
fn longer_mm(case: &Case, contact: f64, launch: Launch) -> f64 {
    miss_mm(&by_rule(&case.end, contact, launch)) - miss_mm(&by_rule(&case.long, contact, launch))
}

/// Robust: it is longer, and the roll has its part in that: the more of it, the larger the
/// difference.
#[test]
fn with_roll_the_end_rail_bank_is_longer_than_the_long_rail_bank() {
    for case in cases() {
        for contact in span(1.0, 1.75, 0.25) {
            for speed in [3.0, 4.0, 5.0] {
                let longer: Vec<f64> = span(0.0, 0.3, 0.1)
                    .map(|roll| longer_mm(&case, contact, rolling(speed, roll)))
                    .collect();
                let at = format!("{}: contact {contact} at {speed} m/s: {longer:.1?}", case.name);
                assert!(longer[3] > 0.0, "{at}");
                assert!(longer.windows(2).all(|pair| pair[1] > pair[0]), "{at}");
            }
        }
    }
}

/// Robust: aimed exactly, it bears less than half the aim error, to either side.
#[test]
fn aim_error_costs_more_on_the_end_rail_bank() {
    let launch = rolling(4.0, 0.3);
    for case in cases() {
        for contact in span(1.0, 1.75, 0.25) {
            let [end, long] = [&case.end, &case.long].map(|bank| {
                let start = exact_start(bank, contact, launch).expect("an exact start exists");
                aim_margin(bank, Line::new(contact, start), launch).expect("exact starts hold")
            });
            let at = format!("{}: contact {contact}: {end:?} against {long:?}", case.name);
            assert!(end.long_rad < 0.5 * long.long_rad, "{at}");
            assert!(end.short_rad < 0.5 * long.short_rad, "{at}");
        }
    }
}

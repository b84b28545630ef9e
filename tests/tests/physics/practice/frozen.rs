//! A stun ball frozen to the rail. Common practice, no source.

use super::{by_rule, cases, miss_mm, span};
use railproof_engine::bank::{BankVerdict, Launch};

/// Robust.
#[test]
fn contacts_from_1_to_3_5_hold_at_4_to_5_m_s() {
    for case in cases() {
        for contact in span(1.0, 3.5, 0.25) {
            for speed in span(4.0, 5.0, 0.25) {
                let outcome = by_rule(&case.long, contact, Launch::frozen_stun(speed));
                let at = format!("{}: contact {contact} at {speed} m/s", case.name);
                assert_eq!(outcome.verdict(), BankVerdict::Holds, "{at}");
            }
        }
    }
}

/// Robust.
#[test]
fn contact_0_5_arrives_on_the_long_side() {
    for case in cases() {
        for speed in span(4.0, 5.0, 0.25) {
            let miss = miss_mm(&by_rule(&case.long, 0.5, Launch::frozen_stun(speed)));
            assert!(miss > 0.0, "{} at {speed} m/s: {miss} mm", case.name);
        }
    }
}

/// Robust: whether it holds does not depend on the speed. How far the miss wanders does depend on
/// the cushion: its largest spread (mm, over 2, 3 and 6 m/s) stands here, beside a mouth of
/// 115.9 mm.
#[test]
fn speed_hardly_matters_when_frozen() {
    let spreads = [
        ("nine-foot", 26.1),
        ("cushions/steep-fading", 30.9),
        ("cushions/even-bounce", 30.1),
        ("cushions/grippy-nose", 11.5),
        ("cushions/slick-nose", 19.2),
    ];
    for case in cases() {
        let mut widest: f64 = 0.0;
        for contact in span(1.5, 3.5, 0.5) {
            let misses = [2.0, 3.0, 6.0].map(|speed| {
                let outcome = by_rule(&case.long, contact, Launch::frozen_stun(speed));
                let at = format!("{}: contact {contact} at {speed} m/s", case.name);
                assert_eq!(outcome.verdict(), BankVerdict::Holds, "{at}");
                miss_mm(&outcome)
            });
            let most = misses.into_iter().fold(f64::NEG_INFINITY, f64::max);
            let least = misses.into_iter().fold(f64::INFINITY, f64::min);
            widest = widest.max(most - least);
        }
        let stated = case.row(&spreads);
        assert!((widest - stated).abs() <= 0.05, "{}: {widest:.2} mm", case.name);
    }
}

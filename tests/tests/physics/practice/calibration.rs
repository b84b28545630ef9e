//! The only data of the fit: nine banks that every shipped cushion holds.

use super::{by_rule, cases};
use railproof::profile::shipped_text;
use railproof_engine::bank::{BankVerdict, Launch};

/// Common practice, no source. The clearance stands in each cushion's profile, to 0.1 mm.
#[test]
fn every_cushion_holds_the_calibration_subset_with_the_clearance_its_profile_states() {
    let all = cases();
    assert!(all.len() >= 4, "the default and at least three more");
    for case in all {
        let mut least = f64::INFINITY;
        for contact in [1.5, 2.5, 3.5] {
            for speed in [3.0, 4.0, 5.0] {
                let outcome = by_rule(&case.long, contact, Launch::frozen_stun(speed));
                let at = format!("{}: contact {contact} at {speed} m/s", case.name);
                assert_eq!(outcome.verdict(), BankVerdict::Holds, "{at}");
                least = least.min(outcome.clearance_m().expect("it came to the mouth"));
            }
        }
        let stated = format!("{:.1} mm", 1e3 * least);
        let text = shipped_text(case.name).expect("it ships");
        assert!(text.contains(&stated), "{} does not state its {stated}", case.name);
    }
}

/// The fit looked at these ranges only; sliding friction's is that of Mathavan, Jackson & Parkin
/// 2009, Am. J. Phys. 77:788 (published, read second-hand).
#[test]
fn every_cushion_lies_inside_the_ranges_that_were_searched() {
    for case in cases() {
        let equipment = case.long.equipment();
        let cushion = &equipment.cushion;
        for (value, low, high) in [
            (cushion.restitution, 0.90, 0.98),
            (cushion.restitution_loss_s_m, 0.0, 0.035),
            (cushion.nose_friction, 0.10, 0.22),
            (equipment.impact_cloth_friction(), 0.12, 0.28),
            (equipment.cloth.sliding_friction, 0.18, 0.24),
        ] {
            assert!((low..=high).contains(&value), "{}: {value}", case.name);
        }
    }
}

//! Findings of expectations of a frontier, held and failed.

use super::{BANKS, FRONT, TRACED};
use crate::scenario::{HALL, run};

fn outcomes(front: &str, expectations: &str) -> Vec<(bool, String, String)> {
    let record = run(&format!("{HALL}{BANKS}{front}{expectations}"));
    record
        .expectations
        .iter()
        .map(|one| (one.held, one.expected.clone(), one.found.clone()))
        .collect()
}

const NOWHERE: &str = "local far = frontier { banks = banks, rule = rule.linear { slope = 3 }, along = 'speed', \
                       tolerance = mps(0.01) }\n";

#[test]
fn what_is_so_holds() {
    let expectations = "
local off = front:where { off_rail = { from = inches(4), to = inches(12) } }
expect(off):least_rises_along 'off_rail'
expect(off):breaks_below 'long':breaks_above 'long':has_intervals(1)
expect(front:where { contact = 2, off_rail = inches(8) }):holds_between(mps(2.5), mps(3.3))";
    for front in [FRONT.to_owned(), TRACED.to_owned()] {
        let found = outcomes(&front, expectations);
        assert_eq!(found.len(), 5);
        for (held, expected, found) in found {
            assert!(held, "{expected} — {found}");
        }
    }
    for (held, expected, found) in outcomes(TRACED, "expect(front):saves_at_least(50)") {
        assert!(held, "{expected} — {found}");
    }
    let found = outcomes(NOWHERE, "expect(far):holds_nowhere():has_intervals(0)");
    assert!(found.iter().all(|(held, ..)| *held), "{found:?}");
}

#[test]
fn what_is_not_so_fails_and_says_what_was_found() {
    let fails = [
        (
            "expect(front:where { off_rail = { from = inches(4), to = inches(12) } }):least_falls_along 'off_rail'",
            "0 of 4 steps fall; not from 4 in off the rail: ",
        ),
        (
            "expect(front:where { contact = 2, off_rail = { inches(4), inches(8) } }):breaks_below 'short'",
            "0 of 2 break so below; the first that does not, contact 2, 4 in off the rail: holds ",
        ),
        ("expect(front):breaks_above 'stops'", "0 of 10 break so above; the first"),
        ("expect(front):has_intervals(3)", "0 of 10 have 3 intervals; the first"),
        (
            "expect(front):holds_between(mps(1), mps(8))",
            "0 of 10 hold from 1 m/s to 8 m/s; the first",
        ),
        ("expect(front):holds_nowhere()", "1 of 10 hold nowhere; the first"),
        ("expect(front):saves_at_least(1000)", " times fewer"),
        ("expect(front):least_rises_along 'contact'", " of 4 steps rise; not from contact 2: "),
    ];
    for (expectation, said) in fails {
        let found = outcomes(FRONT, expectation);
        let [(held, expected, found)] = found.as_slice() else { panic!("{found:?}") };
        assert!(!held && found.contains(said), "{expected} — {found}");
    }
    let found = outcomes(
        FRONT,
        "expect(front):greatest_rises_along 'off_rail':greatest_falls_along 'off_rail'",
    );
    assert!(!(found[0].0 && found[1].0), "{found:?}");
    let found = outcomes(NOWHERE, "expect(far):breaks_below 'long'");
    assert!(!found[0].0 && found[0].2.contains("holds nowhere"), "{found:?}");
}

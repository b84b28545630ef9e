//! Findings of expectations, held and failed.

use super::{HALL, MIRROR, run, try_run};
use railproof::scenario::{RunOptions, run_scenario};

/// A mirror rail, three lines: one through the middle, one started too far, one too near.
const THREE: &str = "local far = rule.func { name = 'far', start = function(c) return 2.4 * c end }
local near = rule.func { name = 'near', start = function(c) return 1.7 * c end }
local map = compare(grid { equipment = ideal, contact = span(1, 2.5, 0.5), speed = { mps(4), mps(2) } }, \
 rule.mirror { name = 'mirror' }, far, near)\n";

fn outcomes(expectations: &str) -> Vec<(bool, String, String)> {
    let record = run(&format!("{MIRROR}{THREE}{expectations}"));
    record
        .expectations
        .iter()
        .map(|one| (one.held, one.expected.clone(), one.found.clone()))
        .collect()
}

#[track_caller]
fn held(expectations: &str) {
    for (held, expected, found) in outcomes(expectations) {
        assert!(held, "{expected} — {found}");
    }
}

#[track_caller]
fn failed(expectations: &str) -> String {
    let found = outcomes(expectations);
    assert!(!found.is_empty());
    for (held, expected, found) in &found {
        assert!(!held, "{expected} — {found}");
    }
    found[0].2.clone()
}

#[test]
fn what_must_hold_on_a_mirror_rail_holds() {
    held(
        "local mirror = map:where { rule = 'mirror' }
local far, near = map:where { rule = far }, map:where { rule = 'near' }
expect(mirror):holds():share_at_least(1):misses_within(millimetres(1e-6))
expect(far):share_at_most(0):goes 'long':misses_long_by_at_least(millimetres(20))
expect(near):goes 'short':misses_short_by_at_least(millimetres(20))
expect(far):longer_than(mirror):longer_than(near)
expect(near):shorter_than(far)
expect(map):ranks_first 'mirror'
expect(far):miss_rises_along 'contact'
expect(near):miss_falls_along 'contact'
expect(mirror:where { speed = mps(4) }):agrees_with(mirror:where { speed = mps(2) })
expect(map:where { speed = mps(2) }):ranks_first(rule.mirror { name = 'mirror' })",
    );
}

#[test]
fn what_does_not_hold_fails_and_says_what_was_found() {
    assert_eq!(
        failed("expect(map:where { rule = 'far' }):share_at_least(0.5)"),
        "0 of 8 hold: 0 %"
    );
    let found = failed("expect(map:where { rule = 'far' }):holds()");
    assert!(
        found.starts_with("0 of 8 hold; the first that does not, contact 1, 4 m/s: long by "),
        "{found}"
    );
    assert!(
        failed("expect(map:where { rule = 'mirror' }):goes 'long'")
            .contains("holds, under 1/16 in off")
    );
    assert!(failed("expect(map):ranks_first 'far'").starts_with("mirror 100 %"));
    failed("expect(map:where { rule = 'near' }):longer_than(map:where { rule = 'far' })");
    failed("expect(map:where { rule = 'far' }):miss_falls_along 'contact'");
    failed("expect(map):spread_within(millimetres(1))");
    failed("expect(map):touches()");
    failed("expect(map):stops 'before-mouth'");
    failed("expect(map:where { rule = 'near' }):agrees_with(map:where { rule = 'far' }, 0.5)");
    failed("expect_number(1.5):within(2, 3):near(2, 0.25)");
    failed("expect_number(metres(1)):within(feet(4), feet(5))");
    failed(
        "expect(map:where { rule = 'far', contact = 1 }):longer_than(map:where { rule = 'far' })",
    );
}

#[test]
fn a_ball_that_stops_has_no_miss_and_passes_no_expectation_about_one() {
    let record = run(&format!(
        "{MIRROR}local map = compare(grid {{ equipment = ideal, contact = 2, off_rail = inches(20), \
         speed = {{ mps(0.1), mps(3) }} }}, rule.mirror {{}})
local slow = map:where {{ speed = mps(0.1) }}
expect(slow):stops 'before-rail'
expect(slow):misses_within(metres(9))
expect(map):spread_within(metres(9))
expect(map):miss_rises_along 'speed'
expect(slow):longer_than(map:where {{ speed = mps(3) }})
expect(slow):shorter_than(map:where {{ speed = mps(3) }})"
    ));
    let held: Vec<bool> = record.expectations.iter().map(|one| one.held).collect();
    assert_eq!(held, [true, false, false, false, false, false]);
    assert!(!record.all_held());
}

#[test]
fn a_failed_expectation_has_its_place_and_the_script_goes_on() {
    let record = run(&format!(
        "{MIRROR}{THREE}expect(map:where {{ rule = 'far' }})
  :holds()
print 'after'"
    ));
    assert_eq!(record.printed, ["after"]);
    let place = record.expectations[0].place.as_ref().unwrap();
    assert_eq!((place.line_column(), &place.source()[place.span()]), ((6, 4), "holds"));
}

#[test]
fn quantities_expected_in_other_units_are_compared_by_size() {
    let record = run("expect_number(feet(1)):near(inches(12), millimetres(0.001))
expect_number(feet(1)):within(centimetres(30), centimetres(31))");
    assert!(record.all_held());
}

#[test]
fn a_map_is_held_to_its_baseline() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("case.lua");
    let text = |contact: f64| {
        format!(
            "{HALL}local map = compare(grid {{ equipment = hall, contact = {contact}, speed = mps(3) }}, ratio)
expect(map):matches_baseline('case.baseline', {{ within = millimetres(0.5) }})"
        )
    };
    let run = |contact: f64, accept_baselines: bool| {
        std::fs::write(&path, text(contact)).unwrap();
        run_scenario(&path, &RunOptions { accept_baselines, ..RunOptions::default() })
            .and_then(railproof::record::Record::whole)
            .unwrap()
    };
    std::fs::write(&path, text(2.0)).unwrap();
    let missing = run_scenario(&path, &RunOptions::default()).unwrap();
    assert!(missing.expectations.is_empty() && missing.exit() == railproof::exit::Exit::BadInput);
    assert!(missing.left_out[0].fault.message.contains("no stored map"), "{missing:?}");
    let accepted = run(2.0, true);
    assert!(accepted.all_held() && !accepted.expectations[0].held);
    let reports = accepted.expectations.iter().filter_map(|one| one.baseline.as_ref());
    assert_eq!(railproof::baseline::keep_accepted(reports).1, None);
    assert!(run(2.0, false).expectations[0].held);
    assert!(!run(2.5, false).all_held());
}

#[test]
fn a_baseline_stays_in_the_scenario_s_folder() {
    for file in ["../out.baseline", "/tmp/out.baseline", "", "notes.txt"] {
        let text = format!(
            "{HALL}local map = compare(grid {{ equipment = hall, contact = 2, speed = mps(3) }}, ratio)
expect(map):matches_baseline '{file}'"
        );
        let fault = try_run(&text).unwrap_err();
        assert_eq!(fault.place.unwrap().line_column().0, 3, "{file}");
    }
}

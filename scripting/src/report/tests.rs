use super::*;
use crate::fault::Place;
use crate::record::testing::{linear, map, plan_on, record};
use crate::record::{BaselineReport, Expectation};
use crate::telling::AskedUnits;
use std::path::PathBuf;

fn expectation(held: bool, baseline: Option<BaselineReport>) -> Expectation {
    let source = "local a\nexpect(map):holds()\n";
    Expectation {
        expected: "all hold".to_owned(),
        found: "3 of 4 hold".to_owned(),
        held,
        place: Some(Place::line("lessons/sample.lua", source.into(), 2)),
        baseline,
    }
}

fn sample() -> Record {
    let plan = plan_on(&[2.0, 3.0], &[0.2, 1.0, 3.0, 4.0], &[0.0, 0.3]);
    let mut record = record(map("rows", plan, vec![linear(2.2), linear(2.0)]));
    record.shows = Some("where two rules part".to_owned());
    record.expectations = vec![expectation(true, None), expectation(false, None)];
    record
}

fn moved_baseline(accepted: bool) -> BaselineReport {
    BaselineReport {
        path: PathBuf::from("stored.txt"),
        moved: vec!["1 verdict changed:".to_owned(), "  contact 2: holds, now long".to_owned()],
        refused: None,
        accepted,
        ..BaselineReport::default()
    }
}

#[test]
fn the_brief_summary_tells_the_finding_the_failure_and_the_files() {
    let written = RunFiles { folder: "out/sample".into(), files: vec!["rows.csv".to_owned()] };
    let text = brief(&sample(), Some(&written), PageStyle::PLAIN);
    assert!(text.lines().count() <= 10, "{text}");
    for wanted in [
        "Of 2 rules",
        "FAILED: all hold (lessons/sample.lua:2)",
        "1 of 2 expectations held, 1 FAILED",
        "1 FAILED; --full tells more",
        "1 file in out/sample",
    ] {
        assert!(text.contains(wanted), "{wanted:?} is missing in:\n{text}");
    }
    // What held is told by the full summary alone.
    assert!(!text.contains("held: all hold"), "{text}");
}

#[test]
fn the_summary_says_what_a_person_needs() {
    let written = RunFiles { folder: "out/sample".into(), files: vec!["rows.csv".to_owned()] };
    let text = full(&sample(), Some(&written), PageStyle::PLAIN);
    let flowing = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "where two rules part",
        "contact 2 and 3",
        "0 and 300 mm off the rail",
        "model: nose-and-cloth",
        "root mean square",
        "1. ",
        "twice the contact, groove",
        "held: all hold (lessons/sample.lua:2)",
        "FAILED: all hold (lessons/sample.lua:2)",
        "found: 3 of 4 hold",
        "1 of 2 expectations held, 1 FAILED",
        "1 file in out/sample",
    ] {
        assert!(flowing.contains(wanted.trim_end()), "{wanted:?} is missing in:\n{text}");
    }
    assert!(!text.contains('\u{1b}'), "{text}");
}

#[test]
fn counts_add_up_to_all_banks() {
    let record = sample();
    let counts = outcome_counts(&Tally::of(&record.maps[0].rows), AskedUnits::METRIC);
    let total: usize = counts
        .iter()
        .filter(|line| !line.starts_with("miss") && !line.contains("flagged"))
        .flat_map(|line| line.split(", "))
        .map(|part| part.split(' ').next().unwrap().parse::<usize>().unwrap())
        .sum();
    assert_eq!(total, record.maps[0].rows.len(), "{counts:?}");
}

#[test]
fn no_line_is_wider_than_asked_and_colours_take_no_room() {
    let mut record = sample();
    record.expectations[0].found = "word ".repeat(60);
    for width in [40, 80] {
        let plain = full(&record, None, PageStyle { width, color: false });
        // A ranking is a table and keeps its columns.
        for line in plain.lines().filter(|line| !line.trim().contains("  ")) {
            let long = line.chars().count();
            assert!(long <= width, "{long}: {line}");
        }
        let coloured = full(&record, None, PageStyle { width, color: true });
        assert!(coloured.contains('\u{1b}'));
        let mut bare = String::new();
        let mut in_code = false;
        for letter in coloured.chars() {
            match letter {
                '\u{1b}' => in_code = true,
                'm' if in_code => in_code = false,
                _ if in_code => {}
                other => bare.push(other),
            }
        }
        assert_eq!(bare, plain, "colour changes nothing but colour");
    }
}

#[test]
fn a_moved_baseline_is_shown_with_what_to_do() {
    let mut record = sample();
    record.expectations = vec![expectation(false, Some(moved_baseline(false)))];
    let text = failures_only(&record, None, PageStyle::PLAIN);
    assert!(text.contains("now long") && text.contains("--accept"), "{text}");
    record.expectations = vec![expectation(false, Some(moved_baseline(true)))];
    let text = failures_only(&record, None, PageStyle::PLAIN);
    assert!(text.contains("to be stored: all hold") && text.contains("now long"), "{text}");
    assert!(!text.contains("FAILED") && record.all_held());
    assert_eq!(tally(&record), "0 of 1 expectation held, 1 baseline to be stored");
}

#[test]
fn hostile_words_do_not_reach_the_terminal() {
    let mut record = sample();
    let hostile = "\u{1b}[2J\u{7}boo\u{202e}";
    record.printed = vec![hostile.to_owned()];
    record.shows = Some(hostile.to_owned());
    record.expectations[1].found = hostile.to_owned();
    record.file = hostile.into();
    let text = full(&record, None, PageStyle::PLAIN);
    assert!(text.contains("boo"));
    assert!(!text.contains(['\u{1b}', '\u{7}', '\u{202e}']), "{text:?}");
}

#[test]
fn a_record_with_nothing_in_it_says_so() {
    let text = full(&Record::default(), None, PageStyle::PLAIN);
    assert!(text.contains("states no expectation"), "{text}");
}

#[test]
fn the_second_opinion_is_labelled() {
    use railproof_engine::equipment::RailModel;
    use railproof_engine::sweep::{Axis, Input, Plan, Values};
    let base = plan_on(&[2.0], &[3.0], &[0.0]);
    let mut axes = base.axes().to_vec();
    axes.push(Axis {
        input: Input::RailModel,
        values: Values::Models(vec![RailModel::Planar, RailModel::Compliant]),
    });
    let line = sweep_conditions(&Plan::new(axes).unwrap());
    assert!(line.contains("planar, compliant (a second opinion"), "{line}");
}

#[test]
fn of_many_moved_rows_the_brief_summary_tells_the_counts_and_the_largest() {
    let mut moved = vec!["40 misses moved by more than 0.5 mm, the largest first:".to_owned()];
    moved.extend((0..12).map(|row| format!("  contact {row}: miss 1 mm, now {} mm", 40 - row)));
    moved.push("the plan is not the one that was stored".to_owned());
    let mut record = sample();
    let baseline = BaselineReport { moved, ..moved_baseline(false) };
    record.expectations = vec![expectation(false, Some(baseline))];
    let text = brief(&record, None, PageStyle::PLAIN);
    let (_, told) = text.split_once("FAILED").unwrap();
    assert!(told.lines().count() <= 7, "{told}");
    for wanted in ["found: 40 misses moved", "the largest: contact 0", "--full lists them"] {
        assert!(told.contains(wanted), "{wanted:?} is missing in:\n{told}");
    }
    assert!(!told.contains("contact 1:"), "{told}");
    assert!(full(&record, None, PageStyle::PLAIN).contains("contact 11:"));
    // The finding comes first, and the scenario's own words are in the full summary alone.
    assert!(text.starts_with("Of 2 rules"), "{text}");
    assert!(!text.contains("where two rules part"), "{text}");
}

//! Which parameter moved, and what is the same by another name.

use super::*;
use crate::record::testing::{hall, plan_on};
use railproof_engine::equipment::{Equipment, EquipmentNumber, RailModel};
use railproof_engine::rail::{Line, Reading};
use railproof_engine::rule::{NamedRule, Outside, Rule, StartFunction, WayBetween};
use railproof_engine::sweep::{Input, Plan, Values};
use std::sync::Arc;

/// The sample on other equipment.
fn on(tables: Vec<Equipment>, rules: Vec<NamedRule>) -> MapRecord {
    let mut axes = plan(&[1.5, 2.0], &[3.0, 4.0]).axes().to_vec();
    if let Some(axis) = axes.iter_mut().find(|axis| axis.input == Input::Equipment) {
        axis.values = Values::Equipment(tables);
    }
    map("sample", Plan::new(axes).unwrap(), rules)
}

fn with(name: &str, value: f64) -> Equipment {
    let mut equipment = hall();
    EquipmentNumber::named(name).unwrap().set(&mut equipment, value);
    equipment
}

/// The report of one map held to another.
fn against(stored: &MapRecord, now: &MapRecord) -> BaselineReport {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    store(stored, &path);
    held(now, &path, 0.01, false)
}

fn words(report: &BaselineReport) -> Vec<&str> {
    report.parameters.iter().map(|one| one.words.as_str()).collect()
}

#[test]
fn a_number_of_the_table_that_moved_is_named() {
    let before = on(vec![hall()], vec![linear(2.2)]);
    for (name, value, wanted) in [
        ("restitution", 0.8, "the cushion's restitution was "),
        ("nose_height", 0.0371, "the cushion's nose height was "),
        ("corner_mouth", 0.118, "the table's corner mouth was "),
        ("ball_diameter", 0.0573, "the ball diameter was "),
        ("nose_friction", 0.2, "the cushion's nose friction was "),
        ("gravity", 9.7, "gravity was "),
    ] {
        let report = against(&before, &on(vec![with(name, value)], vec![linear(2.2)]));
        assert_eq!(report.parameters.len(), 1, "{report:#?}");
        let parameter = &report.parameters[0];
        assert_eq!(parameter.name, name);
        assert!(parameter.words.starts_with(wanted), "{parameter:?}");
        assert!(parameter.words.ends_with(&format!("is {}", parameter.is)), "{parameter:?}");
        assert_eq!(report.moved[0], parameter.words, "the parameter comes first");
    }
    let report = against(&before, &on(vec![with("corner_mouth", 0.118)], vec![linear(2.2)]));
    assert_eq!(words(&report), ["the table's corner mouth was 115.8875 mm, is 118 mm"]);
    // A number that no lone ball feels is a note.
    let report = against(&before, &on(vec![with("cue_length", 1.5)], vec![linear(2.2)]));
    assert_eq!(report.moved, Vec::<String>::new());
    assert!(
        report.notes[0].starts_with("the cue length was 1.4732 m, is 1.5 m; no miss"),
        "{report:#?}"
    );
    let mut planar = hall();
    planar.cushion.rail_model = RailModel::Planar;
    let report = against(&before, &on(vec![planar], vec![linear(2.2)]));
    assert_eq!(words(&report), ["the rail model was nose-and-cloth, is planar"]);
}

/// Cloth friction in the impact follows the sliding friction: one cause is told once.
#[test]
fn a_number_that_follows_another_is_not_told_too() {
    let before = on(vec![hall()], vec![linear(2.2)]);
    let report = against(&before, &on(vec![with("sliding_friction", 0.19)], vec![linear(2.2)]));
    let names: Vec<&str> = report.parameters.iter().map(|it| it.name.as_str()).collect();
    let follows = hall().cushion.impact_cloth_friction.is_none();
    assert_eq!(names, ["sliding_friction"], "{follows}");
}

#[test]
fn another_name_of_a_table_or_a_rule_moves_nothing_and_is_told() {
    let before = on(vec![hall()], vec![linear(2.2)]);
    let mut renamed = hall();
    renamed.name = "The other hall".to_owned();
    let mut rule = linear(2.2);
    rule.name = "mine".to_owned();
    let report = against(&before, &on(vec![renamed], vec![rule]));
    assert_eq!(report.moved, Vec::<String>::new());
    let notes = report.notes.join("\n");
    assert!(notes.contains("the rule `2.2 × contact, groove` is called `mine` now"), "{notes}");
    assert!(notes.contains("is called `The other hall` now"), "{notes}");
}

#[test]
fn changed_equipment_is_compared_bank_by_bank_whatever_its_name() {
    let before = on(vec![hall()], vec![linear(2.2)]);
    let mut other = with("restitution", 0.8);
    other.name = "Harbour Hall, restitution 0.8".to_owned();
    let report = against(&before, &on(vec![other], vec![linear(2.2)]));
    let moved = report.moved.join("\n");
    assert!(!moved.contains("new") && !moved.contains("gone"), "{moved}");
    assert!(moved.contains("the table was `Harbour Hall"), "{moved}");
    assert!(moved.contains("the cushion's restitution was "), "{moved}");
    assert!(report.moved.last().unwrap() == OTHER_QUESTION, "{moved}");
}

#[test]
fn of_several_tables_the_one_that_changed_is_named() {
    let mut second = with("restitution", 0.9);
    second.name = "B".to_owned();
    let mut third = with("restitution", 0.7);
    third.name = "B".to_owned();
    let before = on(vec![hall(), second], vec![linear(2.2)]);
    let report = against(&before, &on(vec![hall(), third], vec![linear(2.2)]));
    assert_eq!(words(&report), ["on B the cushion's restitution was 0.9, is 0.7"]);
    let moved = report.moved.join("\n");
    assert!(moved.contains("equipment B") && !moved.contains("equipment Harbour"), "{moved}");
}

#[test]
fn a_part_of_the_rule_that_moved_is_named() {
    let before = |rule: NamedRule| on(vec![hall()], vec![rule]);
    let told = |old: NamedRule, new: NamedRule| {
        let report = against(&before(old), &before(new));
        let moved = report.moved.join("\n");
        assert!(!moved.contains("banks are new") && !moved.contains("gone"), "{moved}");
        words(&report).into_iter().map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(told(linear(2.2), linear(2.3)), ["the rule's slope was 2.2, is 2.3"]);
    let moved = Rule::linear(2.2, 0.25, Reading::Sight).unwrap();
    assert_eq!(
        told(linear(2.2), moved.into()),
        ["the rule's offset was 0, is 0.25", "the rule's reading was groove, is sight"]
    );
    assert_eq!(
        told(linear(2.2), Rule::mirror().into()),
        ["the rule was linear, is mirror geometry"]
    );
    let table = |start| {
        let lines = vec![Line::new(1.0, 2.0), Line::new(2.0, start), Line::new(3.0, 6.5)];
        let way = WayBetween::Interpolate { outside: Outside::Refuse };
        Rule::lines(Reading::Groove, lines, way).unwrap().into()
    };
    assert_eq!(told(table(4.0), table(4.5)), ["the rule's line 2 was 2 to 4, is 2 to 4.5"]);
}

#[test]
fn of_several_rules_the_one_that_changed_is_named() {
    let before = on(vec![hall()], vec![linear(2.2), linear(2.0)]);
    let report = against(&before, &on(vec![hall()], vec![linear(2.25), linear(2.0)]));
    assert_eq!(words(&report), ["the rule `2.25 × contact, groove`'s slope was 2.2, is 2.25"]);
    assert!(!report.moved.join("\n").contains("twice the contact"), "{report:#?}");
    // One that is taken away is gone, and none stands in for it.
    let report = against(&before, &on(vec![hall()], vec![linear(2.0)]));
    assert!(report.moved.iter().any(|it| it == "4 banks are gone:"), "{report:#?}");
    assert_eq!(report.parameters, []);
}

struct Written(&'static str, &'static str, f64);

impl StartFunction for Written {
    fn start(&self, contact: f64) -> Result<f64, String> {
        Ok(self.2 * contact)
    }

    fn name(&self) -> &str {
        self.0
    }

    fn source(&self) -> Option<&str> {
        Some(self.1)
    }
}

fn function(line: &'static str, text: &'static str, slope: f64) -> NamedRule {
    Rule::function(Reading::Groove, Arc::new(Written(line, text, slope))).into()
}

#[test]
fn a_function_without_a_name_is_known_by_its_content() {
    let map = |rule| on(vec![hall()], vec![rule]);
    let first = "return function(c) return 2.2 * c end";
    let before = map(function("the function at line 3", first, 2.2));
    let commented = "return function(c)\n  -- as the club plays it\n  return 2.2 * c\nend";
    let now = map(function("the function at line 19", commented, 2.2));
    let report = against(&before, &now);
    assert_eq!((report.moved, report.notes, report.parameters), (vec![], vec![], vec![]));
    let other = "return function(c) return 2.3 * c end";
    let report = against(&before, &map(function("the function at line 3", other, 2.3)));
    assert_eq!(words(&report), ["the rule's function changed"]);
    assert_eq!(report.moved[0], "the rule's function changed");
    // Another text for the same start numbers is a note.
    let same = "return function(c) return c * 2.2 end";
    let report = against(&before, &map(function("the function at line 3", same, 2.2)));
    assert_eq!(report.moved, Vec::<String>::new());
    assert!(report.notes[0].starts_with("the rule's function changed; no miss"), "{report:#?}");
}

#[test]
fn an_input_with_one_value_that_moved_is_named_and_fails_whatever_the_rows() {
    let at = |off_rail: f64, speed: f64| {
        map("sample", plan_on(&[1.5, 2.0], &[speed], &[off_rail]), vec![linear(2.2)])
    };
    let report = against(&at(0.0, 3.0), &at(0.0, 3.5));
    assert_eq!(words(&report), ["the speed at launch was 3 m/s, is 3.5 m/s"]);
    let moved = report.moved.join("\n");
    assert!(!moved.contains("new") && !moved.contains("gone"), "{moved}");
    let hair = against(&at(0.0, 3.0), &at(0.0, 3.000_001));
    assert!(hair.moved[0].starts_with("the speed at launch was 3 m/s, is 3.000001"), "{hair:#?}");
    assert_eq!(against(&at(0.0, 3.0), &at(0.0, 3.0)).moved, Vec::<String>::new());
}

/// A file as it was written before it held numbers.
fn of_before(text: &str) -> String {
    let kept = text.lines().filter(|line| {
        !["# table", "# rule:", "# engine:"].iter().any(|start| line.starts_with(start))
    });
    let kept: Vec<&str> = kept.collect();
    kept.join("\n").replace("format 2", "format 1") + "\n"
}

#[test]
fn a_file_of_before_is_read_and_says_that_it_holds_no_numbers() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    let before = on(vec![hall()], vec![linear(2.2)]);
    let text = held(&before, &path, 0.01, true).text;
    fs::write(&path, of_before(&text)).unwrap();
    let report = held(&before, &path, 0.01, false);
    assert_eq!(report.moved, Vec::<String>::new());
    assert!(report.notes[0].contains("holds no numbers of its table and rule; --accept"));
    let now = on(vec![with("restitution", 0.8)], vec![linear(2.3)]);
    let report = held(&now, &path, 0.01, false);
    let moved = report.moved.join("\n");
    assert!(moved.contains("the parameter that moved can't be told; --accept stores them"));
    assert_eq!(words(&report), ["the rule was 2.2 × contact, groove, is 2.3 × contact, groove"]);
    // Accepting renews it although nothing moved.
    let report = held(&before, &path, 0.01, true);
    assert!(report.accepted && report.text == text);
}

#[test]
fn crafted_lines_of_numbers_are_refused_at_their_place() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    let before = on(vec![hall()], vec![linear(2.2)]);
    let good = held(&before, &path, 0.01, true).text;
    for (from, to, wanted) in [
        ("# table restitution: ", "# table restitutoin: ", "is not a number of a table"),
        ("# table restitution: ", "# table restitution: x", "is not a number"),
        ("# table restitution: ", "# table restitution: nan\t", "this line has 2 values"),
        ("# table restitution: ", "# table restitution: 1e999 # ", "is not a number"),
        ("# table rail_model", "# table rail_model: a\n# table rail_model", "stands twice"),
        ("# table: ", "# table: a\n# table: ", "its tables stand twice"),
        ("\tlinear\t", " ", "is not a rule of a baseline"),
        ("\tslope=", "\tslope ", "is not a rule of a baseline"),
        ("# engine", "# engineer", "is not an input of a bank"),
    ] {
        assert!(good.contains(from), "{from:?}: {good}");
        fs::write(&path, good.replacen(from, to, 1)).unwrap();
        for accept in [false, true] {
            let fault = checked(&before, &path, 0.01, accept).unwrap_err();
            assert!(fault.message.contains(wanted), "{to:?}: {fault:?}");
            assert!(fault.place.is_some(), "{to:?}");
        }
    }
    let many = format!("# table: {}\n# table", "a\t".repeat(5000));
    fs::write(&path, good.replacen("# table", &many, 1)).unwrap();
    let fault = checked(&before, &path, 0.01, false).unwrap_err();
    assert!(fault.message.contains("at most 1000 tables"), "{fault:?}");
}

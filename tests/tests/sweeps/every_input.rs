//! Every input swept once: no outcome takes its name, and every reader sees both of its values.

use super::read_back::python;
use super::support::Place;
use railproof_engine::sweep::Input;
use railproof_tests::shipped_equipment;
use serde_json::{Value, json};
use std::path::Path;
use std::process::Command;

/// Two values of an input as a scenario writes them, and as columns hold them.
fn two_values(input: Input) -> (String, [Value; 2]) {
    let numbers = |text: &str, low: f64, high: f64| (text.to_owned(), [json!(low), json!(high)]);
    let words = |text: &str, one: &str, other: &str| (text.to_owned(), [json!(one), json!(other)]);
    match input {
        Input::Equipment => words(
            r#"equipment = { equipment "seven-foot", equipment "nine-foot" }"#,
            "Seven-foot table",
            "Nine-foot table",
        ),
        Input::Rail => words(r#"rail = { "long", "end" }"#, "long", "end"),
        Input::Pocket => words(r#"pocket = { "corner", "side" }"#, "corner", "side"),
        Input::RailModel => {
            words(r#"rail_model = { "planar", "nose-only" }"#, "planar", "nose-only")
        }
        Input::Contact => numbers("contact = { 2, 2.5 }", 2.0, 2.5),
        Input::Start => numbers("start = { 4, 5 }", 4.0, 5.0),
        Input::OffRail => numbers("off_rail = { inches(3), inches(6) }", 0.0762, 0.1524),
        Input::Speed => numbers("speed = { mps(2), mps(3) }", 2.0, 3.0),
        Input::Lag => numbers("lag = { 2, 3 }", 2.0, 3.0),
        Input::Roll => numbers("roll = { 0, 0.5 }", 0.0, 0.5),
        Input::RunningSide => numbers("running_side = { 0, 0.1 }", 0.0, 0.1),
        Input::AimError => numbers("aim_error = { radians(0), radians(0.01) }", 0.0, 0.01),
        Input::Number(number) => {
            let own = number.get(&shipped_equipment("nine-foot"));
            let unit = number.parameter().dimension.si_symbol();
            let written = [own, 0.98 * own].map(|value| match unit {
                "" => value.to_string(),
                unit => format!("quantity \"{value} {unit}\""),
            });
            (
                format!("{} = {{ {} }}", number.name(), written.join(", ")),
                [json!(own), json!(0.98 * own)],
            )
        }
    }
}

/// A scenario that plans and plays this input's two values.
fn scenario(input: Input) -> String {
    let mut given = vec![two_values(input).0];
    let mut default = |of: Input, text: &str| {
        if input != of {
            given.push(text.to_owned());
        }
    };
    default(Input::Equipment, r#"equipment = equipment "nine-foot""#);
    default(Input::Contact, "contact = 2");
    default(Input::OffRail, "off_rail = inches(6)");
    if input != Input::Lag {
        default(Input::Speed, "speed = mps(3)");
    }
    let rule = if input == Input::Start { "" } else { ", rule.linear { slope = 2.2 }" };
    let banks = format!("local banks = grid {{ {}, name = \"one\" }}\n", given.join(", "));
    format!("{banks}plan(banks{rule})\ncompare(banks{rule})\n")
}

#[test]
fn every_input_reads_back_with_both_values() {
    let Some(python) = python() else { return };
    let place = Place::new();
    let mut cases = Vec::new();
    for input in Input::all() {
        let name = input.name();
        place.write(&format!("{name}.lua"), scenario(input));
        for form in ["csv", "jsonl"] {
            place.run(&format!("sweep {name}.lua --into {name} --text {form} --quiet")).code(0);
        }
        place.run(&format!("run {name}.lua --into run-{name} --quiet")).code(0);
        cases.push(json!({
            "input": name,
            "folder": place.path(name),
            "column": input.column(),
            "values": two_values(input).1,
            "run": place.path(&format!("run-{name}/one-rows.csv")),
        }));
    }
    let told = place.write("cases.json", Value::from(cases).to_string());
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sweeps/every_input.py");
    let ended = Command::new(&python).arg(script).arg(told).output().unwrap();
    assert!(ended.status.success(), "{ended:?}");
}

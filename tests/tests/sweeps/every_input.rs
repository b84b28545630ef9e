//! Every input swept once: no outcome takes its name, and every reader sees both of its values.

use super::read_back::python;
use super::support::Place;
use railproof::store::column_name;
use railproof_engine::sweep::Input;
use serde_json::{Value, json};
use std::path::Path;
use std::process::Command;

/// Two values of an input as a scenario writes them, and as columns hold them.
fn two_values(input: Input) -> (&'static str, [Value; 2]) {
    let numbers = |text, low: f64, high: f64| (text, [json!(low), json!(high)]);
    let words = |text, one: &str, other: &str| (text, [json!(one), json!(other)]);
    match input {
        Input::Equipment => words(
            r#"on = { equipment "seven-foot", equipment "nine-foot" }"#,
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
        Input::Side => numbers("side = { 0, 0.1 }", 0.0, 0.1),
        Input::AimError => numbers("aim_error = { radians(0), radians(0.01) }", 0.0, 0.01),
        Input::SlidingFriction => numbers("sliding_friction = { 0.15, 0.2 }", 0.15, 0.2),
        Input::RollingResistance => numbers("rolling_resistance = { 0.008, 0.01 }", 0.008, 0.01),
        Input::PivotDeceleration => numbers(
            r#"pivot_deceleration = { quantity "8 rad/s^2", quantity "10 rad/s^2" }"#,
            8.0,
            10.0,
        ),
        Input::Restitution => numbers("restitution = { 0.85, 0.95 }", 0.85, 0.95),
        Input::RestitutionLoss => numbers(
            r#"restitution_loss = { quantity "0.01 s/m", quantity "0.02 s/m" }"#,
            0.01,
            0.02,
        ),
        Input::CushionFriction => numbers("cushion_friction = { 0.15, 0.2 }", 0.15, 0.2),
        Input::ImpactClothFriction => numbers("impact_cloth_friction = { 0.15, 0.2 }", 0.15, 0.2),
        Input::NoseHeight => {
            numbers("nose_height = { millimetres(36), millimetres(37) }", 0.036, 0.037)
        }
        Input::ContactTime => {
            numbers("contact_time = { milliseconds(10), milliseconds(15) }", 0.01, 0.015)
        }
        Input::BallDiameter => {
            numbers("ball_diameter = { millimetres(57), millimetres(58) }", 0.057, 0.058)
        }
        Input::CornerMouth => {
            numbers("corner_mouth = { millimetres(115), millimetres(120) }", 0.115, 0.12)
        }
        Input::SideMouth => {
            numbers("side_mouth = { millimetres(130), millimetres(135) }", 0.13, 0.135)
        }
        Input::Gravity => {
            numbers(r#"gravity = { quantity "9.8 m/s^2", quantity "9.81 m/s^2" }"#, 9.8, 9.81)
        }
    }
}

/// A scenario that plans and plays this input's two values.
fn scenario(input: Input) -> String {
    let mut given = vec![two_values(input).0];
    let mut default = |of: Input, text| {
        if input != of {
            given.push(text);
        }
    };
    default(Input::Equipment, r#"on = equipment "nine-foot""#);
    default(Input::Contact, "contact = 2");
    default(Input::OffRail, "off_rail = inches(6)");
    if input != Input::Lag {
        default(Input::Speed, "speed = mps(3)");
    }
    let rule = if input == Input::Start { "" } else { ", rule.linear { slope = 2.2 }" };
    let banks = format!("local banks = sweep {{ {}, name = \"one\" }}\n", given.join(", "));
    format!("{banks}plan(banks{rule})\ncompare(banks{rule})\n")
}

#[test]
fn every_input_reads_back_with_both_values() {
    let Some(python) = python() else { return };
    let place = Place::new();
    let mut cases = Vec::new();
    for input in Input::ALL {
        let name = input.name();
        place.write(&format!("{name}.lua"), scenario(input));
        for form in ["csv", "jsonl"] {
            place.run(&format!("sweep {name}.lua --into {name} --text {form} --quiet")).code(0);
        }
        place.run(&format!("run {name}.lua --into run-{name} --quiet")).code(0);
        let own = if input == Input::Equipment { "equipment".into() } else { column_name(input) };
        cases.push(json!({
            "input": name,
            "folder": place.path(name),
            "column": own,
            "values": two_values(input).1,
            "run": place.path(&format!("run-{name}/one-rows.csv")),
            "run_column": if input == Input::Equipment { "on".into() } else { own },
        }));
    }
    let told = place.write("cases.json", Value::from(cases).to_string());
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sweeps/every_input.py");
    let ended = Command::new(&python).arg(script).arg(told).output().unwrap();
    assert!(ended.status.success(), "{ended:?}");
}

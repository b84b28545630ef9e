//! Plans that are wrong, broken or meant ill: a clear refusal, quickly, and never a panic.

use super::support::{Place, Recipe};
use proptest::prelude::*;
use railproof::exit::Exit;
use railproof::fault::Fault;
use railproof::plan::{SweepPlan, plan_of_text};
use railproof::scenario::{RunOptions, plan_of_scenario};
use railproof_engine::sweep::{PlayedRows, Player};
use serde_json::{Value, json};
use std::sync::OnceLock;
use std::sync::atomic::AtomicBool;

/// A plan with everything in it that a plan can have, and no digest.
fn document() -> &'static Value {
    static DOCUMENT: OnceLock<Value> = OnceLock::new();
    DOCUMENT.get_or_init(|| {
        let mut plan: Value = serde_json::from_str(&Recipe::with_failures().plan().text()).unwrap();
        plan.as_object_mut().unwrap().remove("plan_sha256");
        plan
    })
}

fn sampled() -> Value {
    let mut plan: Value = serde_json::from_str(&Recipe::long(100, 10).plan().text()).unwrap();
    plan.as_object_mut().unwrap().remove("plan_sha256");
    plan
}

fn read(text: &str) -> Result<SweepPlan, Fault> {
    plan_of_text("hostile.json", text)
}

/// The document with the value at a pointer put in.
fn with(mut plan: Value, pointer: &str, value: Value) -> Value {
    let (above, key) = pointer.rsplit_once('/').unwrap();
    match plan.pointer_mut(above).unwrap() {
        Value::Object(fields) => {
            fields.insert(key.to_owned(), value);
        }
        Value::Array(items) => {
            let at: usize = key.parse().unwrap();
            items[at] = value;
        }
        other => panic!("{pointer} in {other}"),
    }
    plan
}

/// Where the axis of an input stands.
fn axis(plan: &Value, input: &str) -> String {
    let axes = plan["axes"].as_array().unwrap();
    format!("/axes/{}", axes.iter().position(|axis| axis["input"] == input).unwrap())
}

#[track_caller]
fn refused(text: &str, says: &[&str]) {
    let fault = read(text).expect_err("it is taken for a plan");
    assert_eq!(fault.exit, Exit::BadInput, "{fault}");
    let said = fault.to_string();
    assert!(said.contains("hostile.json"), "no file: {said}");
    assert!(fault.place.is_some(), "no line: {said}");
    for word in ["u64", "u32", "f64", "struct ", "sequence", "variant"] {
        assert!(!said.contains(word), "{word} is a word of the program: {said}");
    }
    for words in says {
        assert!(said.contains(words), "`{words}` is not said: {said}");
    }
    // What is shown of the file is bounded.
    assert!(said.len() < 2_000, "{} bytes", said.len());
}

#[test]
fn the_plan_before_it_is_spoilt_is_one() {
    read(&document().to_string()).unwrap();
    read(&sampled().to_string()).unwrap();
}

#[test]
fn numbers_that_are_none_are_refused() {
    let plan = document();
    let speed = format!("{}/values/numbers/0", axis(plan, "speed"));
    for value in [json!(null), json!("NaN"), json!("1.5"), json!([1.5]), json!(true), json!({})] {
        refused(&with(plan.clone(), &speed, value).to_string(), &["this is not a plan", ":1:"]);
    }
    let text = plan.to_string();
    for number in ["NaN", "Infinity", "-Infinity", "1e999", "-1e400", "0x10", "1.", "+1", ".5"] {
        let spoilt = text.replacen("[1.5,", &format!("[{number},"), 1);
        assert_ne!(spoilt, text);
        refused(&spoilt, &["this is not a plan", ":1:"]);
    }
    for value in [-1.0, 0.0, 1e300, 1e-300] {
        let spoilt = with(plan.clone(), &speed, json!(value));
        refused(&spoilt.to_string(), &["speed"]);
    }
}

#[test]
fn wrong_kinds_are_refused_with_their_place() {
    let cases = [
        ("/axes", json!({})),
        ("/axes", json!("all")),
        ("/axes/0", json!(3)),
        ("/rules", json!(null)),
        ("/rules/0", json!([])),
        ("/keep", json!("everything")),
        ("/keep", json!(1)),
        ("/shard_points", json!(-1)),
        ("/shard_points", json!(1.5)),
        ("/shard_points", json!("64")),
        ("/engine", json!(1)),
        ("/railproof_plan", json!("1")),
        ("/sample", json!({})),
        ("/sample", json!({"how": "sobol", "points": 1e30, "seed": 0})),
        ("/sample", json!({"how": "sobol", "points": -5, "seed": 0})),
        ("/sample", json!({"how": "guessed", "points": 5, "seed": 0})),
        ("/name", json!(7)),
        ("/unknown", json!(1)),
        ("/axes/0/unknown", json!(1)),
        ("/axes/0/input", json!("colour")),
        ("/rules/0/unknown", json!(1)),
        ("/rules/0/rule/linear/unknown", json!(1)),
        ("/rules/0/rule", json!("guess")),
    ];
    for (pointer, value) in cases {
        let spoilt = serde_json::to_string_pretty(&with(document().clone(), pointer, value));
        refused(&spoilt.unwrap(), &["this is not a plan", "hostile.json:"]);
    }
    refused("", &["this is not a plan"]);
    refused("[]", &["this is not a plan"]);
    refused("{}", &["this is not a plan", "missing field"]);
    let twice = document().to_string().replacen('{', "{\"keep\":\"rows\",", 1);
    refused(&twice, &["duplicate field `keep`"]);
}

#[test]
fn plans_that_can_not_be_played_are_refused_with_what_is_wrong() {
    let plan = document();
    let speed = axis(plan, "speed");
    let spoilt = |pointer: &str, value: Value, says: &[&str]| {
        refused(&with(plan.clone(), pointer, value).to_string(), says);
    };
    spoilt(&format!("{speed}/values/numbers"), json!([]), &["speed"]);
    spoilt(&speed, plan.pointer(&axis(plan, "contact")).unwrap().clone(), &["contact", "twice"]);
    spoilt("/axes", json!([]), &["`equipment` is missing"]);
    spoilt(&format!("{speed}/values"), json!({"rails": ["long"]}), &["speed"]);
    spoilt("/shard_points", json!(0), &["shard"]);
    spoilt("/shard_points", json!(u64::MAX), &["shard"]);
    spoilt("/shard_points", json!(1_u64 << 40), &["shard"]);
    spoilt("/rules/1/name", plan["rules"][0]["name"].clone(), &["two rules are called"]);
    spoilt("/rules/1/rule/function/source", json!("function(c) return"), &["bent"]);
    spoilt("/rules/1/rule/function/source", json!("os.exit(1)"), &["bent"]);
    spoilt("/rules/1/rule/function/source", json!(""), &["bent"]);
    spoilt("/railproof_plan", json!(3), &["format 3"]);
    spoilt("/plan_sha256", json!("0".repeat(64)), &["does not match its digest"]);
    let sample = sampled();
    let points = |points: u64| with(sample.clone(), "/sample/points", json!(points)).to_string();
    refused(&points(0), &["at least one point"]);
    refused(&points(u64::MAX), &["points"]);
    refused(&points(1 << 41), &["at most"]);
    let range = format!("{}/values/range", axis(&sample, "speed"));
    refused(
        &with(sample.clone(), &range, json!({"low": 3.0, "high": 3.0})).to_string(),
        &["speed"],
    );
    // Rows of twins could not be told apart.
    let speeds = format!("{speed}/values/numbers");
    spoilt(&speeds, json!([2.0, 3.0, 2.0]), &["`speed` has 2 twice"]);
    spoilt(&speeds, json!([3.0, 3.0]), &["`speed` has 3 twice"]);
    let halls = format!("{}/values/equipment", axis(plan, "equipment"));
    let mut twins = plan.pointer(&halls).unwrap().as_array().unwrap().clone();
    twins.push(with(twins[0].clone(), "/cushion/nose_friction", json!(0.2)));
    spoilt(&halls, json!(twins), &["`equipment` has", "twice"]);
    spoilt(&format!("{}/values/rails", axis(plan, "rail")), json!(["long", "long"]), &["twice"]);
    // A range has no place in a grid of all combinations.
    refused(&with(sample, "/sample", Value::Null).to_string(), &["is a range"]);
}

#[test]
fn reading_a_plan_and_playing_it_refuse_the_same() {
    let place = Place::new();
    let cells: Vec<f64> = (0..64).map(|at| 0.5 + f64::from(at) * 0.005).collect();
    let mut large = with(document().clone(), "/keep", json!("map"));
    for input in ["contact", "off_rail", "speed", "roll"] {
        large =
            with(large.clone(), &format!("{}/values/numbers", axis(&large, input)), json!(cells));
    }
    let rule = &large["rules"][0];
    let rules: Vec<Value> =
        (0..200).map(|at| with(rule.clone(), "/name", json!(format!("rule {at}")))).collect();
    let cases = [
        (with(document().clone(), "/rules", json!([])), "a rule, or start"),
        (with(large.clone(), "/rules", json!(rules)), "cells; at most"),
    ];
    for (plan, says) in cases {
        place.write("hand.json", plan.to_string());
        let planned = place.run("plan hand.json").code(2).says(says);
        let swept = place.run("sweep hand.json --into out").code(2);
        assert_eq!(planned.err, swept.err);
        assert!(!place.path("out").exists());
    }
}

#[test]
fn what_follows_from_the_rest_must_not_say_otherwise() {
    for (field, wrong) in [("points", 7), ("banks", -3), ("shards", 0)] {
        for value in [json!(wrong), json!("x"), json!(null), json!(840.0), json!([]), json!({})] {
            let spoilt = with(document().clone(), &format!("/{field}"), value);
            refused(
                &spoilt.to_string(),
                &[&format!("`{field}` does not agree with the rest of the plan")],
            );
        }
    }
    let mut more = document()["units"].clone();
    more["roll"] = json!("m");
    for value in [json!(null), json!({}), json!("m"), more, json!({"speed": {"speed": "m/s"}})] {
        let spoilt = with(document().clone(), "/units", value);
        refused(&spoilt.to_string(), &["`units` does not agree with the rest of the plan"]);
    }
    let mut plan = document().clone();
    for field in ["points", "banks", "shards", "units"] {
        plan.as_object_mut().unwrap().remove(field);
        read(&plan.to_string()).unwrap();
    }
}

#[test]
fn a_long_line_is_told_by_its_true_column() {
    let text = document().to_string();
    let spoilt = text.replacen("\"shard_points\":64", "\"shard_points\":6x", 1);
    // From 1, of the letter that is no digit.
    let column = spoilt.find("6x").unwrap() + 2;
    assert!(column > 200);
    refused(&spoilt, &[&format!("hostile.json:1:{column}: "), "after `", "\"shard_points\":6`"]);
}

#[test]
fn a_rule_without_a_name_is_refused_as_a_scenarios_is() {
    for name in ["", "  "] {
        let spoilt = with(document().clone(), "/rules/0/name", json!(name));
        refused(&spoilt.to_string(), &["a rule has no name"]);
    }
}

#[test]
fn a_finite_number_out_of_range_is_said_as_one() {
    let ball = "/axes/0/values/equipment/0/ball/diameter_m";
    let spoilt = with(document().clone(), ball, json!(1e308));
    let said = read(&spoilt.to_string()).unwrap_err().to_string();
    assert!(said.contains("diameter is 1") && !said.contains("inf"), "{said}");
}

#[test]
fn numbers_out_of_range_are_refused_with_their_place() {
    let text = Recipe::grid().plan().text();
    let text: Vec<&str> = text.lines().filter(|line| !line.contains("plan_sha256")).collect();
    let line = text.iter().position(|line| line.contains("\"input\":\"speed\"")).unwrap() + 1;
    let spoilt = text.join("\n").replacen("[1.5,", "[1.5e4,", 1);
    refused(&spoilt, &[&format!("hostile.json:{line}:"), "speed is 15000 m/s"]);
    let on = text.iter().position(|line| line.contains("\"input\":\"equipment\"")).unwrap() + 1;
    let spoilt = text.join("\n").replacen("\"restitution\":0.", "\"restitution\":7.", 1);
    refused(&spoilt, &[&format!("hostile.json:{on}:"), "restitution is 7"]);
}

#[test]
fn more_points_than_can_be_counted_are_refused_at_once() {
    let mut plan = document().clone();
    let many: Vec<f64> = (0..20_000_u32).map(|at| 0.5 + f64::from(at) * 1e-5).collect();
    for input in ["contact", "off_rail", "speed", "roll"] {
        let pointer = format!("{}/values/numbers", axis(&plan, input));
        let list: Vec<f64> = many.iter().map(|value| value.min(0.9)).collect();
        plan = with(plan, &pointer, json!(list));
    }
    refused(&plan.to_string(), &["160000000000000000 points", "at most"]);
}

#[test]
fn depth_and_length_are_bounded() {
    let deep =
        |open: &str, close: &str| format!("{}{}", open.repeat(200_000), close.repeat(200_000));
    refused(&deep("[", "]"), &["this is not a plan"]);
    refused(&deep("{\"axes\":[", "]}"), &["this is not a plan"]);
    let at_units = format!("{{\"units\":{}", deep("[", "]"));
    refused(&at_units, &["this is not a plan"]);
    refused(&format!("{{\"name\":\"{}", "x".repeat(1 << 20)), &["this is not a plan"]);
    refused(&format!("{{\"{}\":1}}", "k".repeat(1 << 20)), &["this is not a plan"]);
}

#[test]
fn the_program_refuses_files_that_are_no_plans() {
    let place = Place::new();
    let text = document().to_string();
    let cases: [(&str, Vec<u8>); 7] = [
        ("cut.json", text.as_bytes()[..text.len() / 2].to_vec()),
        ("empty.json", Vec::new()),
        (
            "latin.json",
            text.replace("bent", "b\u{1}nt")
                .bytes()
                .map(|b| if b == 1 { 0xe9 } else { b })
                .collect(),
        ),
        ("zeros.json", vec![0; 4096]),
        ("other.json", b"{\"a\": 1}".to_vec()),
        ("picture.json", b"\x89PNG\r\n\x1a\n".to_vec()),
        ("escape.json", b"{\"\x1b[31m\": 1}".to_vec()),
    ];
    for (name, bytes) in cases {
        place.write(name, bytes);
        for command in ["sweep", "plan"] {
            let into = if command == "sweep" { " --into out" } else { "" };
            // In memory and time that are bounded too: KiB, and seconds of work.
            let line = format!("{command} {name}{into}");
            let ended =
                place.run_after("ulimit -v 4000000; ulimit -t 20", &line).code(2).says(name);
            assert!(!ended.err.contains('\u{1b}'), "{ended:?}");
        }
    }
    std::fs::create_dir(place.path("folder.json")).unwrap();
    place.run("sweep folder.json --into out").code(2).says("folder.json");
    place.run("sweep nowhere.json --into out").code(2).says("nowhere.json");
    // A file as long as none is, without its bytes being anywhere.
    let long = std::fs::File::create(place.path("long.json")).unwrap();
    long.set_len(1 << 36).unwrap();
    place.run_after("ulimit -v 4000000", "sweep long.json --into out").code(2).says("longer than");
    assert!(!place.path("out").exists(), "a refused plan makes no folder");
}

/// A plan of whole shots over the keys of a layout, and no digest.
fn shots() -> Value {
    const SCENARIO: &str = "plan { layout = 'shot.yaml', over = {
        ['stroke.speed'] = { mps(2), mps(3) }, ['target.pocket'] = { 'foot-right', 'foot-left' } } }";
    const LAYOUT: &str = "equipment: nine-foot
target: {pocket: foot-right, ball: object}
balls:
  cue: {position: [0.2 m, 0.1 m]}
  object: {position: [0.5 m, 0.3 m]}
stroke: {speed: 3 m/s, send: {ball: object, heading: {angle: 50 deg}}}
";
    let place = Place::new();
    place.write("shot.yaml", LAYOUT);
    place.write("it.lua", SCENARIO);
    let options = RunOptions::default();
    let plan = plan_of_scenario(&place.path("it.lua"), 1, &options).unwrap();
    let mut plan: Value = serde_json::from_str(&plan.text()).unwrap();
    plan.as_object_mut().unwrap().remove("plan_sha256");
    plan
}

#[test]
fn plans_of_shots_that_were_edited_wrongly_are_refused_at_their_line() {
    let plan = shots();
    read(&plan.to_string()).unwrap();
    let text = |plan: &Value| serde_json::to_string_pretty(plan).unwrap();
    let spoilt = |pointer: &str, value: Value, says: &[&str]| {
        refused(&text(&with(plan.clone(), pointer, value)), says);
    };
    let layout = plan["layout"].as_str().unwrap();
    let speeds = json!({"numbers": {"amounts": [2.0, 30.0], "si": [2.0, 30.0], "unit": "m/s", "si_unit": "m/s"}});
    spoilt("/over/0/values", speeds, &["30 m/s can't stand at `stroke.speed`", "must be from"]);
    let bare = json!({"numbers": {"amounts": [2.0], "si": [2.0], "unit": "", "si_unit": ""}});
    spoilt("/over/0/values", bare, &["`speed` needs a unit"]);
    spoilt("/over/1/values", json!({"words": ["foot-right", "food"]}), &["\"food\" can't stand"]);
    spoilt("/over/0/name", json!("stroke.sped"), &["no key `stroke.sped`"]);
    spoilt("/over", json!([]), &["`over` names nothing"]);
    spoilt("/layout", json!(layout.replace("position: [0.5", "position: [[0.5")), &["layout:"]);
    spoilt("/layout", json!(layout.replace("speed: 3", "speed: 300")), &["layout:6", "300 m/s"]);
    spoilt("/equipment/nine-foot/table/jaws/side_angle_rad", json!(3.05), &["side"]);
    spoilt("/axes", json!([]), &["`axes` is for banks and `layout` for whole shots"]);
    let mut without = plan.clone();
    without.as_object_mut().unwrap().remove("over");
    refused(&text(&without), &["missing field `over`"]);
}

#[test]
fn equipment_whose_parts_do_not_go_together_is_refused_at_its_axis() {
    let pointer = format!("{}/values/equipment/0", axis(document(), "equipment"));
    for (field, value, says) in [
        ("table/jaws/side_angle_rad", 3.05, "side"),
        ("cushion/nose_height_m", 0.055, "nose_height in ball diameters is 0.962"),
    ] {
        let spoilt = with(document().clone(), &format!("{pointer}/{field}"), json!(value));
        refused(&spoilt.to_string(), &[says, ":1:"]);
    }
}

/// A text either plays or is refused as bad input; both without a panic.
fn survives(text: &str) -> Result<(), TestCaseError> {
    let plan = match read(text) {
        Ok(plan) => plan,
        Err(fault) => {
            prop_assert_eq!(fault.exit, Exit::BadInput, "{}", fault);
            return Ok(());
        }
    };
    let again = read(&plan.text()).expect("its own text is a plan");
    prop_assert_eq!(again.sha256(), plan.sha256());
    let Ok(mut player) = Player::new(plan.banks().unwrap(), plan.rules(), plan.keep.wanted())
    else {
        return Ok(());
    };
    let mut played = PlayedRows::default();
    player.play(0..plan.points().min(8), &mut played, &AtomicBool::new(false));
    prop_assert_eq!(played.len() as u64, plan.points().min(8) * plan.ways());
    Ok(())
}

/// Every place in a document, as pointers.
fn places(value: &Value, at: &str, found: &mut Vec<String>) {
    let mut below = |key: String, value: &Value| {
        let pointer = format!("{at}/{key}");
        found.push(pointer.clone());
        places(value, &pointer, found);
    };
    match value {
        Value::Object(fields) => fields.iter().for_each(|(key, value)| below(key.clone(), value)),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(at, value)| below(at.to_string(), value));
        }
        _ => {}
    }
}

fn hostile_value() -> impl Strategy<Value = Value> {
    let numbers = [0.0, -0.0, -1.0, 1.0, 0.5, 3.0, 1e30, 1e300, -1e300, 5e-324, 1e15, f64::MAX];
    prop_oneof![
        proptest::sample::select(numbers.map(|number| json!(number)).to_vec()),
        any::<u64>().prop_map(|number| json!(number)),
        any::<i64>().prop_map(|number| json!(number)),
        any::<f64>().prop_map(|number| json!(number)),
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        Just(json!([])),
        Just(json!({})),
        ".{0,12}".prop_map(Value::from),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any value at any place.
    #[test]
    fn a_plan_with_another_value_anywhere_plays_or_is_refused(
        of_sample in any::<bool>(),
        changes in proptest::collection::vec((any::<proptest::sample::Index>(), hostile_value()), 1..3),
    ) {
        let mut plan = if of_sample { sampled() } else { document().clone() };
        for (index, value) in changes {
            let mut all = Vec::new();
            places(&plan, "", &mut all);
            if all.is_empty() { break; }
            let place: &String = index.get(&all);
            plan = with(plan, place, value);
        }
        survives(&plan.to_string())?;
    }

    /// Bytes cut out, doubled or changed anywhere.
    #[test]
    fn a_plan_with_other_bytes_plays_or_is_refused(
        changes in proptest::collection::vec(
            (any::<proptest::sample::Index>(), 0_usize..40, any::<u8>(), 0_u8..3), 1..4),
    ) {
        let mut bytes = document().to_string().into_bytes();
        for (index, length, byte, how) in changes {
            if bytes.is_empty() { break; }
            let at = index.index(bytes.len());
            let to = (at + length).min(bytes.len());
            match how {
                0 => { bytes.drain(at..to); }
                1 => { let part = bytes[at..to].to_vec(); bytes.splice(at..at, part); }
                _ => bytes[at] = byte,
            }
        }
        survives(&String::from_utf8_lossy(&bytes))?;
    }
}

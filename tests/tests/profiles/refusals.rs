//! Each kind of wrong profile gets its own message at its own place.

use super::{assert_fault, nine_foot_with};
use railproof::fault::Fault;
use railproof::profile::parse_profile;

fn refused(text: &str) -> Fault {
    match parse_profile(text, "table.yaml") {
        Ok(equipment) => panic!("accepted as {equipment:?}:\n{text}"),
        Err(fault) => fault,
    }
}

/// One stretch of the nine-foot profile replaced; where in the result the fault must stand; what
/// its message and its hint say.
const ONE_FIELD: &[(&str, &str, &str, &str, &str)] = &[
    // Units.
    ("length: 100 in", "length: 100", "100\n", "has no unit", ""),
    ("length: 100 in", "length: 100 kg", "100 kg", "`kg` is not a unit of length", ""),
    ("mass: 170 g", "mass: 170 gr", "170 gr", "`gr` is not a unit of mass", ""),
    ("length: 100 in", "length: long", "long", "does not begin with a number", ""),
    ("friction: 0.13\n", "friction: 14 %\n", "14 %", "`%` is not a unit", ""),
    ("length: 100 in", "length: 2,54 m", "2,54 m", "is not a unit", "`2.54 m`"),
    // Ranges.
    (
        "length: 100 in",
        "length: 100 ft",
        "100 ft",
        "cannot be 100 ft: it must be from 1 m to 4 m",
        "",
    ),
    ("mass: 170 g", "mass: -170 g", "-170 g", "from 50 g to 500 g", ""),
    ("mass: 170 g", "mass: 0 g", "0 g\n", "from 50 g to 500 g", ""),
    ("restitution: 0.955", "restitution: 1.01", "1.01", "from 0 to 1", ""),
    ("restitution: 0.955", "restitution: .nan", ".nan", "not a finite number", ""),
    ("restitution: 0.955", "restitution: -.inf", "-.inf", "not a finite number", ""),
    ("restitution: 0.955", "restitution: NaN", "NaN", "not a finite number", ""),
    ("mass: 170 g", "mass: inf g", "inf g", "not a finite number", ""),
    ("mass: 170 g", "mass: 1e999 g", "1e999 g", "not a finite number", ""),
    ("restitution: 0.955", "restitution: 1e400", "1e400", "not a finite number", ""),
    ("corner_angle: 142 deg", "corner_angle: 90 deg", "90 deg", "from 110 deg to 175 deg", ""),
    ("side_radius: 0.25 in", "side_radius: 3 in", "3 in", "from 0 mm to 60 mm", ""),
    ("end_mass: 8.5 g", "end_mass: 8.5 oz", "8.5 oz", "from 0 g to 100 g", ""),
    ("miscue_offset: 0.5", "miscue_offset: 1.2", "1.2", "from 0.1 to 1", ""),
    ("friction_at_10: 0.01", "friction_at_10: 5.75", "5.75", "from 0 to 0.5", ""),
    // Spellings that YAML readers disagree about.
    ("mass: 170 g", "mass: 0170 g", "0170 g", "needless zero", "write `170 g`"),
    ("restitution: 0.955", "restitution: 00", "00\n", "needless zero", "write `0`"),
    ("restitution: 0.955", "restitution: 0x1", "0x1", "`x1` is not a unit", ""),
    ("restitution: 0.955", "restitution: yes", "yes", "does not begin with a number", ""),
    ("restitution: 0.955", "restitution: ~", "~", "does not begin with a number", ""),
    // Kinds of value.
    ("mass: 170 g", "mass: [170 g]", "[170", "found sequence where a mass", ""),
    ("mass: 170 g", "mass: {g: 170}", "{g", "found map where a mass", ""),
    ("name: Nine-foot table", "name: [a]", "[a]", "found sequence where the text of `name`", ""),
    ("name: Nine-foot table", "name: ''", "''", "`name` is empty", ""),
    (
        "model: nose-and-cloth",
        "model: nose-and-clot",
        "nose-and-clot\n",
        "it is one of",
        "did you mean `nose-and-cloth`?",
    ),
    (
        "model: nose-and-cloth",
        "model: planer",
        "planer",
        "cannot be `planer`",
        "did you mean `planar`?",
    ),
    // Keys.
    (
        "  restitution_loss:",
        "  restitution_los:",
        "restitution_los:",
        "the `cushion` section has no field `restitution_los`",
        "did you mean `restitution_loss`?",
    ),
    (
        "  width: 50 in",
        "  width: 50 in\n  colour: blue",
        "colour",
        "has no field `colour`",
        "it can have: length, width",
    ),
    (
        "cloth:\n",
        "clothe:\n",
        "clothe:",
        "a profile has no field `clothe`",
        "did you mean `cloth`?",
    ),
    ("  width: 50 in", "  width: 50 in\n  width : 50 in", "width :", "has `width` twice", ""),
    ("ball:\n", "? [ball]\n:\n", "[ball]", "found sequence where the name of a field", ""),
    ("ball:\n", "<<: {}\nball:\n", "<<", "a profile has no field `<<`", "it can have"),
];

#[test]
fn one_wrong_field() {
    for &(from, to, at, message, hint) in ONE_FIELD {
        let text = nine_foot_with(from, to);
        assert_fault(&refused(&text), &text, at, message, hint);
    }
}

#[test]
fn an_empty_value_is_placed_at_its_end_or_key_line() {
    let text = nine_foot_with("mass: 170 g", "mass:");
    let fault = refused(&text);
    assert!(fault.message.contains("`mass` is empty"), "{fault}");
    let line = 1 + text[..text.find("mass:").expect("it is there")].matches('\n').count();
    assert_eq!(fault.place.expect("it has a place").line_column().0, line);
}

#[test]
fn places_count_characters_not_bytes() {
    let text = nine_foot_with("name: Nine-foot table", "name: Стол № 9 — größer 🎱")
        .replace("mass: 170 g", "mass: \"170 г\" # ☃");
    assert_fault(&refused(&text), &text, "\"170 г\"", "`г` is not a unit of mass", "");
    let flow = "{name: é🎱, tablé: 1}";
    assert_fault(&refused(flow), flow, "tablé", "no field `tablé`", "did you mean `table`?");
}

#[test]
fn windows_line_ends_and_a_byte_order_mark_change_nothing() {
    let text = nine_foot_with("mass: 170 g", "mass: 17 g").replace('\n', "\r\n");
    assert_fault(&refused(&format!("\u{feff}{text}")), &text, "17 g", "from 50 g", "");
}

#[test]
fn missing_parts_are_named_at_their_section() {
    let text = nine_foot_with("  mass: 170 g\n", "");
    assert_fault(&refused(&text), &text, "ball:", "the `ball` section has no `mass`", "");
    let text = nine_foot_with("  restitution: 0.955\n", "").replace("  friction: 0.13\n", "");
    assert_fault(&refused(&text), &text, "cushion:", "has no `restitution` and no `friction`", "");
    let text = nine_foot_with("name: Nine-foot table\n", "");
    assert_fault(&refused(&text), &text, "about:", "has no `name`", "name: Our table");
    let text = "# nothing else\nname: bare\n";
    assert_fault(&refused(text), text, "name", "no `table` section", "laid over a complete one");
    let text = "name: bare\ntable:\n";
    assert_fault(&refused(text), text, "table", "the `table` section has no `length`", "");
}

#[test]
fn sections_that_do_not_go_together() {
    let text = nine_foot_with("nose_height: 1.42875 in", "nose_height: 2 in");
    assert_fault(&refused(&text), &text, "nose_height", "the nose is at 88.9 %", "28.575 mm");
    let text =
        nine_foot_with("width: 50 in", "width: 80 in").replace("length: 100 in", "length: 50 in");
    assert_fault(&refused(&text), &text, "width", "wider than it is long", "long side");
    let text = nine_foot_with("corner_mouth: 4.5625 in", "corner_mouth: 71 mm")
        .replace("diameter: 2.25 in", "diameter: 75 mm")
        .replace("nose_height: 1.42875 in", "nose_height: 47 mm");
    assert_fault(&refused(&text), &text, "corner_mouth", "too narrow for a ball of 75.0 mm", "");
}

#[test]
fn broken_yaml() {
    let cases = [
        ("name: a\n\tball: 1\n", "\tball", "not valid YAML", "spaces"),
        ("name: 'a\n", "'a", "", ""),
        ("name: a\nball: [1, 2\n", "", "not valid YAML", ""),
        ("name: *nobody\n", "*nobody", "not valid YAML: unknown anchor", ""),
        ("just words\n", "just words", "found string", ""),
        ("- a\n- b\n", "- a", "found sequence where a profile", ""),
        ("3\n", "3", "found integer `3` where a profile", ""),
        ("name: a\n---\nname: b\n", "name", "", ""),
    ];
    for (text, at, message, hint) in cases {
        let fault = refused(text);
        if at.is_empty() || message.is_empty() {
            assert!(fault.place.is_some(), "{fault}");
            assert!(!fault.message.is_empty());
        } else {
            assert_fault(&fault, text, at, message, hint);
        }
    }
    let whole = railproof::profile::shipped_text("nine-foot").expect("it ships");
    let twice = refused(&format!("{whole}---\nname: b\n"));
    assert!(twice.message.contains("more than one YAML document"), "{twice}");
}

#[test]
fn the_drawn_message_has_line_caret_and_hint() {
    let text = nine_foot_with("  restitution_loss:", "  restitution_los:");
    let shown = refused(&text).render(railproof::fault::Style::PLAIN);
    assert!(shown.contains("restitution_los: 0.0075 s/m"), "{shown}");
    assert!(shown.contains("did you mean `restitution_loss`?"), "{shown}");
    assert!(shown.contains("table.yaml:"), "{shown}");
    assert!(shown.contains('┬'), "{shown}");
}

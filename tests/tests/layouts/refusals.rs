//! What is refused, where, and with what words.

use super::{BANK, of_balls, read, with};
use railproof::fault::{Fault, Style};

fn refused(text: &str) -> Fault {
    match read(text) {
        Ok(layout) => panic!("accepted as {layout:?}:\n{text}"),
        Err(fault) => fault,
    }
}

/// Holds the refusal to the place of the first `at` in the text and to its words.
fn check(text: &str, at: &str, message: &str, hint: &str) {
    let fault = refused(text);
    let shown = fault.render(Style::PLAIN);
    let offset = text.find(at).unwrap_or_else(|| panic!("`{at}` is not in the text:\n{shown}"));
    let line = 1 + text[..offset].matches('\n').count();
    let column = 1 + text[..offset].rsplit('\n').next().unwrap_or_default().chars().count();
    let place = fault.place.as_ref().unwrap_or_else(|| panic!("no place in {shown}"));
    assert_eq!(place.line_column(), (line, column), "{shown}");
    assert!(fault.message.contains(message), "`{message}` is not in:\n{shown}");
    let given = fault.hint.as_deref().unwrap_or_default();
    assert!(given.contains(hint), "`{hint}` is not in the hint of:\n{shown}");
    assert_eq!(fault.exit.code(), 2);
}

/// Each case changes the bank in one stretch: from, to, place, message, hint.
fn each(cases: &[(&str, &str, &str, &str, &str)]) {
    for (from, to, at, message, hint) in cases {
        check(&with(BANK, from, to), at, message, hint);
    }
}

const OBJECT: &str = "{on_line: {contact: 2, start: 4.4}, off_rail: 12 in}";
const AIM: &str = "  aim_at: {behind: object, heading: {line: {contact: 2, start: 4.4}}}\n";

#[test]
fn places() {
    each(&[
        (OBJECT, "{}", "object: {}", "the ball `object` has no place", "one of position, on_rail"),
        (OBJECT, "{on_rial: left}", "on_rial", "no field `on_rial`", "did you mean `on_rail`?"),
        (OBJECT, "{on_rail: lift, number: 2}", "lift", "cannot be `lift`", "did you mean `left`?"),
        (
            OBJECT,
            "{on_rail: left}",
            "object: {on_rail",
            "has `on_rail` and no `number`",
            "number: 2",
        ),
        (OBJECT, "{on_rail: left, number: 2 in}", "2 in", "", ""),
        (OBJECT, "{on_rail: left, number: 30}", "30}", "must be from -20 to 20", ""),
        (
            OBJECT,
            "{on_rail: left, number: 2, position: [0 m, 0 m]}",
            "object: {on_rail",
            "has both `position` and `on_rail`",
            "one place",
        ),
        (
            OBJECT,
            "{position: [0 m, 0 m], share: 0.5}",
            "object: {pos",
            "`share` goes with `between`, not with `position`",
            "",
        ),
        (OBJECT, "{between: [cue]}", "[cue]", "`between` takes two places", "[object, cue]"),
        (
            OBJECT,
            "{between: [cue, cu]}",
            "between: [cue",
            "there is no ball `cu`",
            "did you mean `cue`?",
        ),
        (OBJECT, "{between: [cue, {pockets: x}]}", "pockets", "no field `pockets`", "`pocket`"),
        (OBJECT, "{behind: cue}", "object: {behind", "no `heading`", "heading: {to"),
        (
            OBJECT,
            "{behind: cue, heading: {}}",
            "heading: {}",
            "takes one of `to`, `line` and `angle`",
            "",
        ),
    ]);
}

#[test]
fn lines_and_what_is_in_the_way() {
    each(&[
        (
            OBJECT,
            "{on_line: {contact: 2}}",
            "on_line: {contact: 2}",
            "the line has no `start`",
            "two numbers",
        ),
        (
            OBJECT,
            "{on_line: {contact: 2, start: 4, rail: right}}",
            "on_line: {contact: 2, start: 4, rail",
            "makes no bank: the foot-right pocket opens into the right rail",
            "other side",
        ),
        (
            OBJECT,
            "{on_rail: left, number: 4}",
            "on_rail: left",
            "at 4 the left rail has no cushion",
            "a pocket opens there",
        ),
        (
            OBJECT,
            "{behind: cue, heading: {angle: 0 deg}}",
            "behind: object",
            "where `cue` lies depends on itself: cue → object → cue",
            "a place of its own",
        ),
        (
            OBJECT,
            "{position: [0.062 m, 0.625 m]}",
            "position: [0.062",
            "inside a jaw of the side-left pocket",
            "",
        ),
        (
            OBJECT,
            "{position: [0 m, 0.65 m]}",
            "position: [0 m",
            "past the edge of the side-left pocket",
            "dropped",
        ),
        ("gap: 30 cm", "gap: -1 cm", "-1 cm", "`gap` cannot be -1 cm", ""),
        (
            "  object: {on_line",
            "  other: {position: [0.3 m, 0.3 m], diameter: 80 mm}\n  object: {on_line",
            "diameter: 80 mm",
            "the ball `other` does not go with this table: nose_height / ball diameter is 0.45",
            "",
        ),
        (
            "  object: {on_line",
            "  other: {position: [0.3 m, 0.3 m], diameter: 48 mm}\n  object: {on_line",
            "diameter: 48",
            "does not go with this table",
            "",
        ),
        (
            "  object: {on_line",
            "  other: {between: [object, cue], share: 0.9}\n  object: {on_line",
            "between: [object",
            "the balls `cue` and `other` are inside one another",
            "",
        ),
        ("  object: {on_line", "  cue: {on_line", "cue: {on_line", "`balls` has `cue` twice", ""),
    ]);
}

#[test]
fn off_the_table_and_without_direction() {
    let text = of_balls("  object: {on_rail: left, number: 2, off_rail: 50 in}\n");
    let off = "the ball `object` is off the table: y is -0.662";
    check(&text, "on_rail: left", off, "-0.607486 m to 0.607486 m");
    let text = of_balls(
        "  object: {position: [0 m, 0 m]}\n  near: {behind: object, heading: {to: object}}\n",
    );
    check(&text, "behind: object", "this is no direction", "");
}

#[test]
fn counts_need_a_pocket() {
    let text = "equipment: nine-foot\nballs:\n  a: {on_rail: left, number: 2}\n";
    check(text, "on_rail", "from which pocket are the rail numbers counted?", "counted_from");
    let ball = |i: usize| format!("  b{i}: {{position: [0 m, 0 m]}}\n");
    let many: Vec<String> = (0..17).map(ball).collect();
    let text = format!("equipment: nine-foot\nballs:\n{}", many.concat());
    check(&text, "b16", "more than 16 balls", "");
}

#[test]
fn targets() {
    let target = "{pocket: foot-right, ball: object}";
    each(&[
        (
            target,
            "{pocket: foot-middle}",
            "foot-middle",
            "cannot be `foot-middle`; it is one of",
            "",
        ),
        (target, "{pocket: foot-rigth}", "foot-rigth", "", "did you mean `foot-right`?"),
        (target, "{ball: object}", "target", "`target` has no `pocket`", "foot-right"),
        (
            target,
            "{pocket: foot-right, ball: objekt}",
            "ball: objekt",
            "no ball `objekt`",
            "`object`",
        ),
    ]);
    let two = with(
        &with(BANK, target, "{pocket: foot-right}"),
        "  object: {on_line",
        "  third: {position: [-0.5 m, 0 m]}\n  object: {on_line",
    );
    check(&two, "target", "which ball is meant", "ball: object");
}

#[test]
fn strokes() {
    each(&[
        ("  speed: 3 m/s\n", "", "stroke", "`stroke` has no `speed`", "3 m/s"),
        ("3 m/s", "30 m/s", "30 m/s", "must be from 0.01 m/s to 20 m/s", ""),
        (AIM, "", "stroke", "one of `aim_at`, `aim` and `send`", "aim: 30 deg"),
        (AIM, "  aim: 3 deg\n  aim_at: object\n", "stroke", "one of `aim_at`", ""),
        (AIM, "  aim_at: cue\n", "aim_at: cue", "the very place where the ball lies", ""),
        (AIM, "  aim_at: objekt\n", "aim_at: objekt", "no ball `objekt`", "`object`"),
        (AIM, "  aim: 3 deg\n  sid: 0.1\n", "sid", "no field `sid`", "`side`"),
        (AIM, "  aim: 3 deg\n  side: 1.2\n", "1.2", "must be from -1 to 1", ""),
        (
            AIM,
            "  aim: 3 deg\n  side: 0.8\n  height: 0.7\n",
            "side: 0.8",
            "the tip passes the ball: it stands 1.063",
            "",
        ),
        (
            AIM,
            "  aim: 3 deg\n  side: 0.2\n  height: -0.6\n",
            "height: -0.6",
            "a miscue: the tip stands 0.632",
            "allow_miscue",
        ),
        (AIM, "  aim: 3 deg\n  elevation: -2 deg\n", "-2 deg", "from 0 deg to 80 deg", ""),
        (AIM, "  aim: 3 deg\n  allow_miscue: perhaps\n", "perhaps", "no, false, yes, true", ""),
        (AIM, "  aim: 3 deg\n  ball: whit\n", "ball: whit", "no ball `whit`", "cue, object"),
        (
            AIM,
            "  send: {ball: cue, heading: {angle: 3 deg}}\n",
            "ball: cue",
            "can't be sent by itself",
            "aim_at",
        ),
        (AIM, "  send: {ball: object}\n", "send", "takes a `ball` and a `heading`", ""),
        (
            AIM,
            "  send: {ball: object, heading: {angle: -120 deg}}\n",
            "send",
            "the object ball would have to be cut by",
            "",
        ),
        (
            "gap: 30 cm}",
            "gap: 30 cm, velocity: [1 m/s, 0 m/s]}",
            "velocity",
            "has a `velocity` and is struck",
            "take one of them out",
        ),
        ("gap: 30 cm}", "gap: 30 cm, spin: [0 rpm, 0 rpm, 9 rpm]}", "spin", "has a `spin`", ""),
        ("  cue: {behind", "  white: {behind", "stroke", "which ball is struck?", "ball: white"),
    ]);
}

#[test]
fn obstacles() {
    let with_box = |shape: &str| format!("{BANK}obstacles:\n  box: {shape}\n");
    let cases = [
        ("{}", "box: {}", "the obstacle `box` has no shape", "corners"),
        ("{middle: [0 m, 0 m], length: 20 cm}", "box: {middle", "no shape", "width"),
        (
            "{middle: [0 m, 0 m], corners: [[0 m, 0 m]]}",
            "box: {middle",
            "`corners` and a rectangle's keys",
            "",
        ),
        ("{corners: [[0 m, 0 m], [1 cm, 0 m]]}", "box: {corners", "needs 3 to 64 corners", ""),
        (
            "{corners: [[0 m, 0 m], [9 cm, 0 m], [2 cm, 2 cm], [0 m, 9 cm]]}",
            "box: {corners",
            "convex",
            "",
        ),
        ("{corners: [[0 m, 0 m, 1 m]]}", "[0 m, 0 m, 1 m]", "`corners` takes 2 quantities", ""),
        (
            "{middle: [3 m, 0 m], length: 20 cm, width: 10 cm}",
            "box: {middle",
            "lies off the table",
            "",
        ),
        (
            "{middle: [0 m, 0.62 m], length: 20 cm, width: 10 cm}",
            "box: {middle",
            "lies over the side-left pocket",
            "",
        ),
        (
            "{middle: [-60 cm, 0 m], length: 20 cm, width: 10 cm, restitution: 1.2}",
            "1.2",
            "must be from 0 to 1",
            "",
        ),
        (
            "{middle: [-60 cm, 0 m], length: 20 cm, widht: 10 cm}",
            "widht",
            "the obstacle `box` has no field `widht`",
            "`width`",
        ),
    ];
    for (shape, at, message, hint) in cases {
        check(&with_box(shape), at, message, hint);
    }
    let over_ball = with_box("{middle: [0.444 m, 0.303 m], length: 20 cm, width: 10 cm}");
    check(&over_ball, "on_line", "mm inside the obstacle `box`", "");
    let twice = format!(
        "{}  box: {{}}\n",
        with_box("{middle: [-60 cm, 0 m], length: 20 cm, width: 10 cm}")
    );
    let fault = refused(&twice);
    assert!(fault.message.contains("`obstacles` has `box` twice"), "{fault}");
}

#[test]
fn engines() {
    check(&format!("{BANK}engine: steped\n"), "steped", "cannot be `steped`", "`stepped`");
}

/// A jaw that can't be is refused in the profile, at the radius.
#[test]
fn jaws() {
    let profile = railproof::profile::shipped_text("nine-foot").expect("it ships");
    let inner = format!("  {}\n", profile.trim_end().replace('\n', "\n  "));
    let inner = with(&inner, "side_radius: 0.25 in", "side_radius: 60 mm");
    // A facing of 57.15 mm takes a rounding of 60 mm·tan 44.5° = 58.96 mm no more.
    let inner = with(&inner, "side_angle: 104 deg", "side_angle: 91 deg");
    let inner = with(&inner, "side_shelf: 0.1875 in", "side_shelf: 0 in");
    let text = with(BANK, "equipment: nine-foot\n", &format!("equipment:\n{inner}"));
    check(&text, "side_radius", "the points of the side-left pocket are rounded by 0.06 m", "");
}

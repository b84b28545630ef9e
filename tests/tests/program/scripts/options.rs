//! Options arrive typed, and a wrong one is underlined in the text.

use super::{refused, run, underlined};
use railproof::exit::Exit;
use railproof_engine::units::Speed;

#[test]
fn options_arrive_typed() {
    let printed = run(r#"
        print(sweep {
          contact = span(1, 2, 0.5), off_rail = { inches(0), centimetres(10) },
          speed = { mps(2), lengths(3) }, reading = "sight", drawn = true,
          share = 0.5,
        })
        print(thing:sweep { contact = 2 })
    "#)
    .unwrap();
    let speeds = [Speed::MetresPerSecond(2.0), Speed::TableLengths(3.0)];
    assert_eq!(printed[0], format!("[1.0, 1.5, 2.0] [0.0, 0.1] {speeds:?} Sight true Some(0.5)"));
    assert_eq!(printed[1], "[2.0] [] [] Groove false None");
}

/// Fields, what the message and the hint hold, and the line, column and text underlined.
type Case = (&'static str, &'static str, &'static str, (usize, usize, &'static str));

#[test]
fn a_wrong_option_is_underlined_in_the_text() {
    let call = |fields: &str| {
        format!("-- speed = 1\nlocal banks = sweep {{\n  contact = 2, -- {{\n{fields}\n}}\n")
    };
    let cases: &[Case] = &[
        ("  sped = mps(2),", "has no option `sped`", "did you mean `speed`?", (4, 3, "sped")),
        ("  [\"sped\"] = mps(2),", "has no option `sped`", "speed", (4, 4, "\"sped\"")),
        ("  colour = 1,", "has no option `colour`", "it has: contact, off_rail", (4, 3, "colour")),
        ("  drawn = true, speed = 3,", "`speed` needs a unit", "write mps(3)", (4, 17, "speed")),
        ("  speed = '3',", "must be a speed with its unit", "write mps(3)", (4, 3, "speed")),
        ("  speed = '2,5 m/s',", "must be a speed", "point: \"2.5 m/s\"", (4, 3, "speed")),
        ("  speed = '3 in',", "must be a speed, not 3 in", "m/s, km/h", (4, 3, "speed")),
        ("  speed = metres(3),", "must be a speed, not 3 m", "m/s, km/h", (4, 3, "speed")),
        (
            "  speed = '3 hands',",
            "must be a speed with its unit, not the text \"3 hands\"",
            "m/s, km/h",
            (4, 3, "speed"),
        ),
        (
            "  speed = {\n    mps(1),\n    4 },",
            "`speed`, item 2, needs a unit",
            "mps(4)",
            (6, 5, "4"),
        ),
        ("  speed = {},", "must hold at least one value", "", (4, 11, "{}")),
        (
            "  speed = { mps(1), nil, mps(2) },",
            "without gaps",
            "",
            (4, 11, "{ mps(1), nil, mps(2) }"),
        ),
        ("  off_rail = inches(4),", "must be a list, each item a length", "", (4, 3, "off_rail")),
        (
            "  reading = 'grove',",
            "must be \"groove\" or \"sight\"",
            "did you mean \"groove\"?",
            (4, 13, "'grove'"),
        ),
        (
            "  reading = 2,",
            "must be \"groove\" or \"sight\", not a plain number",
            "",
            (4, 3, "reading"),
        ),
        ("  drawn = 'yes',", "must be true or false, not the text \"yes\"", "", (4, 3, "drawn")),
        ("  share = 1.5,", "must be from 0 to 1, not 1.5", "", (4, 11, "1.5")),
        ("  7,", "options need names", "", (4, 3, "7")),
    ];
    for (fields, message, hint, place) in cases {
        let fault = refused(&call(fields));
        assert!(fault.message.contains(message), "{fields}: {fault}");
        assert!(fault.hint.as_deref().unwrap_or_default().contains(hint), "{fields}: {fault}");
        let (line, column, text) = underlined(&fault);
        assert_eq!((line, column, text.as_str()), *place, "{fields}: {fault}");
        assert_eq!(fault.exit, Exit::BadInput);
    }
}

#[test]
fn calls_written_in_other_ways_are_found_too() {
    // The same in brackets, as a method, through pcall and another name, with the options apart.
    let cases = [
        ("local x = sweep(\n {\n  contact = 2, sped = 1 }\n)", (3, 16, "sped")),
        ("local x = thing\n  :sweep {\n  sped = 1 }", (3, 3, "sped")),
        ("local other = sweep\nlocal x = other { contact = 1,\n sped = 1 }", (3, 2, "sped")),
        ("local o = { contact = 1,\n sped = 1 }\nlocal x = sweep(o)", (2, 2, "sped")),
        ("local x = sweep { contact = 1 } .. sweep { sped = 1 }", (1, 44, "sped")),
        ("local x = sweep {\n speed = mps(2) }", (1, 11, "sweep")),
        ("sweep()", (1, 1, "sweep")),
        ("local x = 1\nprint(swep { contact = 2 })", (2, 7, "swep")),
        ("local t = {}\nlocal y = t.field.deeper", (2, 11, "t.field.deeper")),
        ("local x = 1\n\n  error('no')", (3, 3, "error('no')")),
        ("local x = 1\nlocal y = {\n", (2, 11, "{")),
    ];
    for (text, place) in cases {
        let fault = refused(text);
        let (line, column, under) = underlined(&fault);
        if place.2 == "t.field.deeper" {
            assert_eq!(line, 2, "{fault}");
            continue;
        }
        assert_eq!((line, column, under.as_str()), place, "{text}\n{fault}");
    }
    let caught = run("local ok, why = pcall(sweep, { sped = 1 }) print(ok, why)").unwrap();
    assert!(caught[0].starts_with("false\ta.lua:1:32: sweep has no option"), "{caught:?}");
}

//! Hints taken at their word: each is typed in place of the slip, and the program runs.

use super::support::Place;

/// The text with the hint of its refusal typed in place of the slip.
#[track_caller]
fn obeyed(place: &Place, file: &str, text: &str, wrong: &str, right: &str, arguments: &[&str]) {
    assert!(text.contains(wrong), "{text}");
    place.write(file, text);
    let refused = place.run(arguments).code(2);
    let hint = refused.err.split("Help: ").nth(1).unwrap_or_default();
    let typed = right.trim_start_matches("tip_side: ").trim_end();
    assert!(hint.contains(typed), "{wrong}: {refused:#?}");
    place.write(file, &text.replacen(wrong, right, 1));
    place.run(arguments).code(0);
}

const SCENARIO: &str = r#"local banks = grid {
  equipment = equipment "nine-foot", contact = 2, off_rail = inches(5), speed = mps(3),
  spin = "stun",
}
local map = compare(banks, rule.linear { slope = 2.2 })
print(map:share())
"#;

#[test]
fn in_a_scenario() {
    let place = Place::new();
    place.write("bank.lua", SCENARIO);
    place.run(&["run", "bank.lua"]).code(0);
    let slip = |from: &str, to: &str, wrong: &str, right: &str| {
        assert!(SCENARIO.contains(from), "{from}");
        let text = SCENARIO.replacen(from, to, 1);
        obeyed(&place, "bank.lua", &text, wrong, right, &["run", "bank.lua"]);
    };
    for (from, wrong, right) in [
        ("2", "1 to 3", "span(1, 3, 0.25)"),
        ("inches(5)", "6\"", "inches(6)"),
        ("inches(5)", "inches(10 1/2)", "inches(10.5)"),
        ("inches(5)", "inches(10, 1/2)", "inches(10.5)"),
        ("inches(5)", "inches(10, 05)", "inches(10.05)"),
        ("inches(5)", "5 in", "inches(5)"),
        ("inches(5)", "0 to 10 in", "span(inches(0), inches(10), inches(1))"),
        ("2.2", "2,2", "2.2"),
        ("mps(3)", "3 m/s", "mps(3)"),
        ("mps(3)", "span(soft, firm, 5)", r#"{ "soft", "medium", "firm" }"#),
        ("mps(3)", r#"span("soft", "firm", 5)"#, r#"{ "soft", "medium", "firm" }"#),
        (r#" "nine-foot""#, "(nine-foot)", r#""nine-foot""#),
        (r#"spin = "stun""#, "spin = { roll = 0.5 }", "roll = 0.5"),
    ] {
        slip(from, wrong, wrong, right);
    }
    slip("inches(5)", "{ inches(0), 6\", 12 }", "6\", 12", "inches(6)");
    slip("2.2", r#"2.2, reading = "diamonds""#, r#""diamonds""#, r#""sight""#);
}

#[test]
fn in_a_layout_and_in_a_table() {
    let place = Place::new();
    place.run(&["new", "d"]).code(0);
    let slip = |file: &str, from: &str, to: &str, wrong: &str, right: &str| {
        let text = place.read(file);
        assert!(text.contains(from), "{from}");
        let slipped = text.replacen(from, to, 1);
        obeyed(&place, file, &slipped, wrong, right, &["shot", "d/shot.yaml"]);
        place.write(file, &text);
    };
    let shot = "d/shot.yaml";
    slip(shot, "off_rail: 2 in", "off_rail: 2,5 in", "2,5 in", "2.5 in");
    slip(shot, "object: {on_line: {contact: 2,", "object: {on_line: {contact: 2,1,", "2,1", "2.1");
    let speed = "  speed: 4 m/s";
    for (wrong, right) in [("right", "0.2"), ("left", "-0.2"), ("30 %", "0.3"), ("0.3 in", "0.3")] {
        let [wrong, right] = [wrong, right].map(|value| format!("tip_side: {value}\n"));
        slip(shot, speed, &format!("  {wrong}{speed}"), &wrong, &right);
    }
    let table = "d/my-table.yaml";
    slip(table, "corner_mouth: 4.5625 in", "corner_mouth: tight", "tight", "4.5625 in");
    slip(table, "length: 100 in", "length: 78x39 in", "78x39 in", "78 in");
    slip(table, "width: 50 in", "width: 3' 3", "3' 3", "39 in");
    let name = "name: Bob's bar: table 3";
    slip(table, "name: My table", name, name, "name: \"Bob's bar: table 3\"");
    let text = place.read(table);
    for field in ["length:", "width:", "corner_angle:"] {
        let whole = format!("  {field}");
        let at = text.lines().position(|line| line.starts_with(&whole)).unwrap() + 1;
        // Of the others one space too few makes another slip.
        let near = (field == "width:").then_some(&whole[1..]);
        for lost in near.into_iter().chain([field]) {
            place.write(table, &text.replacen(&whole, lost, 1));
            let refused = place.run(&["shot", shot]).code(2);
            assert!(refused.err.contains(&format!("line {at} is too far left")), "{refused:#?}");
        }
    }
}

#[test]
fn in_flags() {
    let place = Place::new();
    let refused = |arguments: &[&str], hint: &str| {
        let refused = place.run(arguments).code(2);
        assert!(refused.err.contains(hint), "{hint}: {refused:#?}");
    };
    let slip = |flag: &str, wrong: &str, right: &str| {
        let others = ["bank", "--contact=2", "--speed=3 m/s"];
        let others = others.iter().filter(|other| !other.starts_with(flag)).copied();
        let with = |value| others.clone().chain([flag, value]).collect::<Vec<_>>();
        refused(&with(wrong), right);
        place.run(&with(right)).code(0);
    };
    slip("--speed", "2,5 lengths", "2.5 lengths");
    slip("--speed", "lengths", "2 lengths");
    slip("--running-side", "50%", "0.5");
    slip("--running-side", "reverse", "-0.3");
    slip("--contact", "1.5 in", "1.5");
    refused(
        &["bank", "--contact", "1", "1/2", "--speed", "soft"],
        "goes in quotes: --contact \"1 1/2\"\n",
    );
    place.run(&["bank", "--contact", "1 1/2", "--speed", "soft"]).code(0);
    refused(
        &["bank", "--contact", "2", "--speed", "3", "m/s"],
        "goes in quotes: --speed \"3 m/s\"\n",
    );
    refused(
        &["bank", "--contact", "2", "--speed", "very", "hard"],
        "goes in quotes: --speed \"very hard\"\n",
    );
    let run = "a scenario is run by `";
    refused(&["bank", "lesson.lua"], run);
    refused(&["bank", "--contact", "2", "lesson.lua"], "run lesson.lua`");
    refused(&["bank", "--contact", "2", "shot.yaml"], "shot shot.yaml`; a profile goes to");
    let table = |name| ["bank", "--contact", "2", "--equipment", name];
    let unknown = place.run(&table("bar")).code(2);
    assert!(unknown.err.contains("seven-foot") && !unknown.err.contains("cushions/"));
    refused(&table("slick-nose"), "`--cushion cushions/slick-nose`");
    place.run(&["bank", "--contact", "2", "--cushion", "cushions/slick-nose"]).code(0);
}

#[test]
fn the_list_of_what_can_be_written_is_lua() {
    let place = Place::new();
    place.run(&["new", "d"]).code(0);
    let text = place.read("d/mine.lua");
    let lines: Vec<&str> = text.lines().filter_map(|line| line.strip_prefix("--   a ")).collect();
    assert!(lines.len() >= 4, "{text}");
    let call = |word: &str| word.contains('(').then(|| word.to_owned());
    let calls: Vec<String> = lines
        .iter()
        .flat_map(|line| line.split_inclusive(')'))
        .filter_map(|piece| {
            let name = piece.split('(').next()?.rsplit(' ').next()?;
            call(&format!("{name}({}", piece.split('(').nth(1)?))
        })
        .collect();
    assert!(calls.len() >= 9, "{calls:?}");
    place.write("bank.lua", &format!("print({})\n", calls.join(",\n")));
    place.run(&["run", "bank.lua"]).code(0);
}

#[test]
fn a_lag_in_a_layout_and_for_a_word() {
    let place = Place::new();
    place.run(&["new", "d"]).code(0);
    let (table, shot) = ("d/my-table.yaml", "d/shot.yaml");
    let soft = |text: &str, to: &str| {
        assert!(text.contains("  soft: 1.5 m/s\n"), "{text}");
        place.write(table, &text.replacen("soft: 1.5 m/s", to, 1));
    };
    let own = place.read(table);
    soft(&own, "soft: 2 lengths");
    let speed_of = |speed: &str| {
        let asked = ["bank", "--contact=2", "--equipment", table, "--json", "--speed", speed];
        let out = place.run(&asked).code(0).out;
        let from = out.split("\"speed_m_s\": ").nth(1).unwrap_or_default().to_owned();
        from.split(',').next().unwrap_or_default().to_owned()
    };
    let m_s = speed_of("2 lengths");
    assert_eq!(speed_of("soft"), m_s);
    let layout = place.read(shot);
    let played = |speed: &str| {
        place.write(shot, &layout.replacen("speed: 4 m/s", &format!("speed: {speed}"), 1));
        place.run(&["shot", shot]).code(0).out
    };
    let by_number = played(&format!("{m_s} m/s"));
    assert_ne!(by_number, played("4 m/s"));
    for speed in ["2 lengths", "2 table lengths", "soft"] {
        assert_eq!(played(speed), by_number, "{speed}");
    }
    place.write(shot, &layout.replacen("4 m/s", "150 lengths", 1));
    let refused = place.run(&["shot", shot]).code(2);
    assert!(refused.err.contains("no stroke up to 20 m/s"), "{refused:#?}");
    place.write(shot, &layout);
    soft(&own, "soft: 150 lengths");
    let refused = place.run(&["shot", shot]).code(2);
    assert!(
        refused.err.contains("`soft` is too far: on this table no stroke up to 20 m/s"),
        "{refused:#?}"
    );
    assert!(refused.err.contains("lengths at most"), "{refused:#?}");
}

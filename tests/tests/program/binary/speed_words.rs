//! Speeds by words and in several units: every text and picture says them as they were written.

use super::support::{Place, ProgramRun};

const SCENARIO: &str = r#"local map = compare(grid {
  equipment = equipment "harbour-hall", contact = { 2, 2.5 }, spin = "stun", SPEED,
}, rule.linear { slope = 2.2 })
map:draw { x = "speed", y = "contact" }
map:draw_lines { x = "speed", y = "miss", series = "contact", name = "lines" }
"#;

fn run(place: &Place, speed: &str, then: &str) -> ProgramRun {
    place.write("mine.lua", &format!("{}{then}", SCENARIO.replace("SPEED", speed)));
    place.run(&["run", "mine.lua", "--full"])
}

#[test]
fn lines_over_words_have_the_words_on_their_axis() {
    let place = Place::new();
    let ended = run(&place, "speed = { \"soft\", \"medium\", \"firm\" }", "").code(0);
    let lines = place.read("out/mine/lines.svg");
    for word in ["soft", "medium", "firm"] {
        assert!(lines.contains(&format!(">{word}<")), "{word}");
    }
    assert!(!lines.contains("speed at launch (m/s)"));
    assert!(ended.out.contains("columns: soft, medium, firm"), "{ended:#?}");
    let wrong = "expect(map:where { speed = mps(2) }):holds()\n";
    let ended = run(&place, "speed = { \"soft\", \"medium\", \"firm\" }", wrong).code(2);
    let words = ended.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("(played: soft, medium, firm; ask for one of them"), "{ended:#?}");
}

#[test]
fn speeds_in_several_units_keep_their_own() {
    let place = Place::new();
    let ended = run(&place, "speed = { mph(4), mps(3), \"firm\" }", "").code(0);
    assert!(ended.out.contains("columns: 4 mph, 3 m/s, firm"), "{ended:#?}");
}

#[test]
fn lengths_and_metres_a_second_of_one_number_are_not_the_same() {
    let place = Place::new();
    let ended = run(&place, "speed = { mps(3), lengths(3) }", "").code(2);
    assert!(ended.err.contains("mixes table lengths with other speeds"), "{ended:#?}");
}

#[test]
fn words_that_are_none_are_told_with_those_that_are() {
    let place = Place::new();
    let ended = run(&place, "speed = \"hard\"", "").code(2);
    assert!(ended.err.contains("did you mean \"firm\"?"), "{ended:#?}");
    let ended = run(&place, "speed = \"brisk\"", "").code(2);
    assert!(ended.err.contains("\"soft\", \"medium\" or \"firm\""), "{ended:#?}");
    place.write("mine.lua", "print(grid { spin = \"running\" })\n");
    let ended = place.run(&["run", "mine.lua"]).code(2);
    assert!(ended.err.contains("write running_side = 0.3"), "{ended:#?}");
}

#[test]
fn rows_over_lengths_have_the_speed_beside_them() {
    let place = Place::new();
    run(&place, "speed = { lengths(2), lengths(3) }", "").code(0);
    let text = place.read("out/mine/rows.csv");
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    let at = rows.headers().unwrap().iter().position(|name| name == "speed_m_s").expect(&text);
    let before = rows.headers().unwrap()[at - 1].to_owned();
    assert!(before.starts_with("lag"), "{text}");
    let speeds: Vec<(f64, f64)> = rows
        .records()
        .map(|row| row.unwrap())
        .map(|row| (row[at - 1].parse().unwrap(), row[at].parse().unwrap()))
        .collect();
    assert!(speeds.iter().any(|one| speeds.iter().any(|two| one.0 < two.0 && one.1 < two.1)));
}

#[test]
fn table_lengths_beside_a_word_are_sent_to_two_grids_that_work() {
    let place = Place::new();
    let ended = run(&place, "speed = { lengths(2), lengths(3), \"firm\" }", "").code(2);
    let words = ended.err.split_whitespace().filter(|it| *it != "│").collect::<Vec<_>>().join(" ");
    let (one, other) = ("speed = { lengths(2), lengths(3) }", "speed = \"firm\"");
    let hint = format!("play them in two grids: one with {one}, and one with {other}");
    assert!(words.contains(&hint), "{ended:#?}");
    for speed in [one, other] {
        run(&place, speed, "").code(0);
    }
}

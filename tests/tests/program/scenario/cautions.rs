//! The caution about hard shots stands wherever a hard speed is recommended or summarised, and nowhere
//! else; so do the others.

use super::run;
use railproof::command::to_json;
use railproof::layout::parse_layout;
use railproof::playing::{PlayedShot, SteppedPlay};
use railproof::record::{Picture, Record};
use railproof::report::{PageStyle, brief, full};
use railproof::store::{TableCells, write_folder};
use railproof::telling::Detail;
use railproof::telling::caution::{Caution, FLAGGED};
use std::path::Path;

/// Scenarios that each show a speed in one way; `SPEED` and `BELOW` are replaced.
const SHOWN: &[(&str, &str)] = &[
    ("a bank", "print(bank { equipment = hall, contact = 2, rule = ratio, speed = SPEED }.holds)"),
    ("a map", "compare(banks, ratio)"),
    ("a map of ranges by lag", "compare(grid { equipment = hall, contact = 2, lag = LAG }, ratio)"),
    ("exact starts", "exact_starts(banks)"),
    ("a map drawn", "compare(banks, ratio):draw { x = 'speed', y = 'contact' }"),
    ("lines", "compare(banks, ratio):where { contact = 2 }:draw_lines { x = 'speed', y = 'miss' }"),
    (
        "a difference",
        "compare(grid { equipment = hall, contact = { 1, 2 }, speed = { BELOW, SPEED }, rail_model = { 'planar', 'nose-only' } }, \
         ratio):draw_difference { of = 'rail_model', x = 'speed', y = 'contact' }",
    ),
    ("lines of starts", "exact_starts(banks):where { contact = 2 }:draw_lines { x = 'speed' }"),
    (
        "a frontier along the distance",
        "local front = frontier { banks = grid { equipment = hall, contact = 2, off_rail = span(inches(0), inches(12), inches(3)), \
         speed = SPEED }, rule = ratio, along = 'off_rail', tolerance = inches(0.1) } front:draw { x = 'speed' } print(front.sentence)",
    ),
    (
        "a frontier along the speed",
        "local front = frontier { banks = grid { equipment = hall, contact = { 2, 2.5 }, speed = span(mps(1), SPEED, mps(0.5)) }, \
         rule = ratio, along = 'speed', tolerance = mps(0.05) } front:draw { x = 'contact' } print(front.sentence)",
    ),
    ("a plan", "plan(banks, ratio)"),
    (
        "a shot",
        "local shot = laid:play { speed = SPEED, send = 'line' } shot:draw {} print(shot.sentence)",
    ),
    (
        "a sweep of shots",
        "local set = shots { over = { contact = { 2, 2.5 }, speed = { BELOW, SPEED } }, shot = function(p) return bank_shot \
         { equipment = hall, contact = p.contact, rule = ratio, off_rail = inches(6), cue_distance = inches(14) }, \
         { speed = p.speed, send = 'line' } end } set:draw { x = 'speed', y = 'contact' } \
         set:where { contact = 2 }:draw_lines { x = 'speed', y = 'miss' }",
    ),
    ("an aim", "print(laid:aim { speed = SPEED }.aim)"),
    (
        "speeds",
        "print(laid:speeds { speed = BELOW, send = 'line', from = BELOW, to = SPEED }.count)",
    ),
    ("ways", "print(laid:ways { speed = { BELOW, SPEED } }.made)"),
];

fn scenario(script: &str, hard: bool) -> String {
    let (speed, below, lag) = if hard { (7.0, 4.0, 6) } else { (4.5, 3.0, 2) };
    let text = format!(
        "local hall = equipment 'harbour-hall'; local ratio = rule.linear {{ slope = 2.2, name = 'ratio' }}
local banks = grid {{ equipment = hall, contact = {{ 1, 2 }}, speed = {{ BELOW, SPEED }} }}
local laid = bank_shot {{ equipment = hall, contact = 2.5, rule = ratio, off_rail = inches(6), cue_distance = inches(14) }}
{script}"
    );
    text.replace("SPEED", &format!("mps({speed})"))
        .replace("BELOW", &format!("mps({below})"))
        .replace("LAG", &lag.to_string())
}

/// Everything that a run shows, each surface with its name.
fn shown(mut record: Record) -> Vec<(String, String)> {
    let look = PageStyle { width: 400, color: false };
    let mut all = vec![
        ("the summary".to_owned(), brief(&record, None, look)),
        ("the full summary".to_owned(), full(&record, None, look)),
    ];
    for drawing in std::mem::take(&mut record.drawings) {
        let svg = match &drawing.picture {
            Picture::Map(picture) => picture.to_svg(),
            Picture::Difference(picture) => picture.to_svg(),
            Picture::BeforeAfter(picture) => picture.to_svg(),
            Picture::Lines(picture) => picture.to_svg(),
            Picture::Frontier(picture) => picture.to_svg(),
            Picture::Table(picture) => picture.to_svg(),
            Picture::Fit(picture) => picture.to_svg(),
        };
        all.push((format!("the picture {}", drawing.name), svg.unwrap()));
    }
    let folder = tempfile::tempdir().unwrap();
    let written = write_folder(&record, folder.path(), TableCells::Plain)
        .unwrap_or_else(|fault| panic!("{fault}"));
    let json = std::fs::read_to_string(written.folder.join("run.json")).unwrap();
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    all.push(("run.json".to_owned(), json["cautions"].to_string()));
    for part in ["maps", "exact_starts", "shots", "frontiers"] {
        for entry in json[part].as_array().unwrap() {
            all.push((format!("{part} in run.json"), entry["cautions"].to_string()));
        }
    }
    let sentences = record.printed.iter().filter(|line| line.contains(' '));
    all.extend(sentences.map(|line| ("printed".to_owned(), line.clone())));
    all
}

#[test]
fn a_hard_speed_is_cautioned_about_on_every_surface_and_a_soft_one_on_none() {
    for (what, script) in SHOWN {
        for hard in [true, false] {
            let record = run(&scenario(script, hard));
            for (surface, text) in shown(record) {
                // Words in a picture may be broken over two lines.
                let said = text.contains("balls hit at 5 m/s (11 mph)")
                    || text.contains("can leave the table");
                if surface == "printed" && !hard {
                    assert!(!said, "{what}, soft: {text}");
                } else if surface != "printed" {
                    assert_eq!(said, hard, "{what}, hard is {hard}: {surface}: {text}");
                }
            }
        }
    }
}

#[test]
fn sentences_of_a_frontier_caution_where_it_holds_at_hard_speeds() {
    for (hard, to) in [(true, 8), (false, 4)] {
        let record = run(&scenario(
            &format!(
                "print(frontier {{ banks = grid {{ equipment = hall, contact = 2, speed = span(mps(1), mps({to}), mps(0.5)) }}, \
                 rule = ratio, along = 'speed', tolerance = mps(0.05) }}.sentence)"
            ),
            false,
        ));
        let text = record.printed.join("\n");
        assert_eq!(text.contains("leave the table"), hard, "{text}");
    }
}

#[test]
fn answers_in_scripts_have_their_cautions_as_a_field() {
    let ask = "local function n(list) return #list end
local b = { equipment = hall, contact = 2, rule = ratio, speed = SPEED }
print(n(bank(b).cautions))
print(n(compare(grid { equipment = hall, contact = 2, speed = SPEED }, ratio):rows()[1].cautions))
local aim = laid:aim { speed = SPEED } print(n(aim.cautions))
print(n(laid:gear { speed = SPEED }.cautions)) print(n(laid:overcut { speed = SPEED }.cautions))
local both = laid:compare { speed = SPEED } print(n(both.overcut.cautions)) print(n(both.gearing.cautions))
print(n(laid:play { stroke = aim.stroke }.cautions))
print(n(laid:ways { speed = SPEED }.all[1].cautions))
print(n(laid:speeds { stroke = aim.stroke, from = BELOW, to = SPEED }.cautions))
print(n(laid:aims { stroke = aim.stroke }.cautions))";
    for hard in [true, false] {
        let record = run(&scenario(ask, hard));
        for line in &record.printed {
            assert_eq!(line, if hard { "1" } else { "0" }, "{:?}", record.printed);
        }
        assert_eq!(record.printed.len(), 11);
    }
}

#[test]
fn a_least_speed_that_is_hard_is_cautioned_about() {
    let least = |from: f64, to: f64| {
        let record = run(&scenario(
            &format!(
                "local all = {{ least_speed {{ equipment = hall, contact = 2, rule = ratio, from = mps({from}), to = mps({to}) }} }}
for _, one in all do if type(one) == 'table' then print(#one) end end"
            ),
            false,
        ));
        (record.printed.clone(), record.cautions().lines().len())
    };
    assert_eq!(least(5.5, 7.0), (vec!["1".to_owned()], 1));
    assert_eq!(least(1.0, 4.0), (vec!["0".to_owned()], 0));
}

/// A layout's sentences, its answer for programs and its picture.
fn told(yaml: &str) -> [String; 3] {
    let layout =
        parse_layout(yaml, "case.yaml", Path::new("")).unwrap_or_else(|fault| panic!("{fault}"));
    if yaml.contains("stepped") {
        let played = SteppedPlay::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
        let answer = serde_json::to_value(played.answer()).unwrap();
        let svg = played.picture(true).to_svg().unwrap();
        return [played.sentences(), answer["cautions"].to_string(), svg];
    }
    let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    assert!(to_json(&played.answer()).is_ok());
    let answer = serde_json::to_value(played.answer()).unwrap();
    [
        played.sentences(Detail::Full),
        answer["cautions"].to_string(),
        played.picture(true).to_svg().unwrap(),
    ]
}

#[test]
fn a_shot_says_what_to_be_careful_of_in_every_answer() {
    let plain = "equipment: nine-foot\ntarget: {pocket: foot-right}\nballs:\n  cue: {position: [0 m, -20 cm]}\n  \
                 object: {position: [50 cm, -20 cm]}\nstroke: {speed: 3 m/s, aim_at: object}\n";
    let cases = [
        (plain.to_owned(), None),
        (plain.replace("3 m/s", "6 m/s"), Some(Caution::Hard)),
        (plain.replace("aim_at", "elevation: 40 deg, aim_at"), Some(Caution::Steep)),
        (
            plain.replace("aim_at", "tip_side: 0.7, allow_miscue: yes, aim_at"),
            Some(Caution::Miscue),
        ),
        (
            format!(
                "{plain}obstacles:\n  box: {{middle: [-60 cm, 20 cm], length: 20 cm, width: 10 cm}}\n"
            ),
            Some(Caution::Obstacles),
        ),
    ];
    for (yaml, expected) in cases {
        let stepped = format!("{yaml}engine: stepped\n");
        for text in told(&yaml).into_iter().chain(told(&stepped)) {
            for caution in
                [Caution::Hard, Caution::Steep, Caution::Miscue, Caution::Obstacles, Caution::Hop]
            {
                // Enough of the sentence to know it by, which a picture keeps on one line.
                let known: String = caution.words().chars().take(30).collect();
                assert_eq!(text.contains(&known), Some(caution) == expected, "{yaml}{text}");
            }
            assert!(!text.contains("only been checked"), "{text}");
        }
    }
}

/// A table whose length is not about twice its width is cautioned about wherever it is played on.
#[test]
fn a_table_of_a_strange_size_is_cautioned_about_on_every_surface() {
    let known = |text: &str| text.contains("length is not about twice its");
    for (what, script) in SHOWN {
        for strange in [true, false] {
            let wide = if strange {
                "equipment('harbour-hall'):with { table_width = metres(1.0) }"
            } else {
                "equipment 'harbour-hall'"
            };
            let script = scenario(script, false).replacen("equipment 'harbour-hall'", wide, 1);
            for (surface, text) in shown(run(&script)) {
                if surface == "the summary" || surface == "run.json" {
                    assert_eq!(known(&text), strange, "{what}: {surface}: {text}");
                }
            }
        }
    }
    let ask = "local wide = equipment('nine-foot'):with { table_width = metres(1.0) }
local asked = { equipment = wide, contact = 2, start = 4.4, speed = mps(3) }
print(bank(asked).cautions[1])
print(compare(grid { equipment = wide, contact = 2, speed = mps(3) }, ratio):rows()[1].cautions[1])
local b = bank_shot { equipment = wide, contact = 2, rule = ratio, off_rail = inches(6), cue_distance = inches(14) }
print(b:aim { speed = mps(3) }.cautions[1]) print(b:play { speed = mps(3), send = 'line' }.cautions[1])";
    let printed = run(&scenario(ask, false)).printed;
    assert!(printed.len() == 4 && printed.iter().all(|line| known(line)), "{printed:?}");
    let profile = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/profiles/nine-foot.yaml");
    let profile = std::fs::read_to_string(profile).unwrap().replace("width: 50 in", "width: 1 m");
    let inline = profile.trim_end().replace('\n', "\n  ");
    let yaml = format!(
        "equipment:\n  {inline}\ntarget: {{pocket: foot-right}}\nballs:\n  cue: {{position: [0 m, -20 cm]}}\n  \
         object: {{position: [50 cm, -20 cm]}}\nstroke: {{speed: 3 m/s, aim_at: object}}\n"
    );
    let stepped = format!("{yaml}engine: stepped\n");
    for text in told(&yaml).into_iter().chain(told(&stepped)) {
        assert!(known(&text), "{text}");
    }
}

/// The range that a model was checked over is told once, under a summary, and not under each answer.
#[test]
fn the_checked_range_is_told_under_summaries_only() {
    let record = run(&scenario("compare(banks, ratio)", false));
    let text = full(&record, None, PageStyle { width: 400, color: false });
    assert_eq!(text.matches(FLAGGED).count(), 1, "{text}");
    assert!(!text.contains("Caution"), "{text}");
}

//! Every measure of a bank and of a shot, by its one entry, reaches Lua, CSV, JSON and pictures with one
//! value.

use super::{HALL, run};
use clap::Parser;
use railproof::answer::BankAnswer;
use railproof::command::bank::BankArgs;
use railproof::layout::load_layout;
use railproof::playing::BankFindings;
use railproof::playing::PlayedShot;
use railproof::record::Picture;
use railproof::record::Record;
use railproof::store::{TableCells, write_folder};
use railproof_engine::results::{BANK_MEASURES, Measure, ResultPart, SHOT_MEASURES};
use railproof_engine::units::INCH_M;
use serde_json::Value;
use std::fmt::Write as _;
use std::path::Path;

#[derive(Parser)]
struct Line {
    #[command(flatten)]
    bank: BankArgs,
}

/// The same bank as on the command line.
fn answer() -> Value {
    let given = "bank --equipment harbour-hall --contact 2 --start 4.4 --off-rail 0.1524m --speed 3m/s --roll 0.25 \
                 --running-side 0.1";
    let line = Line::try_parse_from(given.split_whitespace()).expect("it is right");
    let question = line.bank.questions().expect("it is a bank").remove(0);
    let findings = BankFindings::of(&question).expect("it plays");
    serde_json::to_value(BankAnswer::new(&question, &findings)).expect("it has a form in JSON")
}

/// Where a measure stands among parts.
fn path(part: ResultPart) -> &'static str {
    match part {
        ResultPart::AtRail | ResultPart::Rebound | ResultPart::Arrival => part.name(),
        _ => "",
    }
}

/// The lines of the only CSV of a run.
fn csv(record: &Record) -> Vec<Vec<String>> {
    let folder = tempfile::tempdir().unwrap();
    write_folder(record, folder.path(), TableCells::Plain).expect("it is written");
    let mut files = std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().path());
    let file = files.find(|path| path.extension().is_some_and(|kind| kind == "csv"));
    let text = std::fs::read_to_string(file.expect("rows are written")).unwrap();
    text.lines().map(|line| line.split(',').map(str::to_owned).collect()).collect()
}

#[test]
fn every_measure_of_a_bank_is_read_by_every_reader_with_one_value() {
    let mut script = format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = 2, start = 4.4, off_rail = inches(6), \
         speed = {{ mps(3), mps(4) }}, roll = 0.25, running_side = 0.1 }})
local row = map:where {{ speed = mps(3) }}:rows()[1]\n"
    );
    let inside = |part: ResultPart| matches!(part, ResultPart::Table | ResultPart::Launch);
    for measure in BANK_MEASURES.iter().filter(|measure| !inside(measure.part)) {
        let of = path(measure.part);
        let dot = if of.is_empty() { "" } else { "." };
        let _ = writeln!(script, "print(row.{of}{dot}{})", measure.key());
    }
    for measure in BANK_MEASURES.iter().filter(|measure| measure.is_number()) {
        let name = measure.name;
        let _ = writeln!(script, "map:draw_lines {{ x = 'speed', y = '{name}', name = '{name}' }}");
    }
    let record = run(&script);

    // Lua: each has a value.
    assert!(!record.printed.contains(&"nil".to_owned()), "{:#?}", record.printed);

    // CSV: each is a column.
    let table = csv(&record);
    let (names, values) = (&table[0], &table[1]);
    let cell = |measure: &Measure<_>| {
        let at = names.iter().position(|name| *name == measure.column());
        &values[at.unwrap_or_else(|| panic!("{} is no column", measure.column()))]
    };

    // JSON: each is a key, and says what the CSV says.
    let answer = answer();
    for measure in BANK_MEASURES {
        let text = cell(measure);
        let (place, key) = match measure.part {
            ResultPart::Launch => continue,
            ResultPart::Table => ("inputs", measure.column()),
            ResultPart::Whole => ("verdict", measure.column()),
            part => (part.name(), measure.column_inside()),
        };
        let json = &answer[place][&key];
        match json {
            Value::Number(number) => {
                assert_eq!(text.parse::<f64>().ok(), number.as_f64(), "{place} {key}");
            }
            Value::String(word) => assert_eq!(text, word, "{place} {key}"),
            Value::Bool(flag) => assert_eq!(text, &flag.to_string(), "{place} {key}"),
            other => panic!("{place} {key}: {other}"),
        }
    }

    // The inputs, too: a key of a column's name says what the column says.
    let inputs = answer["inputs"].as_object().expect("an object");
    let mut same = 0;
    for (name, text) in names.iter().zip(values) {
        match inputs.get(name) {
            Some(Value::Number(number)) => assert_eq!(text.parse().ok(), number.as_f64(), "{name}"),
            Some(Value::String(word)) => assert_eq!(text, word, "{name}"),
            Some(Value::Null) => assert_eq!(text, "", "{name}"),
            Some(other) => panic!("{name}: {other}"),
            None => continue,
        }
        same += 1;
    }
    // Ten inputs, the rule, and the table as it was played on.
    assert_eq!(same, 14, "{inputs:?}");

    // Pictures: each number is a line through the same value, in the unit for people.
    for drawing in &record.drawings {
        let Picture::Lines(picture) = &drawing.picture else { panic!("{}", drawing.name) };
        let measure = BANK_MEASURES.iter().find(|measure| drawing.name.ends_with(measure.name));
        let measure = BANK_MEASURES
            .iter()
            .find(|measure| drawing.name == measure.name)
            .or(measure)
            .expect("it is named after its measure");
        let si: f64 = cell(measure).parse().expect("it is a number");
        let mut shown = measure.shown();
        // The shipped table's lengths are in inches.
        if shown.unit == "mm" {
            shown.unit = "in";
            shown.per_si /= 1e3 * INCH_M;
        }
        assert_eq!(picture.series[0].points[0].1, shown.of(si), "{}", measure.name);
        assert_eq!(picture.y.unit, shown.unit, "{}", measure.name);
    }
}

/// A bank that kisses and one that passes, both with an arrival.
const SHOTS: &str = "local set = shots { over = { contact = { 0.5, 2.5 } }, shot = function(point)
  return bank_shot { equipment = hall, contact = point.contact, rule = rule.linear { slope = 2.2, reading = 'groove' },
    off_rail = inches(1), cue_distance = millimetres(1) }, { speed = mps(3), send = 'line' }
end }
local first, second = set:rows()[1], set:rows()[2]
";

#[test]
fn every_measure_of_a_shot_is_read_by_every_reader_with_one_value() {
    let mut script = format!("{HALL}{SHOTS}");
    for measure in SHOT_MEASURES {
        let name = measure.name;
        let _ = writeln!(script, "print(first.{name} ~= nil or second.{name} ~= nil)");
        if measure.is_number() {
            let _ = writeln!(
                script,
                "set:draw_lines {{ x = 'contact', y = '{name}', name = '{name}' }}"
            );
        }
    }
    let record = run(&script);
    assert!(record.printed.iter().all(|line| line == "true"), "{:#?}", record.printed);

    let table = csv(&record);
    let column = |measure: &Measure<_>| {
        let at = table[0].iter().position(|name| *name == measure.column());
        at.unwrap_or_else(|| panic!("{} is no column", measure.column()))
    };
    for drawing in &record.drawings {
        let Picture::Lines(picture) = &drawing.picture else { panic!("{}", drawing.name) };
        let measure = SHOT_MEASURES.iter().find(|measure| drawing.name == measure.name).unwrap();
        for (point, drawn) in picture.series[0].points.iter().enumerate() {
            match table[point + 1][column(measure)].parse::<f64>() {
                Ok(si) => assert_eq!(drawn.1, measure.shown().of(si), "{}", measure.name),
                Err(_) => assert!(drawn.1.is_nan(), "{}: {}", measure.name, drawn.1),
            }
        }
        assert_eq!(picture.y.unit, measure.shown().unit, "{}", measure.name);
    }

    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/shots/corner-bank.yaml");
    let layout = load_layout(Path::new(file)).unwrap();
    let played = PlayedShot::new(&layout).unwrap();
    let json = serde_json::to_value(played.answer()).unwrap();
    for measure in SHOT_MEASURES {
        column(measure);
        let place = match measure.part {
            ResultPart::Whole => "/verdict",
            ResultPart::Arrival => "/verdict/arrival",
            ResultPart::Stroke => "/stroke",
            _ => continue,
        };
        let there = json.pointer(&format!("{place}/{}", measure.column_inside()));
        assert!(there.is_some(), "{place} {} in {json}", measure.name);
    }
}

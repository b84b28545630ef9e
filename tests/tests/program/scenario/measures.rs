//! Every measure of a bank, by its one entry, reaches Lua, CSV, JSON and pictures with one value.

use super::{HALL, run};
use clap::Parser;
use railproof::answer::BankAnswer;
use railproof::command::bank::BankArgs;
use railproof::playing::BankFindings;
use railproof::record::Picture;
use railproof::store::write_folder;
use railproof_engine::results::{BANK_MEASURES, Measure, ResultPart};
use serde_json::Value;
use std::fmt::Write as _;

#[derive(Parser)]
struct Line {
    #[command(flatten)]
    bank: BankArgs,
}

/// The same bank as on the command line.
fn answer() -> Value {
    let given = "bank --equipment harbour-hall --contact 2 --start 4.4 --off-rail 6in --speed 3m/s --roll 0.25 \
                 --running-side 0.1";
    let line = Line::try_parse_from(given.split_whitespace()).expect("it is right");
    let question = line.bank.question().expect("it is a bank");
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

#[test]
fn every_measure_is_read_by_every_reader_with_one_value() {
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
    let folder = tempfile::tempdir().unwrap();
    write_folder(&record, folder.path()).expect("it is written");
    let file = std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().path());
    let file = file.into_iter().find(|path| path.extension().is_some_and(|kind| kind == "csv"));
    let text = std::fs::read_to_string(file.expect("rows are written")).unwrap();
    let mut lines = text.lines().map(|line| line.split(',').collect::<Vec<_>>());
    let (names, values) = (lines.next().unwrap(), lines.next().unwrap());
    let cell = |measure: &Measure<_>| {
        let at = names.iter().position(|name| *name == measure.column());
        values[at.unwrap_or_else(|| panic!("{} is no column", measure.column()))]
    };

    // JSON: each is a key, and says what the CSV says.
    let answer = answer();
    for measure in BANK_MEASURES {
        let csv = cell(measure);
        let (place, key) = match measure.part {
            ResultPart::Table | ResultPart::Launch => continue,
            ResultPart::Whole => ("verdict", measure.column()),
            part => (part.name(), measure.column_inside()),
        };
        let json = &answer[place][&key];
        match json {
            Value::Number(number) => {
                assert_eq!(csv.parse::<f64>().ok(), number.as_f64(), "{place} {key}");
            }
            Value::String(word) => assert_eq!(csv, word, "{place} {key}"),
            Value::Bool(flag) => assert_eq!(csv, flag.to_string(), "{place} {key}"),
            other => panic!("{place} {key}: {other}"),
        }
    }

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
        assert_eq!(picture.series[0].points[0].1, measure.shown().of(si), "{}", measure.name);
        assert_eq!(picture.y.unit, measure.shown().unit, "{}", measure.name);
    }
}

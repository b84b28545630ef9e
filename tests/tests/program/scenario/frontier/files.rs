//! The files that a frontier leaves in the output folder.

use super::{BANKS, TRACED};
use crate::scenario::{HALL, run};
use railproof::record::{Picture, Record};
use railproof::scenario::{RunOptions, run_scenario};
use railproof::store::{TableCells, write_folder};
use std::path::Path;

fn text() -> String {
    format!("{HALL}{BANKS}{TRACED}front:draw {{ panels = 'contact', name = 'edges' }}")
}

fn rows(csv: &str) -> Vec<Vec<String>> {
    // No field of these rows holds a quoted comma but the causes, which come in quotes of their
    // own.
    csv.lines()
        .map(|line| {
            let mut fields = vec![String::new()];
            let mut quoted = false;
            for letter in line.chars() {
                match letter {
                    '"' => quoted = !quoted,
                    ',' if !quoted => fields.push(String::new()),
                    other => fields.last_mut().unwrap().push(other),
                }
            }
            fields
        })
        .collect()
}

#[test]
fn the_rows_have_units_and_the_record_says_what_was_asked_and_looked_at() {
    let record = run(&text());
    let folder = tempfile::tempdir().unwrap();
    let written = write_folder(&record, folder.path(), TableCells::Plain).unwrap();
    assert_eq!(written.files, ["frontier.csv", "edges.svg", "edges.png", "run.json"]);
    let rows = rows(&std::fs::read_to_string(folder.path().join("frontier.csv")).unwrap());
    let column = |name: &str| {
        rows[0].iter().position(|column| column == name).unwrap_or_else(|| panic!("{name}"))
    };
    let (holds, breaks) = (column("low_holds_at_speed_m_s"), column("low_breaks_at_speed_m_s"));
    let (across, why, looked) = (column("off_rail_m"), column("low_why"), column("looked"));
    let intervals: usize = record.frontiers[0]
        .found
        .sheets
        .iter()
        .flat_map(|sheet| &sheet.lines)
        .map(|line| line.intervals.len().max(1))
        .sum();
    assert_eq!(rows.len(), 1 + intervals);
    assert!(rows.iter().all(|row| row.len() == rows[0].len()));
    let number = |row: &Vec<String>, at: usize| row[at].parse::<f64>().ok();
    let mut edges = 0;
    for row in &rows[1..] {
        assert!((0.0..=0.4064 + 1e-12).contains(&number(row, across).unwrap()));
        if let (Some(holds), Some(breaks)) = (number(row, holds), number(row, breaks)) {
            edges += 1;
            assert!(holds > breaks && holds - breaks <= 0.02);
            assert!(row[why].is_empty() || row[looked] == "searched");
        }
    }
    assert!(edges > 10 && rows[1..].iter().any(|row| row[why].contains("roll ")));

    let document: serde_json::Value =
        serde_json::from_slice(&std::fs::read(folder.path().join("run.json")).unwrap()).unwrap();
    let front = &document["frontiers"][0];
    assert_eq!(front["search"]["along"], "speed");
    assert_eq!(front["search"]["tolerance"], 0.02);
    assert_eq!(front["search"]["across"]["input"], "off_rail");
    assert_eq!(front["certificate"]["probes"].as_array().unwrap().len(), 15);
    assert_eq!(front["certificate"]["widest_gap_between_looks"], 0.5);
    assert_eq!(front["rules"][0]["name"], "ratio");
    assert_eq!(front["question_sha256"].as_str().unwrap().len(), 64);
    let played =
        front["banks_searching"].as_u64().unwrap() + front["banks_explaining"].as_u64().unwrap();
    assert_eq!(document["banks_played"], played);
    assert!(front["banks_of_the_dense_grid"].as_u64() > Some(played), "{front}");
    assert_eq!(document["pictures"][0]["kind"], "frontier");
}

#[test]
fn the_picture_has_a_panel_for_each_contact_and_edges_within_what_was_searched() {
    let record = run(&text());
    let Picture::Frontier(picture) = &record.drawings[0].picture else { panic!("no frontier") };
    let captions: Vec<&str> = picture.panels.iter().map(|panel| panel.caption.as_str()).collect();
    assert_eq!(captions, ["contact 2", "contact 2.5"]);
    assert_eq!((picture.x_range, picture.y_range), ((0.0, 16.0), (1.0, 8.0)));
    for panel in &picture.panels {
        assert!(!panel.regions.is_empty() && !panel.curves.is_empty());
        for curve in &panel.curves {
            assert!(curve.points.is_sorted_by(|a, b| a.0 < b.0), "{curve:?}");
            for (x, y) in &curve.points {
                assert!((0.0..=16.0).contains(x) && (1.0..=8.0).contains(y), "{x} {y}");
            }
        }
    }
}

fn shipped() -> Record {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/frontier.lua");
    run_scenario(&path, &RunOptions::default())
        .and_then(Record::whole)
        .unwrap_or_else(|fault| panic!("{fault}"))
}

#[test]
fn the_shipped_scenario_holds_and_saves_fiftyfold() {
    let record = shipped();
    for expectation in &record.expectations {
        assert!(expectation.held, "{} — {}", expectation.expected, expectation.found);
    }
    assert!(record.expectations.len() >= 8);
    for front in &record.frontiers {
        assert!(front.found.saving() >= 50.0, "{}: {}", front.name, front.found.saving());
        assert_eq!(front.found.unsettled(), 0);
    }
}

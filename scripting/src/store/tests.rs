use super::*;
use crate::picture::{CellKind, MapCell, MapPicture, MissUnit, Panel, PictureAxis, PictureLook};
use crate::record::testing::{linear, map, plan_on, record};
use crate::record::{Drawing, Picture, Record, StartsRecord};
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::{Tally, exact_starts};
use railproof_engine::vector::Vec3;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::Arc;

fn picture() -> MapPicture {
    let axis = |title: &str| PictureAxis {
        title: title.to_owned(),
        unit: String::new(),
        ticks: vec!["1".to_owned()],
    };
    let cell = MapCell { kind: CellKind::Holds, miss_mm: None, flagged: false, chance: None };
    MapPicture {
        title: "one bank".to_owned(),
        finding: String::new(),
        subtitles: Vec::new(),
        x: axis("speed"),
        y: axis("contact"),
        panels: vec![Panel { caption: String::new(), cells: vec![cell] }],
        rule: String::new(),
        model: String::new(),
        flag_label: String::new(),
        flag_meaning: String::new(),
        notes: Vec::new(),
        look: PictureLook::default(),
        unit: MissUnit::default(),
        shade_step: None,
        chance_lines: false,
    }
}

fn drawing(name: &str) -> Drawing {
    Drawing { name: name.to_owned(), picture: Picture::Map(picture()) }
}

/// Two rules over slow, fast, frozen and far banks: every column is used by some row.
fn sample() -> Record {
    let plan = plan_on(&[0.5, 2.0, 3.0], &[0.2, 1.0, 3.0], &[0.0, 0.3]);
    let starts = StartsRecord {
        name: "starts".to_owned(),
        rows: exact_starts(&plan, &|| ()).unwrap(),
        plan: plan.clone(),
    };
    let mut record = record(map("rows", plan, vec![linear(2.2), linear(2.0)]));
    record.starts.push(Arc::new(starts));
    record.drawings.push(drawing("first"));
    record
}

fn contents(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            (path.file_name().unwrap().to_string_lossy().into_owned(), fs::read(path).unwrap())
        })
        .collect()
}

fn table(path: &Path) -> (Vec<String>, Vec<BTreeMap<String, String>>) {
    let mut reader = csv::Reader::from_path(path).unwrap();
    let header: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
    let rows = reader
        .records()
        .map(|row| {
            let row = row.unwrap();
            header.iter().cloned().zip(row.iter().map(str::to_owned)).collect()
        })
        .collect();
    (header, rows)
}

#[test]
fn a_run_leaves_rows_pictures_and_its_record_last() {
    let folder = tempfile::tempdir().unwrap();
    let written = write_folder(&sample(), folder.path(), TableCells::Plain).unwrap();
    assert_eq!(written.files, ["rows.csv", "starts.csv", "first.svg", "first.png", "run.json"]);
    let found = contents(folder.path());
    assert_eq!(found.len(), 5, "{:?}", found.keys());
    assert!(found["first.png"].starts_with(b"\x89PNG"));
    roxmltree::Document::parse(std::str::from_utf8(&found["first.svg"]).unwrap()).unwrap();
    let run: serde_json::Value = serde_json::from_slice(&found["run.json"]).unwrap();
    assert_eq!(run["files"].as_array().unwrap().len(), 4);
    assert_eq!(run["maps"][0]["rules"][1]["name"], "twice the contact, groove");
    assert_eq!(run["maps"][0]["question_sha256"].as_str().unwrap().len(), 64);
    assert_eq!(run["scenario"]["file"], "sample.lua", "no folder of the machine");
}

#[test]
fn the_rows_say_what_the_engine_computed() {
    let record = sample();
    let folder = tempfile::tempdir().unwrap();
    write_folder(&record, folder.path(), TableCells::Plain).unwrap();
    let (header, rows) = table(&folder.path().join("rows.csv"));
    let map = &record.maps[0];
    assert_eq!(rows.len(), map.rows.len());
    let mut unique = header.clone();
    unique.sort();
    unique.dedup();
    assert_eq!(unique.len(), header.len(), "{header:?}");
    let mut filled: BTreeMap<&str, usize> = BTreeMap::new();
    for (text, row) in rows.iter().zip(&map.rows) {
        assert_eq!(text["verdict"], row.outcome.verdict().name());
        assert_eq!(text["rule"], map.rules[row.rule].name);
        assert_eq!(text["start_diamonds"].parse().ok(), Some(row.line.start));
        let miss = text["miss_m"].parse::<f64>().ok();
        assert_eq!(miss, row.outcome.miss_m());
        // A diamond of the long rail of a 100 in table is 12.5 in.
        if let Some(miss) = miss {
            let diamonds: f64 = text["miss_diamonds"].parse().unwrap();
            assert!((diamonds * 0.3175 - miss).abs() < 1e-9, "{diamonds} {miss}");
        }
        // Its size is the same in every frame; a ball that rolls to the left rail (+y) turns about −x.
        let spin = ["x", "y", "z"].map(|part| text[&format!("rebound_spin_{part}_rad_s")].parse());
        if let ([Ok(x), Ok(y), Ok(z)], Some(rebound)) = (spin, row.outcome.rebound) {
            let size: f64 = Vec3::new(x, y, z).norm();
            assert!((size - rebound.state.spin.norm()).abs() < 1e-9 * size, "{size}");
            assert_eq!(text["rail_played"], "left");
            let roll: f64 = text["at_rail_roll_fraction"].parse().unwrap();
            let about_x: f64 = text["at_rail_spin_x_rad_s"].parse().unwrap();
            assert!(if roll > 0.0 { about_x < 0.0 } else { about_x.abs() < 1e-9 }, "{about_x}");
        }
        for (column, value) in text {
            *filled.entry(column).or_default() += usize::from(!value.is_empty());
        }
    }
    for column in &header {
        assert!(filled[column.as_str()] > 0, "nothing in {column}");
    }
    assert!(
        Tally::of(&map.rows).number_of(BankVerdict::StoppedBeforeMouth) > 0,
        "the sample has slow banks"
    );
    let (_, starts) = table(&folder.path().join("starts.csv"));
    let found = starts.iter().filter(|row| !row["exact_start_diamonds"].is_empty()).count();
    let reasons = starts.iter().filter(|row| !row["why_not"].is_empty()).count();
    assert!(found > 0 && reasons > 0 && found + reasons == starts.len(), "{found} {reasons}");
}

#[test]
fn the_same_record_gives_the_same_bytes_on_any_number_of_threads() {
    let folder = tempfile::tempdir().unwrap();
    let mut seen = Vec::new();
    for threads in [1, 3] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let into = folder.path().join(threads.to_string());
        pool.install(|| write_folder(&sample(), &into, TableCells::Plain)).unwrap();
        seen.push(contents(&into));
    }
    assert_eq!(seen[0], seen[1]);
}

#[test]
fn an_earlier_run_is_taken_back_and_other_files_stay() {
    let folder = tempfile::tempdir().unwrap();
    write_folder(&sample(), folder.path(), TableCells::Plain).unwrap();
    fs::write(folder.path().join("notes.txt"), "mine").unwrap();
    fs::write(folder.path().join("mine.csv"), "mine").unwrap();
    let mut next = sample();
    next.drawings = vec![drawing("second")];
    write_folder(&next, folder.path(), TableCells::Plain).unwrap();
    let names: Vec<String> = contents(folder.path()).into_keys().collect();
    let expected =
        ["mine.csv", "notes.txt", "rows.csv", "run.json", "second.png", "second.svg", "starts.csv"];
    assert_eq!(names, expected);
}

#[test]
fn a_doctored_record_of_an_earlier_run_removes_nothing_outside() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("into");
    fs::create_dir(&into).unwrap();
    fs::write(folder.path().join("outside.csv"), "mine").unwrap();
    fs::write(into.join("kept.txt"), "mine").unwrap();
    let listed = r#"{"files": ["../outside.csv", "kept.txt", "", 3]}"#;
    fs::write(into.join("run.json"), listed).unwrap();
    write_folder(&sample(), &into, TableCells::Plain).unwrap();
    assert!(folder.path().join("outside.csv").exists() && into.join("kept.txt").exists());
}

#[test]
fn a_run_that_fails_half_way_does_not_look_whole() {
    let folder = tempfile::tempdir().unwrap();
    write_folder(&sample(), folder.path(), TableCells::Plain).unwrap();
    // A folder stands where a later file must go.
    fs::remove_file(folder.path().join("first.png")).unwrap();
    fs::create_dir(folder.path().join("first.png")).unwrap();
    let fault = write_folder(&sample(), folder.path(), TableCells::Plain).unwrap_err();
    assert_eq!(fault.exit, crate::exit::Exit::BadInput);
    assert!(fault.message.contains("first.png"), "{fault}");
    assert!(!folder.path().join("run.json").exists());
}

#[test]
fn what_can_not_be_drawn_or_named_leaves_the_folder_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    write_folder(&sample(), folder.path(), TableCells::Plain).unwrap();
    let before = contents(folder.path());
    let mut broken = picture();
    broken.panels.clear();
    let mut undrawable = sample();
    undrawable.drawings = vec![Drawing { name: "x".to_owned(), picture: Picture::Map(broken) }];
    let mut escaping = sample();
    escaping.drawings = vec![drawing("../escaped")];
    let mut doubled = sample();
    doubled.drawings = vec![drawing("same"), drawing("SAME")];
    for record in [undrawable, escaping, doubled] {
        let fault = write_folder(&record, folder.path(), TableCells::Plain).unwrap_err();
        assert_eq!(fault.exit, crate::exit::Exit::BadInput, "{fault}");
        assert_eq!(contents(folder.path()), before);
    }
    assert!(!folder.path().join("../escaped.svg").exists());
}

#[test]
fn a_folder_that_can_not_be_made_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let taken = folder.path().join("taken");
    fs::write(&taken, "mine").unwrap();
    for into in [taken.clone(), taken.join("below")] {
        let fault = write_folder(&sample(), &into, TableCells::Plain).unwrap_err();
        assert_eq!(fault.exit, crate::exit::Exit::BadInput);
        assert!(fault.message.contains("taken"), "{fault}");
    }
    assert_eq!(fs::read(&taken).unwrap(), b"mine");
}

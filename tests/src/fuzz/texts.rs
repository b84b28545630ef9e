//! Files that people write: profiles, layouts, plans, players, measurements, films, baselines.

use super::telling::check_fault;
use crate::shipped_equipment;
use railproof::baseline;
use railproof::fault::Fault;
use railproof::layout::{EngineChoice, parse_layout};
use railproof::measured::{parse_measurements, parse_track};
use railproof::picture::MissUnit;
use railproof::plan::plan_of_text;
use railproof::player::parse_player;
use railproof::playing::PlayedShot;
use railproof::profile::{parse_partial, parse_profile};
use railproof::record::MapRecord;
use railproof::scenario::{RunOptions, run_scenario};
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::equipment::{Equipment, EquipmentNumber, RailModel};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::track::LensKnown;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What was read, or nothing where it was refused in words that may be shown.
fn read<T>(bytes: &[u8], read: impl FnOnce(&str) -> Result<T, Fault>) -> Option<T> {
    let text = String::from_utf8_lossy(bytes);
    read(&text).map_err(|fault| check_fault(&fault, text.as_bytes())).ok()
}

pub(super) fn profile(bytes: &[u8]) {
    read(bytes, |text| parse_partial(text, "fuzz.yaml"));
    if let Some(equipment) = read(bytes, |text| parse_profile(text, "fuzz.yaml")) {
        check_equipment(&equipment);
    }
}

/// Equipment that was accepted is made of numbers, and plays.
fn check_equipment(equipment: &Equipment) {
    for number in EquipmentNumber::all() {
        // A number that is not given is no number.
        let value = number.get(equipment);
        assert!(value.is_finite() || number.usual().is_none(), "{}", number.column());
    }
    let model = equipment.cushion.rail_model;
    if model == RailModel::Compliant {
        return;
    }
    let bank = Bank::new(equipment, Rail::Left, Pocket::FootRight, model);
    if let Ok(bank) = bank {
        let outcome = bank.play(Line::new(2.0, 4.4), Launch::frozen_stun(3.0));
        let outcome = outcome.expect("a launch within its ranges");
        assert!(outcome.miss_m().is_none_or(f64::is_finite), "{outcome:?}");
    }
}

pub(super) fn layout(bytes: &[u8]) {
    let nowhere = Path::new("a-folder-that-is-not-there");
    let Some(layout) = read(bytes, |text| parse_layout(text, "fuzz.yaml", nowhere)) else { return };
    if matches!(layout.engine, EngineChoice::Event) {
        match PlayedShot::new(&layout) {
            Ok(played) => drop(played.answer()),
            Err(fault) => check_fault(&fault, bytes),
        }
    }
}

pub(super) fn plan(bytes: &[u8]) {
    let Some(plan) = read(bytes, |text| plan_of_text("fuzz.json", text)) else { return };
    let text = plan.text();
    let again = plan_of_text("again.json", &text).expect("a plan that was written is read");
    assert_eq!((again.sha256(), again.text()), (plan.sha256(), text));
    let _ = plan.check();
    assert!(plan.points() > 0 && plan.shards() > 0);
}

pub(super) fn player(bytes: &[u8]) {
    read(bytes, |text| parse_player(text, "fuzz.yaml"));
}

pub(super) fn measurements(bytes: &[u8]) {
    let table = shipped_equipment("nine-foot");
    read(bytes, |text| parse_measurements(text, "fuzz.csv", &table));
}

pub(super) fn track(bytes: &[u8]) {
    let Some(film) = read(bytes, |text| parse_track(text, "fuzz.csv")) else { return };
    if let Err(fault) = film.bank(&shipped_equipment("nine-foot"), LensKnown::Straight) {
        check_fault(&fault, bytes);
    }
}

/// A map, and the place of a baseline that it is held to.
struct HeldMap {
    map: Arc<MapRecord>,
    path: PathBuf,
    _folder: tempfile::TempDir,
}

thread_local! {
    static HELD: HeldMap = held_map();
}

fn held_map() -> HeldMap {
    const SCENARIO: &str = r#"
local banks = grid { equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = { mps(2), mps(3) }, spin = "stun" }
compare(banks, rule.linear { slope = 2.2, reading = "groove" })
"#;
    let folder = tempfile::tempdir().expect("a folder can be made");
    let script = folder.path().join("map.lua");
    std::fs::write(&script, SCENARIO).expect("it can be written");
    let mut record = run_scenario(&script, &RunOptions::default()).expect("it runs");
    let map = record.maps.swap_remove(0);
    HeldMap { map, path: folder.path().join("fuzz.baseline"), _folder: folder }
}

pub(super) fn baseline(bytes: &[u8]) {
    HELD.with(|HeldMap { map, path, .. }| {
        // A file that is written over may be waited for until it is on the disk.
        let _ = std::fs::remove_file(path);
        std::fs::write(path, bytes).expect("it can be written");
        let rows: Vec<usize> = (0..map.rows.len()).collect();
        let checked = baseline::check(map, &rows, path, (0.5, MissUnit::Millimetres), false);
        match checked {
            Ok(checked) => {
                let told = &checked.report;
                for line in told.moved.iter().chain(&told.warnings).chain(&told.notes) {
                    assert!(line.len() < 4000, "{} bytes: {line}", line.len());
                }
            }
            Err(fault) => check_fault(&fault, bytes),
        }
    });
}

//! The files read by programs that share no code with this one: PyArrow and DuckDB, from Python.
//!
//! `RAILPROOF_PYTHON` names a Python that has them and pandas. Without it they are installed from the Python
//! package index into the build's folder, once. `RAILPROOF_NO_PYTHON` leaves this test out.

use super::support::{Recipe, play_all};
use railproof::files::RealDisk;
use railproof::plan::{Keep, SweepPlan};
use railproof_engine::sweep::{Input, PlayedRows, Player};
use serde_json::{Map, Value, json};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::AtomicBool;

/// The packages installed.
const PACKAGES: [&str; 3] = ["pyarrow==26.0.1", "duckdb==2.0.1", "pandas"];

fn has_all(python: &Path) -> bool {
    let tried =
        Command::new(python).args(["-c", "import pyarrow.parquet, duckdb, pandas"]).output();
    tried.is_ok_and(|done| done.status.success())
}

#[track_caller]
fn done(command: &mut Command) {
    let ended = command.output();
    assert!(
        ended.as_ref().is_ok_and(|ended| ended.status.success()),
        "reading back needs Python 3 with venv, and PyArrow, DuckDB and pandas from the Python package \
         index; name a Python that has them by RAILPROOF_PYTHON, or leave this test out by \
         RAILPROOF_NO_PYTHON=1: {command:?} gave {ended:?}"
    );
}

/// A Python with the packages; nothing when the user wants none.
pub fn python() -> Option<PathBuf> {
    if std::env::var_os("RAILPROOF_NO_PYTHON").is_some() {
        println!("left out: RAILPROOF_NO_PYTHON is set");
        return None;
    }
    if let Some(python) = std::env::var_os("RAILPROOF_PYTHON") {
        let python = PathBuf::from(python);
        assert!(has_all(&python), "{} lacks PyArrow, DuckDB or pandas", python.display());
        return Some(python);
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("read-back");
    let python = folder.join(if cfg!(windows) { "Scripts/python.exe" } else { "bin/python" });
    if !has_all(&python) {
        done(Command::new("python3").args(["-m", "venv", "--clear"]).arg(&folder));
        done(Command::new(&python).args(["-m", "pip", "install", "--quiet"]).args(PACKAGES));
    }
    Some(python)
}

/// Every column as the engine computed it, without a file between.
fn expected(plan: &SweepPlan) -> Value {
    let mut player = Player::new(plan.banks().unwrap(), plan.rules(), plan.keep.wanted()).unwrap();
    let mut played = PlayedRows::default();
    assert!(player.play(0..plan.points(), &mut played, &AtomicBool::new(false)));
    let mut columns = Map::new();
    let mut add = |name: &str, kind: &str, unit: &str, values: Vec<Value>| {
        columns.insert(name.to_owned(), json!({ "kind": kind, "unit": unit, "values": values }));
    };
    let failure = |row: usize| played.failures.iter().find(|failure| failure.row == row);
    let each = |of: &dyn Fn(usize) -> Value| (0..played.len()).map(of).collect::<Vec<Value>>();
    add("point", "whole", "", each(&|row| json!(played.point[row])));
    add("rule", "word", "", each(&|row| json!(plan.rules()[played.rule[row]].name)));
    let (inputs, outcomes) = (&played.inputs, &played.outcomes);
    let numbers = [
        ("contact_diamonds", "diamonds", &inputs.contact),
        ("start_diamonds", "diamonds", &inputs.start),
        ("off_rail_m", "m", &inputs.off_rail_m),
        ("speed_m_s", "m/s", &inputs.speed_m_s),
        ("roll", "", &inputs.roll),
        ("running_side", "", &inputs.side),
        ("aim_error_rad", "rad", &inputs.aim_error_rad),
        ("miss_m", "m", &outcomes.miss_m),
        ("clearance_long_m", "m", &outcomes.clearance_long_m),
        ("clearance_short_m", "m", &outcomes.clearance_short_m),
        ("at_rail_contact_diamonds", "diamonds", &outcomes.contact_at_rail),
        ("at_rail_time_s", "s", &outcomes.time_at_rail_s),
        ("at_rail_speed_m_s", "m/s", &outcomes.speed_at_rail_m_s),
        ("at_rail_roll_fraction", "", &outcomes.roll_at_rail),
        ("incidence_rad", "rad", &outcomes.incidence_rad),
        ("departure_diamonds", "diamonds", &outcomes.departure),
        ("rebound_speed_m_s", "m/s", &outcomes.rebound_speed_m_s),
        ("rebound_angle_rad", "rad", &outcomes.rebound_angle_rad),
        ("rebound_restitution", "", &outcomes.restitution),
        ("arrival_time_s", "s", &outcomes.arrival_time_s),
        ("arrival_speed_m_s", "m/s", &outcomes.arrival_speed_m_s),
    ];
    for (name, unit, values) in numbers {
        let bits = |row: usize| {
            let there = values[row].is_finite();
            there
                .then(|| format!("{:016x}", values[row].to_bits()))
                .map_or(Value::Null, Value::from)
        };
        add(name, "number", unit, each(&bits));
    }
    let verdict = |row: usize| match failure(row) {
        Some(_) => json!("failed"),
        None => json!(outcomes.verdict[row].name()),
    };
    add("verdict", "word", "", each(&verdict));
    let side = |row: usize| match outcomes.verdict[row].direction() {
        Some(side) => json!(format!("{side:?}").to_lowercase()),
        None => Value::Null,
    };
    add("long_or_short", "word", "", each(&side));
    add(
        "flagged",
        "flag",
        "",
        each(&|row| failure(row).map_or_else(|| json!(outcomes.flagged[row]), |_| Value::Null)),
    );
    let why = |row: usize| failure(row).map_or(Value::Null, |it| json!(it.error.to_string()));
    add("failure", "word", "", each(&why));
    let varied: Map<String, Value> = [Input::Contact, Input::OffRail, Input::Speed, Input::Roll]
        .into_iter()
        .zip(["contact_diamonds", "off_rail_m", "speed_m_s", "roll"])
        .map(|(input, column)| (input.name().to_owned(), json!(column)))
        .collect();
    json!({
        "columns": columns,
        "inputs": varied,
        "rules": plan.rules().iter().map(|rule| rule.name.clone()).collect::<Vec<String>>(),
        "plan_sha256": plan.sha256(),
        "versions": {
            "railproof": env!("CARGO_PKG_VERSION"),
            "engine": railproof_engine::VERSION,
        },
    })
}

#[test]
fn pyarrow_and_duckdb_read_what_was_computed() {
    let Some(python) = python() else { return };
    let planned = Recipe::with_failures().placed();
    let (rows, map) = (planned.place.path("rows"), planned.place.path("map"));
    play_all(&planned.plan, &rows, &RealDisk).unwrap();
    play_all(&Recipe::with_failures().keeping(Keep::Map).plan(), &map, &RealDisk).unwrap();
    let told = planned.place.write("expected.json", expected(&planned.plan).to_string());
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sweeps/read_back.py");
    let read = |rows: &Path| {
        Command::new(&python).arg(&script).arg(rows).arg(&map).arg(&told).output().unwrap()
    };
    let ended = read(&rows);
    assert!(ended.status.success(), "{ended:?}");
    assert!(String::from_utf8_lossy(&ended.stdout).starts_with("read back with PyArrow"));
    // The check itself sees a difference: the same points by another spin.
    let other = Recipe { banks: planned_banks_moved(), ..Recipe::with_failures() };
    play_all(&other.plan(), &planned.place.path("other"), &RealDisk).unwrap();
    let ended = read(&planned.place.path("other"));
    assert!(!ended.status.success(), "another sweep is taken for this one");
}

/// The grid with one spin moved by the last bit.
fn planned_banks_moved() -> String {
    let banks = Recipe::with_failures().banks;
    let moved = banks.replace("{ 0, 0.3,", "{ 0, 0.30000000000000004,");
    assert_ne!(moved, banks);
    moved
}

//! Scenarios, invariants: what their words do, and what they say when they are wrong.

#![expect(clippy::float_cmp, reason = "the same numbers, to the bit, are what is tested")]

mod answers;
mod cautions;
mod chances;
mod expectations;
mod faults;
mod frontier;
mod known_tables;
mod measures;
mod pictures;
mod shots;
mod threads;
mod titles;

use railproof::fault::Fault;
use railproof::record::Record;
use railproof::scenario::{RunOptions, run_scenario};

/// Runs a text as a scenario in a folder of its own.
fn try_run(text: &str) -> Result<Record, Fault> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("case.lua");
    std::fs::write(&path, text).unwrap();
    run_scenario(&path, &RunOptions::default()).and_then(Record::whole)
}

#[track_caller]
fn run(text: &str) -> Record {
    try_run(text).unwrap_or_else(|fault| panic!("{fault}\n{text}"))
}

/// Runs a scenario that expects something, and holds it to all of it.
#[track_caller]
fn all_held(text: &str) {
    let record = run(text);
    assert!(!record.expectations.is_empty(), "{text}");
    for one in &record.expectations {
        assert!(one.held, "{text}: {} - {}", one.expected, one.found);
    }
}

/// The lines that a scenario printed.
#[track_caller]
fn printed(text: &str) -> Vec<String> {
    run(text).printed
}

/// A number that a scenario printed.
#[track_caller]
fn number(text: &str) -> f64 {
    let lines = printed(text);
    lines.first().and_then(|line| line.parse().ok()).unwrap_or_else(|| panic!("{lines:?}"))
}

/// A table and rule to begin with, on one line.
const HALL: &str = "local hall = equipment 'harbour-hall'; \
                    local ratio = rule.linear { slope = 2.2, name = 'ratio' }\n";

/// Equal angles, by definition: no friction, nothing lost, an impulse at the equator that takes no
/// time.
const MIRROR: &str = "local ideal = equipment('nine-foot'):with { rail_model = 'planar', \
                      restitution = 1, restitution_loss = quantity '0 s/m', restitution_floor = 0, \
                      nose_friction = 0, contact_time = milliseconds(0), name = 'ideal' }\n";

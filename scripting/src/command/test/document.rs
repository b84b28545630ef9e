//! The results of tests as JSON.

use super::stale::StaleBaseline;
use crate::command::output::to_json;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::walled::{ToldFault, Trial};
use serde_json::{Value, json};
use std::path::PathBuf;

/// Grows when the meaning of a key changes.
const FORMAT: u32 = 1;

/// The keys of the document, each with its meaning.
pub const KEYS: [(&str, &str); 31] = [
    ("format", "grows when the meaning of a key changes; now 1"),
    ("exit", "the exit code of the whole"),
    ("not_run", "paths that were selected and not run"),
    (
        "troubles",
        "of the run as a whole: what the search left out, texts that no expectation contains; in words",
    ),
    ("stale_baselines", "paths of baselines that no scenario holds a map to"),
    (
        "linked_baselines",
        "such paths that lead by a link out of what was tested: scenarios elsewhere may hold maps to them",
    ),
    ("scenarios", "those that were run, in order of path"),
    ("scenarios[].file", "its path"),
    ("scenarios[].exit", "the exit code that it alone would give"),
    ("scenarios[].seconds", "from its beginning to its end"),
    ("scenarios[].printed", "lines that it printed"),
    ("scenarios[].expectations", "in the order in which they were stated"),
    ("scenarios[].expectations[].expected", "in words"),
    ("scenarios[].expectations[].found", "in words"),
    ("scenarios[].expectations[].line", "its line, from 1; null where unknown"),
    ("scenarios[].expectations[].held", "true or false"),
    ("scenarios[].expectations[].stored", "true when its baseline was replaced"),
    ("scenarios[].expectations[].moved", "what differs from its baseline, a line each"),
    (
        "scenarios[].expectations[].parameters",
        "the parameters that are not as stored with its baseline",
    ),
    ("….name", "of a parameter: as in scripts and files"),
    ("….was", "its stored value, with its unit"),
    ("….is", "its value now"),
    ("….words", "the change in a sentence"),
    (
        "scenarios[].expectations[].warnings",
        "verdicts that changed at an edge, a line each; they fail nothing",
    ),
    ("scenarios[].expectations[].notes", "what else should be known of its baseline"),
    (
        "scenarios[].expectations[].picture",
        "before, after and difference: a path, with --into; null where there is none",
    ),
    ("scenarios[].left_out", "what it asks for and does not get"),
    ("scenarios[].stopped", "what kept it from its last line; null when nothing did"),
    ("….message", "of what is left out or stopped: in words"),
    ("….file", "the file in which it stands: the scenario, or one that it reads"),
    ("….line", "its line there, from 1; null where unknown"),
];

/// The document.
pub(super) fn json(
    tested: &[Trial],
    (not_run, stale): (&[PathBuf], &[StaleBaseline]),
    (of_run, notes): (&[ToldFault], &[String]),
    worst: Exit,
) -> Result<String, Fault> {
    let told = |path: &PathBuf| path.display().to_string();
    let stale = |linked: bool| -> Value {
        stale.iter().filter(|it| it.link.is_some() == linked).map(|it| told(&it.path)).collect()
    };
    to_json(&json!({
        "format": FORMAT,
        "exit": worst.code(),
        "not_run": not_run.iter().map(told).collect::<Value>(),
        "troubles": of_run.iter().map(|it| &it.message).chain(notes).cloned().collect::<Value>(),
        "stale_baselines": stale(false),
        "linked_baselines": stale(true),
        "scenarios": tested.iter().map(scenario).collect::<Value>(),
    }))
}

fn scenario(trial: &Trial) -> Value {
    let fault = |fault: &ToldFault| {
        let file = fault.at_file.clone();
        let file = file.unwrap_or_else(|| trial.file.display().to_string());
        json!({ "message": fault.message, "file": file, "line": fault.at_line })
    };
    json!({
        "file": trial.file.display().to_string(),
        "exit": trial.exit.code(),
        "seconds": trial.took.as_secs_f64(),
        "printed": trial.printed,
        "expectations": trial.expectations.iter().map(|one| json!({
            "expected": one.expected,
            "found": one.found,
            "line": one.at_line,
            "held": one.held,
            "stored": one.accepted,
            "moved": one.moved,
            "parameters": one.parameters,
            "warnings": one.warnings,
            "notes": one.notes,
            "picture": one.picture,
        })).collect::<Value>(),
        "left_out": trial.left_out.iter().map(fault).collect::<Value>(),
        "stopped": trial.stopped.as_ref().map(fault),
    })
}

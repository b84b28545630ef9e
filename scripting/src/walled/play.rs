//! A scenario played in this process, and what is done with its results.

use super::job::{Manner, ScenarioJob};
use super::told::ToldFault;
use super::trial::Trial;
use crate::fault::{Fault, Style};
use crate::files::reach;
use crate::record::Record;
use crate::report::{self, PageStyle};
use crate::scenario::{RunOptions, run_scenario};
use crate::store::{RunFiles, TableCells, earlier_pictures, write_folder};
use crate::telling::of_an_earlier_run;
use std::path::{Path, PathBuf};

/// Keeps this process to the folders of these scenarios, and to others that may be read: the program's own wall,
/// where the system's are not wanted.
pub fn keep_to_folders_of(jobs: &[ScenarioJob], reads: &[PathBuf]) {
    let mut folders = reads.to_owned();
    for (read, write) in jobs.iter().map(ScenarioJob::sees) {
        folders.extend(read.into_iter().chain(write));
    }
    reach::keep_to(&folders);
}

/// Plays a scenario and makes the report of it; in the manner of a run its files are written.
pub fn play_here(job: &ScenarioJob, options: &RunOptions) -> Trial {
    finish(job, run_scenario(&job.file, options))
}

/// Makes the report of a scenario that has ended.
pub(super) fn finish(job: &ScenarioJob, mut outcome: Result<Record, Fault>) -> Trial {
    if let Ok(record) = &mut outcome
        && !job.accept_despite_failures
    {
        accept_only_alone(record);
    }
    let style = Style { color: job.color_of_faults };
    let mut trial = Trial::of(&job.file, outcome.as_ref(), job.look, style);
    match &job.manner {
        Manner::Run { folder, quiet, full, cells } => {
            let show = shown_by(*quiet, *full);
            let made = outcome.as_ref().ok();
            let made = made.filter(|record| !(record.is_empty() && record.stopped.is_some()));
            trial.text = match made {
                Some(record) => {
                    let files = write(&mut trial, record, folder, *cells, style);
                    show(record, files.as_ref(), job.look)
                }
                None => of_an_earlier_run(&earlier_pictures(folder)),
            };
        }
        // Its text is made of what counts of it, which the parent knows.
        Manner::Test { into } => {
            if let (Some(folder), Ok(record)) = (into, outcome.as_ref())
                && !(record.is_empty() && record.stopped.is_some())
                && write(&mut trial, record, folder, TableCells::Plain, style).is_some()
            {
                tell_pictures(&mut trial, record, folder);
            }
        }
    }
    trial
}

/// Takes back what was accepted where something else failed: who stores a map should know of it.
fn accept_only_alone(record: &mut Record) {
    let stands = |it: &crate::record::Expectation| it.held || it.baseline.is_some();
    if !record.expectations.iter().all(stands) {
        record.accept_nothing(
            "not stored: another expectation failed; --accept-despite-failures stores all the same",
        );
    }
}

/// Tells where the pictures of baselines are.
fn tell_pictures(trial: &mut Trial, record: &Record, folder: &Path) {
    for (told, expectation) in trial.expectations.iter_mut().zip(&record.expectations) {
        let name = expectation.baseline.as_ref().and_then(|baseline| baseline.picture.as_ref());
        told.picture = name.map(|name| folder.join(format!("{name}.png")).display().to_string());
    }
}

/// How much is shown.
type Show = fn(&Record, Option<&RunFiles>, PageStyle) -> String;

fn shown_by(quiet: bool, full: bool) -> Show {
    match (quiet, full) {
        (true, _) => report::failures_only,
        (false, true) => report::full,
        (false, false) => report::brief,
    }
}

/// Writes the folder of a run; no files when they can't be written.
fn write(
    trial: &mut Trial,
    record: &Record,
    folder: &Path,
    cells: TableCells,
    style: Style,
) -> Option<RunFiles> {
    let written = write_folder(record, folder, cells);
    if let Err(fault) = &written {
        trial.exit = trial.exit.or_worse(fault.exit);
        trial.troubles.push(ToldFault::of(fault, &trial.file, style));
    }
    written.ok()
}

//! Scenarios as `run` and `test` play them: each in a process of its own, or without walls in this one; and their
//! baselines as they are stored, once they were shown.

use super::at_terminal::Shown;
use super::output::{print_fault, print_told};
use crate::baseline::keep_accepted;
use crate::exit::Exit;
use crate::fault::{Fault, Style, tame};
use crate::files::{folder_of, reach};
use crate::record::BaselineReport;
use crate::scenario::{Progress, RunOptions};
use crate::walled::{Means, ScenarioJob, Trial, Watch, play_here, play_walled};
use std::sync::Arc;
use std::time::Instant;

/// How scenarios are played.
pub(super) struct TrialStage {
    pub(super) means: Means,
    pub(super) walled: bool,
    pub(super) progress: Arc<dyn Progress>,
    pub(super) errors: Style,
}

impl TrialStage {
    /// Plays one scenario and shows it.
    pub(super) fn play(&self, job: &ScenarioJob, watch: &dyn Watch) -> Trial {
        if self.walled {
            return play_walled(job, &self.means, watch);
        }
        let began = Instant::now();
        let options = RunOptions {
            accept_baselines: job.accept,
            progress: Arc::clone(&self.progress),
            stop: self.means.stop.clone(),
            budget: self.means.budget,
            kept: job.kept(),
            ..RunOptions::default()
        };
        let mut trial = play_here(job, &options);
        trial.took = began.elapsed();
        watch.show(&trial);
        trial
    }

    /// Stores the baselines that were accepted; nobody accepts what was not shown.
    pub(super) fn store(&self, tested: &[Trial], quiet: bool, shown: &Shown) -> Exit {
        if shown.written().is_err() {
            return Exit::Held;
        }
        let reports: Vec<&BaselineReport> = tested.iter().flat_map(|it| &it.baselines).collect();
        if let Some(outside) = tested.iter().find_map(stored_outside) {
            return self.tell(&Fault::bad_input(format!(
                "the baseline `{}` lies outside the folder of its scenario; nothing was stored",
                outside.path.display()
            )));
        }
        match keep_accepted(reports) {
            Ok(paths) => {
                for path in paths.iter().filter(|_| !quiet) {
                    let path = tame(&path.display().to_string());
                    shown.print(&format!("baseline written: {path}\n"));
                }
                Exit::Held
            }
            Err(fault) => self.tell(&fault),
        }
    }

    fn tell(&self, fault: &Fault) -> Exit {
        print_fault(fault, self.errors);
        fault.exit
    }
}

/// A baseline that would be stored, and does not lie in or under its scenario's folder.
fn stored_outside(trial: &Trial) -> Option<&BaselineReport> {
    let folder = folder_of(&trial.file);
    let mut accepted = trial.baselines.iter().filter(|report| report.accepted);
    accepted.find(|report| !reach::lies_in(&folder, &report.path))
}

/// Tells of faults beside those of the scenario.
pub(super) fn tell_troubles(trial: &Trial) {
    trial.troubles.iter().for_each(print_told);
}

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
use crate::walled::{Means, ScenarioJob, ToldFault, Trial, Watch, play_here, play_walled};
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

    /// Stores the baselines that were accepted; nobody accepts what was not shown. Expectations whose baselines could not
    /// be written are accepted no more.
    pub(super) fn store(&self, tested: &mut [Trial], quiet: bool, shown: &Shown) -> Exit {
        let (written, fault) = match (shown.written(), tested.iter().find_map(stored_outside)) {
            (Err(fault), _) => (Vec::new(), Some(fault)),
            (Ok(()), Some(outside)) => {
                let message = format!(
                    "the baseline `{}` lies outside the folder of its scenario; nothing was stored",
                    outside.path.display()
                );
                (Vec::new(), Some(Fault::bad_input(message)))
            }
            (Ok(()), None) => keep_accepted(tested.iter().flat_map(|it| &it.baselines)),
        };
        for path in written.iter().filter(|_| !quiet) {
            shown.print(&format!("baseline written: {}\n", tame(&path.display().to_string())));
        }
        let Some(fault) = fault else { return Exit::Held };
        for trial in tested {
            let told = ToldFault::of(&fault, &trial.file, self.errors);
            trial.not_stored(&written, &told);
        }
        // That standard output is lost is told by whoever prints.
        if shown.written().is_ok() {
            print_fault(&fault, self.errors);
        }
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

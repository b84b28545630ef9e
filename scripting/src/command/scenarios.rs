//! Scenarios as `run` and `test` play them: each in a process of its own, or without walls in this one.

use super::at_terminal::Shown;
use super::output::print_told;
use crate::fault::{Style, tame};
use crate::scenario::{Progress, RunOptions};
use crate::walled::{Means, ScenarioJob, ToldFault, Trial, Watch, play_here, play_walled};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Instant;

/// How scenarios are played.
pub(super) struct Stage {
    pub(super) means: Means,
    pub(super) walled: bool,
    pub(super) progress: Arc<dyn Progress>,
    pub(super) errors: Style,
    /// The baselines that were stored, each with the digest of its text and its scenario.
    pub(super) stored: Mutex<BTreeMap<PathBuf, (String, PathBuf)>>,
}

impl Stage {
    /// Plays one scenario, shows it and stores its baselines.
    pub(super) fn play(&self, job: &ScenarioJob, watch: &dyn Watch) -> Trial {
        let watch = StoresOnce { watch, stored: &self.stored };
        if self.walled {
            return play_walled(job, &self.means, &watch);
        }
        let began = Instant::now();
        let options = RunOptions {
            accept_baselines: job.accept,
            progress: Arc::clone(&self.progress),
            stop: self.means.stop.clone(),
            budget: self.means.budget,
            ..RunOptions::default()
        };
        let played = play_here(job, &options);
        let may_store = watch.show(&played.trial) && job.accept;
        let stored = may_store.then(|| played.store());
        let mut trial = played.trial;
        match stored {
            Some(Ok(paths)) => trial.stored = paths,
            Some(Err(fault)) => {
                trial.exit = trial.exit.or_worse(fault.exit);
                trial.troubles.push(ToldFault::of(&fault, self.errors));
            }
            None => {}
        }
        trial.took = began.elapsed();
        trial
    }
}

/// Lets no two scenarios store different maps in one file.
struct StoresOnce<'a> {
    watch: &'a dyn Watch,
    stored: &'a Mutex<BTreeMap<PathBuf, (String, PathBuf)>>,
}

impl Watch for StoresOnce<'_> {
    fn progress(&self) -> &dyn Progress {
        self.watch.progress()
    }

    fn show(&self, trial: &Trial) -> bool {
        if !self.watch.show(trial) {
            return false;
        }
        let mut stored = self.stored.lock().unwrap_or_else(PoisonError::into_inner);
        for (path, digest) in &trial.to_store {
            if let Some((other, by)) = stored.get(path)
                && (other, by) != (digest, &trial.file)
                && other != digest
            {
                super::remark(&format!(
                    "nothing of `{}` was stored: `{}` has stored another map in `{}`; give each a file of its own",
                    trial.file.display(),
                    by.display(),
                    path.display()
                ));
                return false;
            }
        }
        for (path, digest) in &trial.to_store {
            stored.insert(path.clone(), (digest.clone(), trial.file.clone()));
        }
        true
    }

    fn lacks(&self, walls: &str) {
        self.watch.lacks(walls);
    }
}

/// Tells of the baselines that were stored, and of faults beside those of the scenario.
pub(super) fn tell_stored(trial: &Trial, quiet: bool, shown: &Shown) {
    if !quiet {
        for path in &trial.stored {
            shown.print(&format!("baseline written: {}\n", tame(&path.display().to_string())));
        }
    }
    trial.troubles.iter().for_each(print_told);
}

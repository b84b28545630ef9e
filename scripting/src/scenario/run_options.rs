//! The options of a run, and the one who is told its progress.

use crate::lua::Limits;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Told the progress of the work; called from any thread.
pub trait Progress: Send + Sync {
    /// A stretch of work begins: so many points are to be evaluated.
    fn begin(&self, total: u64);
    /// So many more are done.
    fn tick(&self, done: u64);
    /// The stretch has ended.
    fn end(&self);
    /// Something to know before a long stretch begins.
    fn say(&self, _words: &str) {}
}

/// Shows nothing.
#[derive(Debug, Clone, Copy)]
pub struct Silent;

impl Progress for Silent {
    fn begin(&self, _: u64) {}
    fn tick(&self, _: u64) {}
    fn end(&self) {}
}

/// The options of a run.
#[derive(Clone)]
pub struct RunOptions {
    /// The limits of the script.
    pub limits: Limits,
    /// Rewrite baselines that have moved.
    pub accept_baselines: bool,
    /// Run only as far as the plan with this number, counted from 1 over `plan` and `compare`.
    pub plan: Option<usize>,
    /// Told the progress of sweeps.
    pub progress: Arc<dyn Progress>,
    /// Once true, no further sweep is begun and the run ends as interrupted.
    pub stop: Arc<AtomicBool>,
}

impl Default for RunOptions {
    fn default() -> Self {
        Self {
            limits: Limits::default(),
            accept_baselines: false,
            plan: None,
            progress: Arc::new(Silent),
            stop: Arc::default(),
        }
    }
}

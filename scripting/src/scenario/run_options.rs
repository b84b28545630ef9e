//! The options of a run, and the one who is told its progress.

use super::unfinished::Unfinished;
use crate::lua::Limits;
use crate::record::Expectation;
use crate::walls::{Budget, Stop};
use std::path::PathBuf;
use std::sync::Arc;

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
    /// The run has begun: what is recorded of it, for those who may have to take it before its end.
    fn began(&self, _unfinished: Unfinished) {}
    /// An expectation was stated.
    fn stated(&self, _expectation: &Expectation) {}
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
    /// Once an end is asked for, no further line of the script is run and no further sweep begun.
    pub stop: Stop,
    /// Where answers of many tables are kept between runs.
    pub kept: Option<PathBuf>,
    /// What the run may take as a whole, for the words when it takes more.
    pub budget: Budget,
}

impl Default for RunOptions {
    fn default() -> Self {
        Self {
            limits: Limits::default(),
            accept_baselines: false,
            plan: None,
            progress: Arc::new(Silent),
            stop: Stop::default(),
            kept: None,
            budget: Budget::USUAL,
        }
    }
}

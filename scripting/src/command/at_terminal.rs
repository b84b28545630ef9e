//! A person at the terminal, told the course of scenarios.

use super::output::{print, remark};
use crate::fault::Fault;
use crate::scenario::Progress;
use crate::walled::{Trial, Watch};
use std::sync::{Mutex, PoisonError};

/// Shows trials on standard output as they end.
pub(super) struct AtTerminal<'a> {
    progress: &'a dyn Progress,
    state: &'a Shown,
    text_of: &'a (dyn Fn(&Trial) -> String + Sync),
}

/// What was shown so far.
#[derive(Debug, Default)]
pub(super) struct Shown {
    output: Mutex<Option<Fault>>,
    lacks_told: Mutex<bool>,
}

impl Shown {
    /// What kept standard output from being written.
    ///
    /// # Errors
    /// That.
    pub(super) fn written(&self) -> Result<(), Fault> {
        let lost = self.output.lock().unwrap_or_else(PoisonError::into_inner);
        lost.clone().map_or(Ok(()), Err)
    }

    /// Prints, unless standard output is lost already.
    pub(super) fn print(&self, text: &str) {
        let mut lost = self.output.lock().unwrap_or_else(PoisonError::into_inner);
        if lost.is_none() {
            *lost = print(text).err();
        }
    }
}

impl<'a> AtTerminal<'a> {
    pub(super) fn new(
        progress: &'a dyn Progress,
        state: &'a Shown,
        text_of: &'a (dyn Fn(&Trial) -> String + Sync),
    ) -> Self {
        Self { progress, state, text_of }
    }
}

impl Watch for AtTerminal<'_> {
    fn progress(&self) -> &dyn Progress {
        self.progress
    }

    fn show(&self, trial: &Trial) {
        self.state.print(&(self.text_of)(trial));
    }

    fn lacks(&self, walls: &str) {
        let mut told = self.state.lacks_told.lock().unwrap_or_else(PoisonError::into_inner);
        if !std::mem::replace(&mut *told, true) {
            remark(walls);
        }
    }
}

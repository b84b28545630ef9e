//! The parts of a run that are missing, and why.

use super::Record;
use crate::exit::Exit;
use crate::fault::Fault;
use std::collections::BTreeSet;

/// A selection, picture or expectation that asks for something that is not there.
#[derive(Debug, Clone)]
pub struct LeftOut {
    /// Why, and where.
    pub fault: Fault,
    /// The lines that say nothing because of it, counted from 1.
    pub silent: BTreeSet<usize>,
}

impl LeftOut {
    /// The line that asks for it.
    pub fn line(&self) -> Option<usize> {
        self.fault.place.as_ref().map(|place| place.line_column().0)
    }
}

impl Record {
    /// Whether nothing was made or found.
    pub fn is_empty(&self) -> bool {
        self.maps.is_empty()
            && self.starts.is_empty()
            && self.plans.is_empty()
            && self.shots.is_empty()
            && self.frontiers.is_empty()
            && self.drawings.is_empty()
            && self.expectations.is_empty()
            && self.printed.is_empty()
            && self.left_out.is_empty()
    }

    /// The record, unless something is missing from it.
    ///
    /// # Errors
    /// The first reason why something is missing.
    pub fn whole(mut self) -> Result<Self, Fault> {
        if !self.left_out.is_empty() {
            return Err(self.left_out.swap_remove(0).fault);
        }
        match self.stopped.take() {
            Some(fault) => Err(fault),
            None => Ok(self),
        }
    }

    /// Takes back what was accepted of a run that is not whole: it says nothing for a baseline.
    pub fn accept_only_whole(&mut self) {
        if !self.left_out.is_empty() || self.stopped.is_some() {
            self.accept_nothing("not stored: something was left out or stopped");
        }
    }

    /// Takes back what was accepted, and says so at it in these words.
    pub fn accept_nothing(&mut self, words: &str) {
        let baselines = self.expectations.iter_mut().filter_map(|it| it.baseline.as_mut());
        for baseline in baselines.filter(|baseline| baseline.accepted) {
            baseline.accepted = false;
            baseline.refused = Some(words.to_owned());
        }
    }

    /// The end of the run. What is left out never passes.
    pub fn exit(&self) -> Exit {
        let held = if self.all_held() { Exit::Held } else { Exit::ExpectationFailed };
        let missing = self.left_out.iter().map(|one| &one.fault).chain(&self.stopped);
        missing.fold(held, |worst, fault| worst.or_worse(fault.exit))
    }
}

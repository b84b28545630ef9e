//! Those to whom a scenario tells its course: a person at the parent, or the parent at the end of a pipe.

use super::frame;
use super::message::Message;
use super::told::ToldExpectation;
use super::trial::Trial;
use crate::fault::Style;
use crate::record::Expectation;
use crate::report::PageStyle;
use crate::scenario::{Progress, Unfinished};
use std::io;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Told the course of a scenario, and its end.
pub trait Watch: Sync {
    /// Told the progress.
    fn progress(&self) -> &dyn Progress;
    /// Shows a trial.
    fn show(&self, trial: &Trial);
    /// Told, once, what the system does not hold workers to.
    fn lacks(&self, _walls: &str) {}
}

/// Between two records of progress.
const BETWEEN: Duration = Duration::from_millis(40);

/// Tells the parent, by the pipe that standard output is.
#[derive(Debug)]
pub(super) struct ToParent {
    look: PageStyle,
    style: Style,
    ticks: AtomicU64,
    told: Mutex<Instant>,
    unfinished: Mutex<Option<Unfinished>>,
    printed: Mutex<usize>,
}

impl ToParent {
    pub(super) fn new(look: PageStyle, style: Style) -> Self {
        let told = Mutex::new(Instant::now());
        Self {
            look,
            style,
            ticks: AtomicU64::new(0),
            told,
            unfinished: Mutex::default(),
            printed: Mutex::default(),
        }
    }

    /// Sends a record. A parent that has gone away ends the worker by another way.
    pub(super) fn tell(message: &Message) {
        let _ = frame::write(&mut io::stdout().lock(), message);
    }

    /// Sends the lines that were printed since the last time: should the process be killed, its parent has them.
    pub(super) fn tell_printed(&self) {
        let Some(unfinished) = self.unfinished() else { return };
        let mut told = self.printed.lock().unwrap_or_else(PoisonError::into_inner);
        let lines = unfinished.printed_after(*told);
        if !lines.is_empty() {
            *told += lines.len();
            Self::tell(&Message::Printed(lines));
        }
    }

    /// What is recorded so far.
    pub(super) fn unfinished(&self) -> Option<Unfinished> {
        self.unfinished.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

impl Progress for ToParent {
    fn begin(&self, total: u64) {
        Self::tell(&Message::Begin(total));
    }

    fn tick(&self, done: u64) {
        self.ticks.fetch_add(done, Ordering::Relaxed);
        // Another thread that tells will do.
        let Ok(mut told) = self.told.try_lock() else { return };
        if told.elapsed() >= BETWEEN {
            *told = Instant::now();
            Self::tell(&Message::Ticks(self.ticks.swap(0, Ordering::Relaxed)));
        }
    }

    fn end(&self) {
        self.ticks.store(0, Ordering::Relaxed);
        Self::tell(&Message::End);
    }

    fn say(&self, words: &str) {
        Self::tell(&Message::Say(words.to_owned()));
    }

    fn began(&self, unfinished: Unfinished) {
        *self.unfinished.lock().unwrap_or_else(PoisonError::into_inner) = Some(unfinished);
    }

    fn stated(&self, expectation: &Expectation) {
        let told = ToldExpectation::of(expectation, Some((self.look, self.style)));
        Self::tell(&Message::Stated(Box::new(told)));
    }
}

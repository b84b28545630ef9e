//! A run that is still going on, as another thread may end it: with what is recorded, and why.

use crate::fault::Fault;
use crate::lua::Printed;
use crate::record::{Record, SharedRecord};
use std::time::Duration;

/// How long the run's own thread may keep hold of its record.
const PATIENCE: Duration = Duration::from_millis(200);

/// What a run has recorded and printed so far.
#[derive(Debug, Clone)]
pub struct Unfinished {
    record: SharedRecord,
    printed: Printed,
}

impl Unfinished {
    pub(super) const fn new(record: SharedRecord, printed: Printed) -> Self {
        Self { record, printed }
    }

    /// The lines printed up to now, after the first so many.
    pub fn printed_after(&self, first: usize) -> Vec<String> {
        self.printed.after(first)
    }

    /// The record up to now, stopped for this reason; none when the run does not let go of it.
    pub fn stopped(&self, why: Fault) -> Option<Record> {
        let mut record = self.record.take_within(PATIENCE)?;
        record.stopped = Some(why);
        record.accept_only_whole();
        let printed = self.printed.lines();
        record.printed = printed.lines;
        record.printed_dropped = printed.dropped;
        Some(record)
    }
}

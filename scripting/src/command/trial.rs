//! One scenario as `railproof test` ran it.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::record::Record;
use std::path::PathBuf;

/// A scenario that was run. Maps and pictures are let go once it has ended.
#[derive(Debug)]
pub(super) struct ScenarioTrial {
    pub(super) file: PathBuf,
    pub(super) outcome: Result<Record, Fault>,
}

impl ScenarioTrial {
    pub(super) fn exit(&self) -> Exit {
        match &self.outcome {
            Ok(record) => record.exit(),
            Err(fault) => fault.exit,
        }
    }

    /// The error that kept the scenario from its last line.
    pub(super) fn stopped(&self) -> Option<&Fault> {
        match &self.outcome {
            Ok(record) => record.stopped.as_ref(),
            Err(fault) => Some(fault),
        }
    }

    /// Whether the scenario asks for things that it does not get.
    pub(super) fn leaves_out(&self) -> bool {
        self.outcome.as_ref().is_ok_and(|record| !record.left_out.is_empty())
    }
}

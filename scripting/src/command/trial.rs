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
            Ok(record) if record.all_held() => Exit::Held,
            Ok(_) => Exit::ExpectationFailed,
            Err(fault) => fault.exit,
        }
    }
}

//! The part of a sweep that knows the words by which a function makes a shot.

use super::ShotRow;
use crate::fault::Fault;
use crate::lua::WorkerFunction;
use crate::plan::ShotsPlan;
use railproof_engine::equipment::Equipment;
use std::fmt::Debug;
use std::sync::Arc;

/// Makes shots by a plan's function and plays them, on any thread.
pub trait ShotMaker: Debug + Sync {
    /// The row of a point, with the known table where it is the same.
    ///
    /// # Errors
    /// The function's fault at this point.
    fn row(
        &self,
        plan: &ShotsPlan,
        function: &WorkerFunction,
        point: u64,
        known: Option<&Arc<Equipment>>,
    ) -> Result<ShotRow, Fault>;
}

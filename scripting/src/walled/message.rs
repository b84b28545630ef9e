//! What a worker tells its parent, and the parent its worker.

use super::told::ToldExpectation;
use super::trial::Trial;
use crate::walls::{StopReason, WallsHeld};
use serde::{Deserialize, Serialize};

/// From a worker that plays a scenario.
#[derive(Debug, Serialize, Deserialize)]
pub(super) enum Message {
    /// The walls stand.
    Walled(WallsHeld),
    /// A stretch of so many points begins.
    Begin(u64),
    /// So many more are done.
    Ticks(u64),
    /// The stretch has ended.
    End,
    /// Something to know while waiting.
    Say(String),
    /// The scenario has printed more lines.
    Printed(Vec<String>),
    /// An expectation was stated.
    Stated(Box<ToldExpectation>),
    /// The end.
    Played(Box<Trial>),
}

/// To a worker, after its job.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
pub(super) enum Wish {
    /// End soon.
    Stop(StopReason),
    /// End now.
    Leave,
}

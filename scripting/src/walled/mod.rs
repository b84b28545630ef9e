//! Processes of this program for scripts and files of others: the parent never runs or reads them, and reports
//! whatever becomes of the process that does.
//!
//! ```text
//!  parent ── job, wishes to stop (its standard input) ──→ worker, which raises its walls first
//!         ←── what comes out of it (records, each after its length) ──
//! ```
//!
//! A scenario's worker tells each expectation as it is stated and its whole [`Trial`] at its end. When it ends
//! otherwise, the parent makes the trial from what came before.

mod aloud;
mod frame;
mod job;
mod message;
mod parent;
mod play;
mod told;
mod trial;
mod worker;

pub use aloud::Watch;
pub use job::{Job, MARK, Manner, ScenarioJob};
pub use parent::{CommandEnd, Means, play_walled, run_walled};
pub use play::{keep_to_folders_of, play_here};
pub use told::{ToldExpectation, ToldFault};
pub use trial::Trial;
pub use worker::{INTERRUPTED, Inside, work};

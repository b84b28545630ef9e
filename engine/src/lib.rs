//! Bank shots computed: ball motion in closed form, cushion impacts, rail numbers, aiming rules,
//! and sweeps that compare the two.
//!
//! The floors, ground first; each imports only from those before it: [`units`], [`vector`] and the
//! bracketed `root` → [`equipment`] → [`motion`], [`impact`] → [`stroke`] → the stepped `compliant`
//! model → [`rail`] → [`rule`] → [`bank`], [`shot`] → [`sweep`]. Nothing here reads files, looks at a
//! clock, prints, or depends on the order in which threads run.

pub mod bank;
#[cfg(feature = "stepped")]
pub mod compliant;
pub mod equipment;
pub mod impact;
pub mod motion;
pub mod rail;
mod root;
pub mod rule;
pub mod shot;
pub mod stroke;
pub mod sweep;
pub mod units;
pub mod vector;

/// The version of this engine, kept with results since another version may give others.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

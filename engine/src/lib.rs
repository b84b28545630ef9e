//! Bank shots computed: ball motion in closed form, cushion impacts, rail numbers, aiming rules,
//! and sweeps that compare the two.
//!
//! The layers, ground first; each imports only from those before it: [`units`], [`vector`], the
//! bracketed `root` and [`sample`] → [`equipment`] → [`motion`], [`contact`], [`impact`] → [`stroke`]
//! → [`rail`] → [`rule`] → `world` → `shot` → `stepped` → [`bank`] → [`batch`] → `lay`, `verdict` and
//! `elevation` → `aim` → [`sweep`] → [`frontier`]; beside these, tables that nobody
//! knows exactly: [`ensemble`] → [`mod@column`] → [`practice`], [`evidence`] → [`track`], [`narrow`] → [`misfit`] →
//! [`ask`] → [`planning`] → [`missed`]; [`chance`] → `choice` → [`discover`], [`repeated`]. Nothing here reads files, looks at a clock,
//! prints, or depends on the order in which threads run.

#[cfg(feature = "world")]
pub mod aim;
pub mod ask;
pub mod attribution;
pub mod bank;
pub mod batch;
pub mod chance;
#[cfg(feature = "world")]
pub mod choice;
pub mod column;
pub mod contact;
pub mod discover;
#[cfg(feature = "world")]
pub mod elevation;
pub mod ensemble;
pub mod equipment;
pub mod evidence;
pub mod frontier;
pub mod impact;
#[cfg(feature = "world")]
pub mod lay;
pub mod misfit;
pub mod missed;
pub mod motion;
pub mod narrow;
mod normal;
pub mod planning;
pub mod practice;
pub mod rail;
pub mod repeated;
pub mod results;
mod root;
pub mod rule;
pub mod sample;
#[cfg(feature = "world")]
pub mod shot;
#[cfg(feature = "world")]
pub mod stepped;
pub mod stroke;
pub mod sweep;
pub mod track;
pub mod units;
pub mod vector;
#[cfg(feature = "world")]
pub mod verdict;
#[cfg(feature = "world")]
pub mod world;

/// The version of this engine, kept with results since another version may give others.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

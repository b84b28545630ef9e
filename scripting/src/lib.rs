//! Scripted bank-shot scenarios: the way in from files and scripts, and the way out to people.
//!
//! Its modules import one way, in the order of the table in `DEVELOPERS.md`, and so do the engine's: files
//! and readers first, then what is played and the words for it, pictures, results on the disk, scenarios,
//! and the commands last. A test reads every import and the table.

#![forbid(unsafe_code)]

pub mod answer;
pub mod baseline;
pub mod called;
pub mod cluster;
pub mod command;
pub mod discover_picture;
pub mod discovering;
pub mod exit;
pub mod fault;
mod fields;
pub mod files;
pub mod fit_picture;
pub mod fitting;
#[cfg(test)]
mod imports;
pub mod layout;
pub mod lua;
pub mod measured;
pub mod picture;
pub mod plan;
pub mod player;
pub mod playing;
pub mod profile;
pub mod record;
mod renamed;
pub mod report;
pub mod scenario;
pub mod shards;
pub mod shot_picture;
pub mod store;
pub mod telling;
pub mod walled;
pub mod walls;
pub mod whole_shots;
mod yaml;

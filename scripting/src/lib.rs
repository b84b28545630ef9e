//! Scripted bank-shot scenarios: the way in from files and scripts, and the way out to people.
//!
//! [`fault`] is the one error type of this edge and [`exit`] what the process ends with;
//! [`profile`] reads equipment and [`layout`] balls on a table, both from YAML;
//! [`caution`] says what to be careful of, beside answers and summaries of every kind;
//! [`picture`] draws maps, lines and tables, [`shot_picture`] fills the last from a played shot.

pub mod baseline;
pub mod caution;
pub mod cluster;
pub mod command;
pub mod exit;
pub mod fault;
pub mod layout;
pub mod lua;
mod ordinary;
pub mod picture;
pub mod plan;
pub mod profile;
pub mod reason;
pub mod record;
pub mod report;
pub mod scenario;
pub mod shards;
pub mod shot_picture;
pub mod store;
mod yaml;

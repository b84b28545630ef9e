//! A sweep handed to a cluster: its shards grouped into tasks, and the text that submits them.
//!
//! Nothing here plays banks or talks to a cluster; the text does when someone runs it.

mod grouping;
mod quote;
mod slurm;
#[cfg(test)]
mod tests;

pub use grouping::{Grouping, MOST_TASKS, Work};
pub use quote::quoted;
pub use slurm::{Jobs, extra_line};

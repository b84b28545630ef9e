//! The finding of a table of results in one short line: where along an axis everything holds, group by
//! group. It is computed from the results and claims nothing between or beyond them.

mod across;
mod counts;
mod groups;
mod rectangle;
mod stretch;
#[cfg(test)]
mod tests;

pub use counts::{FindingAcross, FindingAxis, FindingCount, FindingGroup};
pub use groups::finding;
pub use stretch::{sureness_once, without_sureness};

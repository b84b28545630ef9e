//! Tables on which the facts of common practice come true, for a person who measured nothing.
//!
//! A fact is said of a nine-foot table; none has a published source. Facts that chose the members are never
//! counted as checks of them.

mod fact;
mod members;
mod shares;

pub use fact::{FACTS, Fact};
pub use members::{PracticeMembers, practice_members};
pub use shares::FactShares;

//! Tables that nobody knows exactly: an ensemble of weighted members, each one table with one player.
//!
//! Members are points of a unit cube, one coordinate for each [`MemberNumber`], evenly spread before anything
//! is known. No banks are played here.

mod member;
mod number;
mod weights;

pub use member::{Habit, Member};
pub use number::{MemberNumber, Spread};
pub use weights::Ensemble;

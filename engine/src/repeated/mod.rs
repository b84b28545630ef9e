//! A person's spreads from banks that they sent again and again.
//!
//! Shots of one set-up come to places about a mean of their own, which the table decides and which nobody needs to
//! know. Their variance adds up what aim, speed and side each move a place ([`ShotGroup`]), so set-ups with other levers
//! tell the three apart; what they don't tell stays as that of the player one is said to be like. Constant errors are in
//! the mean, and a fit of the table finds them.

mod group;
mod spreads;

pub use group::{NotTold, ShotGroup, shot_groups};
pub use spreads::{OwnSpread, OwnSpreads};

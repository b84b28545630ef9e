//! A person's spreads from banks that they sent again and again.
//!
//! Shots of one line come to places about a mean of their own, which nobody needs to know. Their variance adds up what
//! aim, speed and side each move a place, so lines with other levers tell the three apart; what they don't tell stays as
//! that of the player one is said to be like. The levers are those of the tables that yours could be, since nobody knows
//! it exactly. Constant errors are in the mean, and a fit of the table finds them.

mod line;
mod places;
mod spreads;

pub use line::{NotTold, RepeatedLine, repeated_lines};
pub use places::LinePlaces;
pub use spreads::{OwnSpread, OwnSpreads};

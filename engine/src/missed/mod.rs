//! Why one bank missed: the odds of its causes, and the bank that tells them apart.
//!
//! A miss is a sum: the line itself, what this table and this player always add to it, and what this one shot
//! added. Each part is drawn from what is known of it, and the sums that come to the place that was seen are kept,
//! by the likelihood of the fit. The *main cause* of such a sum is the part that goes furthest in the direction of
//! the miss; its odds are the share of the kept sums in which it is the main one. Of the two likeliest, each member
//! has its own shares, and a bank that comes elsewhere by the one than by the other tells them apart (R. Fisher 1936, as
//! for two cushions in [`crate::planning`]).

mod apart;
mod cause;
mod kept;
mod odds;
mod parts;

pub use apart::{TellingBank, ToldApart};
pub use cause::{CauseOdds, MissCause};
pub use odds::{MissOdds, NoOdds};

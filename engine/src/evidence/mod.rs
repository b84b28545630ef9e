//! What was seen of a bank, and how likely a member makes it.
//!
//! A shot scatters: aim, speed, side, roll and the places of the ball and of the line differ from what was meant.
//! The place where it comes to then scatters about the member's own by a normal law whose variance adds up
//! those of the causes, each by its lever ([`Levers`]). Banks of which some shots rest before they come to a rail
//! are summed over the speed instead. A number is that place as it was read; a word is the
//! stretch of places for which it is said. A small share of all results is taken to be wrong altogether.

mod draws;
mod film_rail;
mod filmed;
mod films;
mod levers;
mod likelihood;
mod places;
mod scatter;
mod seen;
mod watched;

pub(crate) use draws::ShotDraws;
pub use filmed::{BeforeRail, FILMED_AMOUNTS, FilmedImpact};
pub use films::{FilmExpected, GROOVE_SD_M};
pub(crate) use levers::moves_of_members_m;
pub use levers::{Levers, mean_variances_m2};
pub use likelihood::{Evidence, LIKELY_SLIP, ReadNumber};
pub use scatter::Scatter;
pub use seen::{MeasuredBank, Seen};
pub use watched::{MadeUpTable, Watching};

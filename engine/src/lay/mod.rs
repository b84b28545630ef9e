//! Where balls lie, told as people tell it, resolved to points: by coordinates, by rail numbers, on a
//! line, between two places, behind another ball. What the balls then do is not known here.
//!
//! A ball that is said to be frozen lies on the groove exactly, and one that is said to touch another
//! stands at the distance of touching balls, not a bit nearer.

mod error;
mod place;
mod resolve;
mod settle;
mod spot;
#[cfg(test)]
mod tests;

pub use error::LayError;
pub use resolve::{angle_rad, direction, lay, place};
pub use settle::FORGIVEN_M;
pub use spot::{Heading, LaidBall, LineSpot, Spot};

//! The verdict on a ball that was meant for a pocket: the way it went in, or the side on which it missed,
//! with the room to spare. Nothing here changes a shot; it reads one.

mod arrival;
mod judge;
mod numbers;
mod separation;

pub use arrival::{PocketArrival, arrival, arrival_of, rails_before};
pub use judge::{Miss, PocketVerdict, ShotVerdict, Target, verdict};
pub use numbers::{RailNumber, number_along, number_beside, numbers};
pub use separation::{Separation, closest};

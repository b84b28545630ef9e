//! One bank: conditions in, outcome out, and the questions that run it backwards.

mod arrival;
mod as_it_lies;
#[cfg(feature = "world")]
mod compliant;
mod departure;
mod edge;
mod error;
mod holding_speeds;
mod inverse;
mod lag;
mod launch;
mod launch_of;
mod outcome;
mod play;
mod table;

pub(crate) use arrival::miss_on_way;
pub use as_it_lies::line_as_it_lies;
pub use error::BankError;
pub use holding_speeds::{
    HoldingInterval, HoldingSpeeds, MostRoom, SEARCHED_SPEEDS_M_S, holding_speeds,
};
pub use inverse::{AimMargin, NoAnswer, aim_margin, exact_start, holding_starts};
pub use lag::{most_lengths, speed_on};
pub use launch::{Launch, LaunchError};
pub use outcome::{Arrival, AtRail, BankEnding, BankVerdict, Direction, Outcome, RailRebound};
pub use table::Bank;

#[cfg(test)]
mod tests;

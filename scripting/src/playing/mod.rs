//! Banks and layouts that are asked for one at a time, played, with all that surrounds the outcome.
//! Words and JSON are made from these elsewhere.

mod bank;
mod chance;
mod choice;
mod question;
mod remedy;
mod shot;
mod shot_chance;
mod stepped;

pub use bank::BankFindings;
pub use chance::BankChance;
pub use choice::{ChoiceAsked, ChoiceFindings};
pub use question::BankQuestion;
pub use remedy::{
    CombinedChange, GearingSide, HitChange, HitSide, Remedy, SpeedChange, WrittenAim,
};
pub use shot::{PlayedShot, shot_outcome, shot_result};
pub use shot_chance::ShotChance;
pub use stepped::SteppedPlay;

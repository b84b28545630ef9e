//! Banks and layouts that are asked for one at a time, played, with all that surrounds the outcome.
//! Words and JSON are made from these elsewhere.

/// The speeds that are advised beside a miss, m/s. Chosen: from the softest that people play to less than a hard hit,
/// which nobody is to be sent to.
pub(crate) const ADVISED_M_S: (f64, f64) = (0.5, 5.0);

mod bank;
mod chance;
mod choice;
mod question;
mod remedy;
mod shot;
mod shot_chance;
mod spot;
mod start_table;
mod stepped;
mod way_out;

pub use bank::{Afterwards, BankFindings, HARD_M_S, HARDEST_M_S, KnownAdvice};
pub use chance::BankChance;
pub use choice::{BallsAtRest, ChoiceAsked, ChoiceFindings};
pub use question::BankQuestion;
pub use remedy::{
    CombinedChange, GearingSide, HitChange, HitSide, NeededStart, Remedy, SpeedChange, WrittenAim,
};
pub use shot::{PlayedShot, shot_outcome, shot_result};
pub use shot_chance::ShotChance;
pub use spot::{SpotFindings, SpotQuestion};
pub use start_table::{StartTable, TabledStart};
pub use stepped::SteppedPlay;
pub use way_out::{FittingSlope, NearestBank};

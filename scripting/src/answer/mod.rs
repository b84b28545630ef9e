//! Answers as JSON for other programs: SI units named in the keys, one vocabulary with every other
//! file. Keys are joined by underscores, values by hyphens.

mod bank;
mod choice;
mod corrected;
mod discovered;
mod event;
mod known;
mod measures;
mod missed;
mod model;
mod player;
mod reason;
mod shot;
mod spot;
mod stepped;
mod table;
mod tally;
mod track;

pub use bank::BankAnswer;
pub use choice::ChoiceAnswer;
pub use corrected::CorrectedAnswer;
pub use discovered::{DiscoveredAnswer, front_table};
pub use missed::MissAnswer;
pub use player::ShotPlayerAnswer;
pub use shot::ShotAnswer;
pub use spot::SpotAnswer;
pub use stepped::SteppedAnswer;
pub use table::AnswerTable;
pub use tally::{bank_tally, shot_tally};
pub use track::TrackAnswer;

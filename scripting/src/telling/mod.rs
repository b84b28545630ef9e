//! The outcome of a bank or a shot, in words: the sentences that commands, scripts and pictures show.

pub mod amounts;
mod asked_units;
mod axis_text;
mod bank;
pub mod caution;
mod conditions;
mod counts;
pub mod edge;
mod finding;
mod frontier;
mod input_format;
mod miss;
mod models;
mod moments;
mod outcome;
pub mod reason;
mod selection;
mod shot;
mod speeds;
mod stepped;
mod sweep;
mod wording;

pub use asked_units::AskedUnits;
pub use axis_text::{AxisText, listed, short_ticks};
pub use bank::{bank_advice, bank_readings, bank_sentences, speeds_side_by_side};
pub use conditions::shot_conditions;
pub use counts::{less_sure, outcome_counts, shot_counts};
pub use finding::{FindingAxis, FindingCount, FindingGroup, finding};
pub use frontier::FrontierTelling;
pub use input_format::InputFormat;
pub use miss::NO_REMEDY;
pub use models::{model_about, models_of};
pub use outcome::{bank_outcome, shot_outcome};
pub use selection::SelectedBanks;
pub use sweep::{sweep_conditions, things_played};
pub use wording::{capital, count, degrees, grouped_count, miss, phrase, share_of};

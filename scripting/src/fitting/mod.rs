//! A table's ensemble: narrowed by measured banks, kept as a file, read again; a player by their own repeated banks.

mod asked;
mod ensemble_file;
mod findings;
mod kept_shares;
mod measured_table;
mod missed;
mod next;
mod number_text;
mod own_player;
mod rail_models;

pub use ensemble_file::{FEWEST_MEMBERS, read_table, table_text};
pub use findings::{FitFindings, FitQuestion, NumberFindings, PredictedBank, TableFindings};
pub use kept_shares::KeptShares;
pub use measured_table::{MeasuredTable, TableOrigin, nine_foot};
pub use missed::MissFindings;
pub use next::{NextBanks, NextPurpose, TwoCushions};
pub use number_text::NumberUnit;
pub use own_player::OwnPlayer;
pub use rail_models::{RailModelFit, rail_models};

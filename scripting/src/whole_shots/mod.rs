//! Whole shots over axes: each point of a plan played to the row that files, scripts and maps read.

mod player;
mod row;

pub use player::ShotPlayer;
pub use row::ShotRow;

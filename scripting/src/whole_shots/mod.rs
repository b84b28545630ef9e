//! Whole shots over axes: each point of a plan played to the row that files, scripts and maps read.

mod maker;
mod player;
mod row;

pub use maker::ShotMaker;
pub use player::ShotPlayer;
pub use row::ShotRow;

//! Pictures of results: which values go where, and the words around them.

mod axes;
pub mod band;
pub mod banks;
pub mod chances;
pub mod difference;
pub mod fit;
pub mod frontier;
pub mod lines;
pub mod look;
pub mod map;
mod room;
pub mod rule_ways;
pub mod shares;
pub mod stand_ins;
pub mod starts;
mod tables;
mod usual;

pub use axes::PictureAxes;
use tables::tables;

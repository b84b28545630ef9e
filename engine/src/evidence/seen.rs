//! A measured bank.

use super::Scatter;
use crate::column::SetUp;

/// A bank that was played and watched.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredBank {
    /// As it was meant.
    pub set_up: SetUp,
    /// As it was seen.
    pub seen: Seen,
    /// The scatter of such shots.
    pub scatter: Scatter,
    /// The number of times that the same was seen.
    pub repeats: u32,
}

/// The result of a bank, as a person sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Seen {
    /// It dropped without touching a point of the mouth.
    Holds,
    /// It touched a point of the mouth.
    Touches,
    /// It passed the pocket on the far side.
    Long,
    /// It came before the pocket.
    Short,
    /// It rested before it came to a rail beside the pocket.
    Stops,
    /// It met a rail here, along the unrolled rails; never said of a ball that dropped.
    At {
        /// Where, m.
        along_m: f64,
        /// The standard deviation of reading it, m.
        read_to_m: f64,
    },
}

impl Seen {
    /// The share, or the density per metre, of a result that is wrong altogether.
    pub(crate) const fn by_chance(self) -> f64 {
        match self {
            Self::At { .. } => 1.0 / UNROLLED_M,
            _ => 1.0 / WORDS,
        }
    }
}

/// A wrong number may stand anywhere along some four metres of rail.
const UNROLLED_M: f64 = 4.0;
/// A wrong word may be any of five.
const WORDS: f64 = 5.0;

//! Ways from the rail, as they are known while a block is played.

use super::lane::{BLOCK, Column, Mask};

/// The thing met, as a code for each bank.
pub(super) type MetCodes = [u8; BLOCK];
/// Nothing.
pub(super) const NONE: u8 = 0;

/// Ways from the rail of a block.
pub(super) struct LaneWays {
    /// Up to when a side may be met: the mouth line, or rest.
    pub(super) until_s: Column,
    /// The thing met before, where only one side comes into question.
    pub(super) met: MetCodes,
    /// Sides in question where there are more, one bit each.
    pub(super) sides: [u8; BLOCK],
    /// No component of its velocity changes sign before.
    pub(super) steady: Mask,
    /// It comes to the mouth line, extended past any side.
    pub(super) arrives: Mask,
    /// It crosses the mouth line between the mouth points.
    pub(super) between: Mask,
    pub(super) departure_m: Column,
    /// Since it met the rail, s.
    pub(super) time_s: Column,
    pub(super) speed_m_s: Column,
    pub(super) miss_m: Column,
    pub(super) clearance_long_m: Column,
    pub(super) clearance_short_m: Column,
}

impl LaneWays {
    pub(super) const NONE: Self = Self {
        until_s: [0.0; BLOCK],
        met: [NONE; BLOCK],
        sides: [0; BLOCK],
        steady: [false; BLOCK],
        arrives: [false; BLOCK],
        between: [false; BLOCK],
        departure_m: [0.0; BLOCK],
        time_s: [0.0; BLOCK],
        speed_m_s: [0.0; BLOCK],
        miss_m: [0.0; BLOCK],
        clearance_long_m: [0.0; BLOCK],
        clearance_short_m: [0.0; BLOCK],
    };
}

//! The way in which a ball was sent.

use crate::fields::Worded;
use railproof_engine::evidence::Scatter;

/// The way in which the object ball was sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sent {
    /// With the tip on it.
    Tip,
    /// By the cue ball full behind it.
    Full,
    /// By the cue ball at an angle.
    Cut,
}

impl Worded for Sent {
    const ALL: &'static [Self] = &[Self::Tip, Self::Full, Self::Cut];

    fn word(self) -> &'static str {
        match self {
            Self::Tip => "tip",
            Self::Full => "full",
            Self::Cut => "cut",
        }
    }
}

impl Sent {
    /// A careful person's scatter; a cue ball that is hit full brings some roll, a cut brings side. Chosen, no
    /// source.
    pub const fn scatter(self) -> Scatter {
        match self {
            Self::Tip => Scatter::CAREFUL,
            Self::Full => Scatter { roll: 0.1, ..Scatter::CAREFUL },
            Self::Cut => Scatter { aim_rad: 0.006, side: 0.06, roll: 0.1, ..Scatter::CAREFUL },
        }
    }
}

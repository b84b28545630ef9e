//! The four rails and six pockets of a table.
//!
//! Seen from the middle of the head rail looking to the foot (along +x), left is +y.

use serde::{Deserialize, Serialize};

/// A rail of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rail {
    /// The end rail at −x.
    Head,
    /// The end rail at +x.
    Foot,
    /// The long rail at +y.
    Left,
    /// The long rail at −y.
    Right,
}

/// A pocket of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pocket {
    /// Corner at (−x, +y).
    HeadLeft,
    /// Corner at (−x, −y).
    HeadRight,
    /// Corner at (+x, +y).
    FootLeft,
    /// Corner at (+x, −y).
    FootRight,
    /// Side pocket at +y.
    SideLeft,
    /// Side pocket at −y.
    SideRight,
}

impl Rail {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Head, Self::Foot, Self::Left, Self::Right];

    /// The name used in scripts and on the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Head => "head",
            Self::Foot => "foot",
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// True for the two short rails.
    pub const fn is_end(self) -> bool {
        matches!(self, Self::Head | Self::Foot)
    }
}

impl Pocket {
    /// All six.
    pub const ALL: [Self; 6] = [
        Self::HeadLeft,
        Self::HeadRight,
        Self::FootLeft,
        Self::FootRight,
        Self::SideLeft,
        Self::SideRight,
    ];

    /// The name used in scripts and on the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::HeadLeft => "head-left",
            Self::HeadRight => "head-right",
            Self::FootLeft => "foot-left",
            Self::FootRight => "foot-right",
            Self::SideLeft => "side-left",
            Self::SideRight => "side-right",
        }
    }

    /// True for the two side pockets.
    pub const fn is_side(self) -> bool {
        matches!(self, Self::SideLeft | Self::SideRight)
    }

    /// Signs of the pocket's place, (x, y); a side pocket has x = 0.
    pub const fn signs(self) -> (f64, f64) {
        match self {
            Self::HeadLeft => (-1.0, 1.0),
            Self::HeadRight => (-1.0, -1.0),
            Self::FootLeft => (1.0, 1.0),
            Self::FootRight => (1.0, -1.0),
            Self::SideLeft => (0.0, 1.0),
            Self::SideRight => (0.0, -1.0),
        }
    }
}

//! The four rails and six pockets of a table.
//!
//! Seen from the middle of the head rail looking to the foot (along +x), left is +y.

use serde::{Deserialize, Serialize};

/// A rail of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
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

    /// The pocket at the other end of the same long rail; a side pocket is its own.
    #[must_use]
    pub const fn mirrored_along(self) -> Self {
        match self {
            Self::HeadLeft => Self::FootLeft,
            Self::HeadRight => Self::FootRight,
            Self::FootLeft => Self::HeadLeft,
            Self::FootRight => Self::HeadRight,
            Self::SideLeft | Self::SideRight => self,
        }
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

/// A rail by kind or by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RailChoice {
    /// A long rail, whichever is across from the pocket.
    Long,
    /// An end rail, whichever is across from the pocket.
    End,
    /// The head rail.
    Head,
    /// The foot rail.
    Foot,
    /// The left rail.
    Left,
    /// The right rail.
    Right,
}

/// A pocket by kind or by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PocketChoice {
    /// A corner across from the rail.
    Corner,
    /// A side pocket across from the rail.
    Side,
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

impl RailChoice {
    /// All choices.
    pub const ALL: [Self; 6] =
        [Self::Long, Self::End, Self::Head, Self::Foot, Self::Left, Self::Right];

    /// The name used in scripts and on the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Long => "long",
            Self::End => "end",
            Self::Head => Rail::Head.name(),
            Self::Foot => Rail::Foot.name(),
            Self::Left => Rail::Left.name(),
            Self::Right => Rail::Right.name(),
        }
    }

    /// The rail itself, when the pocket decides what its kind leaves open. Mirror images play
    /// alike to the bit, so any rail of the kind across from the pocket serves.
    pub fn facing(self, pocket: PocketChoice) -> Rail {
        match (self, pocket) {
            (Self::Head, _) => Rail::Head,
            (Self::Foot, _) => Rail::Foot,
            (Self::Left, _) => Rail::Left,
            (Self::Right, _) => Rail::Right,
            (Self::End, PocketChoice::FootLeft | PocketChoice::FootRight) => Rail::Head,
            (Self::End, _) => Rail::Foot,
            (
                Self::Long,
                PocketChoice::HeadLeft | PocketChoice::FootLeft | PocketChoice::SideLeft,
            ) => Rail::Right,
            (Self::Long, _) => Rail::Left,
        }
    }
}

impl PocketChoice {
    /// All choices.
    pub const ALL: [Self; 8] = [
        Self::Corner,
        Self::Side,
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
            Self::Corner => "corner",
            Self::Side => "side",
            Self::HeadLeft => Pocket::HeadLeft.name(),
            Self::HeadRight => Pocket::HeadRight.name(),
            Self::FootLeft => Pocket::FootLeft.name(),
            Self::FootRight => Pocket::FootRight.name(),
            Self::SideLeft => Pocket::SideLeft.name(),
            Self::SideRight => Pocket::SideRight.name(),
        }
    }

    /// The pocket itself: of a kind, one across from `rail`.
    pub const fn across_from(self, rail: Rail) -> Pocket {
        match (self, rail) {
            (Self::HeadLeft, _) => Pocket::HeadLeft,
            (Self::FootLeft, _) | (Self::Corner, Rail::Right) => Pocket::FootLeft,
            (Self::FootRight, _) | (Self::Corner, Rail::Left | Rail::Head) => Pocket::FootRight,
            (Self::HeadRight, _) | (Self::Corner, Rail::Foot) => Pocket::HeadRight,
            (Self::SideLeft, _) | (Self::Side, Rail::Right) => Pocket::SideLeft,
            (Self::SideRight | Self::Side, _) => Pocket::SideRight,
        }
    }
}

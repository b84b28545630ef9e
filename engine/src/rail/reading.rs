//! The two ways of reading a rail number.

use serde::{Deserialize, Serialize};

/// The reading of a rail number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reading {
    /// Where the ball's centre is when it touches the cushion.
    #[default]
    Groove,
    /// Where the line of travel, extended, crosses the line of sights.
    Sight,
}

impl Reading {
    /// The name used in scripts and on the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Groove => "groove",
            Self::Sight => "sight",
        }
    }
}

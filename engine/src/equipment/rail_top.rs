//! The rails' upper edge, over which a cue passes.

use super::Parameter;
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// Where the rails are highest. From the nose a cushion rises to there; behind it the rail is level.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RailTop {
    /// Height over the cloth, m; a rail that is said to be lower than its nose is as high as the nose.
    pub height_m: f64,
    /// Distance behind the nose, m.
    pub setback_m: f64,
}

impl RailTop {
    /// 1 11/16 in over the cloth, 2 in behind the nose: common trade sizes, from memory.
    pub const USUAL: Self = Self { height_m: 1.6875 * 0.0254, setback_m: 2.0 * 0.0254 };

    /// Accepted heights.
    pub const HEIGHT: Parameter =
        Parameter::new("rail_height", Dimension::Length, 20.0, 120.0, "mm");
    /// Accepted distances behind the nose.
    pub const SETBACK: Parameter =
        Parameter::new("rail_setback", Dimension::Length, 0.0, 200.0, "mm");

    pub(super) fn usual() -> Self {
        Self::USUAL
    }
}

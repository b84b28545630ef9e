//! The cloth.

use super::Parameter;
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// The cloth's resistance to a ball that slides, rolls or spins on the spot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cloth {
    /// Sliding friction μs.
    pub sliding_friction: f64,
    /// Rolling resistance μr: rolling deceleration over gravity.
    pub rolling_resistance: f64,
    /// Rate at which spin about the vertical decays, rad/s².
    pub pivot_deceleration_rad_s2: f64,
}

impl Cloth {
    /// Accepted sliding friction.
    pub const SLIDING_FRICTION: Parameter =
        Parameter::new("sliding_friction", Dimension::Ratio, 0.0, 0.5, "");
    /// Accepted rolling resistance.
    pub const ROLLING_RESISTANCE: Parameter =
        Parameter::new("rolling_resistance", Dimension::Ratio, 0.0, 0.2, "");
    /// Accepted pivot deceleration.
    pub const PIVOT_DECELERATION: Parameter =
        Parameter::new("pivot_deceleration", Dimension::SpinDeceleration, 0.0, 500.0, "rad/s^2");
}

//! The cue.

use super::Parameter;
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// The stick that plays the cue ball.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cue {
    /// Effective mass of the shaft's end, kg, that the tip has to push aside (Shepard 2001).
    pub end_mass_kg: f64,
    /// Where the tip slips off, as a share of the ball's radius from the centre.
    pub miscue_offset: f64,
    /// Its size, which decides the room it needs.
    #[serde(default = "CueShape::usual")]
    pub shape: CueShape,
}

/// A cue as a cone cut off at the tip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CueShape {
    /// Diameter at the tip, m.
    pub tip_diameter_m: f64,
    /// Diameter at the butt, m.
    pub butt_diameter_m: f64,
    /// Length, m.
    pub length_m: f64,
}

impl Cue {
    /// An end of 8.5 g, a twentieth of a common ball, and a miscue beyond half the radius (common
    /// practice, no source).
    pub const USUAL: Self =
        Self { end_mass_kg: 0.0085, miscue_offset: 0.5, shape: CueShape::USUAL };

    /// Accepted end masses. 0 is a shaft without squirt.
    pub const END_MASS: Parameter = Parameter::new("end_mass", Dimension::Mass, 0.0, 100.0, "g");
    /// Accepted miscue offsets.
    pub const MISCUE_OFFSET: Parameter =
        Parameter::new("miscue_offset", Dimension::Ratio, 0.1, 1.0, "");
}

impl CueShape {
    /// A tip of 13 mm (WPA equipment specifications, from memory: at most 14 mm), a butt of 30 mm, 58 in
    /// long (trade sizes; common practice, no source).
    pub const USUAL: Self = Self { tip_diameter_m: 0.013, butt_diameter_m: 0.03, length_m: 1.4732 };

    /// Accepted diameters of the tip.
    pub const TIP_DIAMETER: Parameter =
        Parameter::new("tip_diameter", Dimension::Length, 5.0, 20.0, "mm");
    /// Accepted diameters of the butt.
    pub const BUTT_DIAMETER: Parameter =
        Parameter::new("butt_diameter", Dimension::Length, 5.0, 60.0, "mm");
    /// Accepted lengths.
    pub const LENGTH: Parameter = Parameter::new("cue_length", Dimension::Length, 0.5, 2.5, "m");

    fn usual() -> Self {
        Self::USUAL
    }
}

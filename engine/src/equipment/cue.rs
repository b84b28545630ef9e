//! The cue.

use super::{OutOfRange, Parameter};
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// The stick that plays the cue ball.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cue {
    /// Effective mass of the shaft's end, kg: what the tip has to push aside (Shepard 2001).
    pub end_mass_kg: f64,
    /// Where the tip slips off, as a share of the ball's radius from the centre.
    pub miscue_offset: f64,
}

impl Cue {
    /// An end of 8.5 g, a twentieth of a common ball, and a miscue beyond half the radius (common
    /// practice, no source).
    pub const USUAL: Self = Self { end_mass_kg: 0.0085, miscue_offset: 0.5 };

    /// Accepted end masses. 0 is a shaft without squirt.
    pub const END_MASS: Parameter = Parameter::new("end_mass", Dimension::Mass, 0.0, 100.0, "g");
    /// Accepted miscue offsets.
    pub const MISCUE_OFFSET: Parameter =
        Parameter::new("miscue_offset", Dimension::Ratio, 0.1, 1.0, "");

    pub(super) fn validated(&self) -> Result<(), OutOfRange> {
        Self::END_MASS.check(self.end_mass_kg)?;
        Self::MISCUE_OFFSET.check(self.miscue_offset)?;
        Ok(())
    }
}

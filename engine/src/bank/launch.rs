//! The start of the object ball.

use crate::equipment::{OutOfRange, Parameter};
use crate::units::INCH_M;
use crate::units::{Dimension, NO_SUCH_LAG};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Speed, spin and place of the object ball when it is sent along its line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Launch {
    /// Distance off the rail, square to it, centre to groove, m; 0 is frozen.
    pub off_rail_m: f64,
    /// Speed, m/s.
    pub speed_m_s: f64,
    /// Fraction of natural roll: 0 is stun, 1 rolls, negative is draw.
    pub roll: f64,
    /// Side spin as R·wz/v; positive is running side, negative reverse.
    pub side: f64,
    /// Error of the aim about the ball's place, rad; positive turns the line further along the
    /// rail (towards the pocket's end).
    pub aim_error_rad: f64,
}

/// Why a launch is refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LaunchError {
    /// A number outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// An infinite speed, which is that of a lag.
    #[error("{NO_SUCH_LAG}")]
    NoSuchLag,
    /// Further off the rail than the table is wide.
    #[error("{off_in:.1} in ({off_rail_m:.3} m) off the rail is not on the table: groove to groove is {span_in:.1} in ({span_m:.3} m)",
        off_in = off_rail_m / INCH_M, span_in = span_m / INCH_M)]
    OffTable {
        /// The distance asked for, m.
        off_rail_m: f64,
        /// Groove to groove, m.
        span_m: f64,
    },
}

impl Launch {
    /// Accepted distances off the rail; the table's own span bounds them too.
    pub const OFF_RAIL: Parameter = Parameter::new("off_rail", Dimension::Length, 0.0, 4.0, "m");
    /// Accepted speeds.
    pub const SPEED: Parameter = Parameter::new("speed", Dimension::Speed, 0.01, 20.0, "m/s");
    /// Accepted fractions of natural roll.
    pub const ROLL: Parameter = Parameter::new("roll", Dimension::Ratio, -3.0, 3.0, "");
    /// Accepted side spins.
    pub const RUNNING_SIDE: Parameter =
        Parameter::new("running_side", Dimension::Ratio, -3.0, 3.0, "");
    /// Accepted aim errors.
    pub const AIM_ERROR: Parameter =
        Parameter::new("aim_error", Dimension::Angle, -300.0, 300.0, "mrad");

    /// A stun ball frozen to the rail.
    pub const fn frozen_stun(speed_m_s: f64) -> Self {
        Self { off_rail_m: 0.0, speed_m_s, roll: 0.0, side: 0.0, aim_error_rad: 0.0 }
    }

    /// Checks every number.
    ///
    /// # Errors
    /// [`LaunchError`] for the first number that is not finite or outside its range.
    pub fn validated(self, span_m: f64) -> Result<Self, LaunchError> {
        Self::OFF_RAIL.check(self.off_rail_m)?;
        if self.speed_m_s == f64::INFINITY {
            return Err(LaunchError::NoSuchLag);
        }
        Self::SPEED.check(self.speed_m_s)?;
        Self::ROLL.check(self.roll)?;
        Self::RUNNING_SIDE.check(self.side)?;
        Self::AIM_ERROR.check(self.aim_error_rad)?;
        if self.off_rail_m > span_m {
            return Err(LaunchError::OffTable { off_rail_m: self.off_rail_m, span_m });
        }
        Ok(self)
    }
}

//! How balls give back speed to each other, and how they grip.

use super::{OutOfRange, Parameter};
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// The contact of two balls.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BallContact {
    /// Restitution along the line of centres, Newton's ratio.
    pub restitution: f64,
    /// Friction at a slip of 0.1 m/s and less.
    pub friction_at_0_1: f64,
    /// Friction at a slip of 1 m/s.
    pub friction_at_1: f64,
    /// Friction at a slip of 10 m/s and more.
    pub friction_at_10: f64,
}

impl BallContact {
    /// Friction 0.11, 0.06 and 0.01 at 0.1, 1 and 10 m/s (Marlow 1995, *The Physics of Pocket
    /// Billiards*, from memory) and restitution 0.94 (common practice, no source).
    pub const USUAL: Self = Self {
        restitution: 0.94,
        friction_at_0_1: 0.11,
        friction_at_1: 0.06,
        friction_at_10: 0.01,
    };

    /// Accepted restitution.
    pub const RESTITUTION: Parameter =
        Parameter::new("restitution", Dimension::Ratio, 0.0, 1.0, "");
    /// Accepted friction at 0.1 m/s.
    pub const FRICTION_AT_0_1: Parameter =
        Parameter::new("friction_at_0_1", Dimension::Ratio, 0.0, 0.5, "");
    /// Accepted friction at 1 m/s.
    pub const FRICTION_AT_1: Parameter =
        Parameter::new("friction_at_1", Dimension::Ratio, 0.0, 0.5, "");
    /// Accepted friction at 10 m/s.
    pub const FRICTION_AT_10: Parameter =
        Parameter::new("friction_at_10", Dimension::Ratio, 0.0, 0.5, "");

    /// Friction at a slip, linear in the logarithm of the slip between the three given values and
    /// constant outside them.
    pub fn friction_at(&self, slip_speed_m_s: f64) -> f64 {
        let [low, middle, high] = [self.friction_at_0_1, self.friction_at_1, self.friction_at_10];
        if slip_speed_m_s <= 0.1 {
            low
        } else if slip_speed_m_s >= 10.0 {
            high
        } else if slip_speed_m_s < 1.0 {
            if low == middle {
                middle
            } else {
                middle + (middle - low) * libm::log10(slip_speed_m_s)
            }
        } else if middle == high {
            middle
        } else {
            middle + (high - middle) * libm::log10(slip_speed_m_s)
        }
    }

    pub(super) fn validated(&self) -> Result<(), OutOfRange> {
        Self::RESTITUTION.check(self.restitution)?;
        Self::FRICTION_AT_0_1.check(self.friction_at_0_1)?;
        Self::FRICTION_AT_1.check(self.friction_at_1)?;
        Self::FRICTION_AT_10.check(self.friction_at_10)?;
        Ok(())
    }
}

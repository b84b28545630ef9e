//! Restitution and friction between balls.

use super::Parameter;
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// The law by which friction between balls falls with the speed at which their surfaces slip.
///
/// Both laws go through the same few measurements and part where there is none: at 2 to 5 m/s of slip
/// the first gives two times as much and more. Nobody here knows which is right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FrictionLaw {
    /// Linear in the logarithm of the slip between the values at 0.1, 1 and 10 m/s, constant outside.
    #[default]
    LogLinear,
    /// a + b·e^(−c·slip).
    Exponential,
}

impl FrictionLaw {
    /// Both laws, the default first.
    pub const ALL: [Self; 2] = [Self::LogLinear, Self::Exponential];

    /// The name used in profiles, scripts and on the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::LogLinear => "log-linear",
            Self::Exponential => "exponential",
        }
    }

    /// The other law.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::LogLinear => Self::Exponential,
            Self::Exponential => Self::LogLinear,
        }
    }
}

/// The contact of two balls.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BallContact {
    /// Restitution along the line of centres, Newton's ratio.
    pub restitution: f64,
    /// Which of the laws below holds.
    pub friction_law: FrictionLaw,
    /// Log-linear law: friction at a slip of 0.1 m/s and less.
    pub friction_at_0_1: f64,
    /// Log-linear law: friction at a slip of 1 m/s.
    pub friction_at_1: f64,
    /// Log-linear law: friction at a slip of 10 m/s and more.
    pub friction_at_10: f64,
    /// Exponential law: friction at high slip, a.
    pub friction_far: f64,
    /// Exponential law: friction at vanishing slip above that, b.
    pub friction_rise: f64,
    /// Exponential law: rate at which that falls with slip, c, s/m.
    pub friction_fall_s_m: f64,
}

impl BallContact {
    /// Restitution 0.94 (common practice, no source) and the log-linear law. Its values 0.11, 0.06 and
    /// 0.01 at 0.1, 1 and 10 m/s are from Marlow 1995, *The Physics of Pocket Billiards*, from memory;
    /// the exponential law's 0.00995, 0.108 and 1.088 s/m go through the same data, and are from
    /// memory.
    pub const USUAL: Self = Self {
        restitution: 0.94,
        friction_law: FrictionLaw::LogLinear,
        friction_at_0_1: 0.11,
        friction_at_1: 0.06,
        friction_at_10: 0.01,
        friction_far: 0.00995,
        friction_rise: 0.108,
        friction_fall_s_m: 1.088,
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
    /// Accepted friction at high slip.
    pub const FRICTION_FAR: Parameter =
        Parameter::new("friction_far", Dimension::Ratio, 0.0, 0.5, "");
    /// Accepted rise above it.
    pub const FRICTION_RISE: Parameter =
        Parameter::new("friction_rise", Dimension::Ratio, 0.0, 0.5, "");
    /// Accepted falls with slip.
    pub const FRICTION_FALL: Parameter =
        Parameter::new("friction_fall", Dimension::PerSpeed, 0.0, 20.0, "s/m");

    /// One friction at every slip, whichever the law.
    pub const fn constant(restitution: f64, friction: f64) -> Self {
        Self {
            restitution,
            friction_at_0_1: friction,
            friction_at_1: friction,
            friction_at_10: friction,
            friction_far: friction,
            friction_rise: 0.0,
            ..Self::USUAL
        }
    }

    /// The same balls under a law.
    #[must_use]
    pub const fn under(self, friction_law: FrictionLaw) -> Self {
        Self { friction_law, ..self }
    }

    /// Friction at a slip, m/s, by the law that holds.
    pub fn friction_at(&self, slip_speed_m_s: f64) -> f64 {
        match self.friction_law {
            FrictionLaw::LogLinear => self.log_linear(slip_speed_m_s),
            FrictionLaw::Exponential => {
                self.friction_far
                    + self.friction_rise * libm::exp(-self.friction_fall_s_m * slip_speed_m_s)
            }
        }
    }

    /// The friction of every slip, where it is the same.
    pub(crate) fn same_friction(&self) -> Option<f64> {
        let same = match self.friction_law {
            FrictionLaw::LogLinear => {
                self.friction_at_0_1 == self.friction_at_1
                    && self.friction_at_1 == self.friction_at_10
            }
            FrictionLaw::Exponential => self.friction_rise == 0.0 || self.friction_fall_s_m == 0.0,
        };
        same.then(|| self.friction_at(1.0))
    }

    fn log_linear(&self, slip_speed_m_s: f64) -> f64 {
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
}

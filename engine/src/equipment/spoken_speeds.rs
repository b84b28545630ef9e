//! The speeds that players call soft, medium and firm.

use super::Parameter;
use crate::units::{Dimension, SpeedWord};
use serde::{Deserialize, Serialize};

/// The speed that each word stands for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpokenSpeeds {
    /// Soft, m/s.
    pub soft_m_s: f64,
    /// Medium, m/s.
    pub medium_m_s: f64,
    /// Firm, m/s.
    pub firm_m_s: f64,
}

impl SpokenSpeeds {
    /// Common practice, no source: people differ.
    pub const USUAL: Self = Self { soft_m_s: 1.5, medium_m_s: 3.0, firm_m_s: 4.5 };

    /// Accepted soft speeds.
    pub const SOFT: Parameter = Parameter::new("soft", Dimension::Speed, 0.01, 20.0, "m/s");
    /// Accepted medium speeds.
    pub const MEDIUM: Parameter = Parameter::new("medium", Dimension::Speed, 0.01, 20.0, "m/s");
    /// Accepted firm speeds.
    pub const FIRM: Parameter = Parameter::new("firm", Dimension::Speed, 0.01, 20.0, "m/s");

    pub(super) fn usual() -> Self {
        Self::USUAL
    }

    /// The speed for a word, m/s.
    pub const fn m_s(&self, word: SpeedWord) -> f64 {
        match word {
            SpeedWord::Soft => self.soft_m_s,
            SpeedWord::Medium => self.medium_m_s,
            SpeedWord::Firm => self.firm_m_s,
        }
    }

    /// Two words of which the first is to be softer and is faster.
    pub fn turned_round(&self) -> Option<[SpeedWord; 2]> {
        let [soft, medium, firm] = SpeedWord::ALL;
        let pairs = [[soft, firm], [soft, medium], [medium, firm]];
        pairs.into_iter().find(|[one, other]| self.m_s(*one) > self.m_s(*other))
    }
}

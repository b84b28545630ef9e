//! The one point through which all lines of a linear rule pass.

use super::{Rule, RuleError};
use crate::rail::{BankGeometry, Reading};

/// A point behind the rail that is banked off: whoever aims every ball at it plays one linear rule.
///
/// The line from start s through contact c goes on behind the contact groove; a distance h behind it has moved on
/// from c by (c − s)·h/W (W: groove to groove). With s = slope·c + offset that place is the same for every c where
/// h = W/(slope − 1), and it is then −offset·h/W: on the zero line for a rule without an offset. A line that is
/// shifted by δ at its contact still passes there only if it is shifted by slope·δ at its start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AimSpot {
    /// From the contact groove, square to the rail and away from the table, m.
    pub behind_m: f64,
    /// Its number along the rail, diamonds from the target's zero.
    pub number: f64,
}

impl AimSpot {
    /// The spot of start = slope × contact + offset, groove reading; `None` where lines don't run together behind
    /// the rail (a slope of 1 or less).
    pub fn of(slope: f64, offset: f64, geometry: &BankGeometry) -> Option<Self> {
        let behind_m = geometry.span_m / (slope - 1.0);
        let spot = Self { behind_m, number: -offset * behind_m / geometry.span_m };
        (slope > 1.0 && spot.behind_m.is_finite() && spot.number.is_finite()).then_some(spot)
    }

    /// Behind the nose instead of the groove, m.
    pub fn behind_nose_m(&self, geometry: &BankGeometry) -> f64 {
        self.behind_m - geometry.groove_m
    }

    /// The rule of whoever aims at it.
    ///
    /// # Errors
    /// [`RuleError::NotFinite`].
    pub fn rule(&self, geometry: &BankGeometry) -> Result<Rule, RuleError> {
        let ratio = geometry.span_m / self.behind_m;
        Rule::linear(1.0 + ratio, -self.number * ratio, Reading::Groove)
    }
}

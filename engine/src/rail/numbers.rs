//! A line of travel by its two rail numbers.

use super::{BankGeometry, Reading};
use crate::equipment::Parameter;
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// A line across the table: from `start` on the opposite rail to `contact` on the rail it banks
/// off, in diamonds from the target pocket's zero. Numbers may run past a rail's end.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// Contact number, diamonds.
    pub contact: f64,
    /// Start number, diamonds.
    pub start: f64,
}

impl Line {
    /// Accepted contact numbers.
    pub const CONTACT: Parameter = Parameter::new("contact", Dimension::Ratio, -40.0, 40.0, "");
    /// Accepted start numbers.
    pub const START: Parameter = Parameter::new("start", Dimension::Ratio, -200.0, 200.0, "");

    /// From its two numbers.
    pub const fn new(contact: f64, start: f64) -> Self {
        Self { contact, start }
    }

    /// The same line, from its groove reading to the reading through the sights.
    ///
    /// The sights stand outside both grooves, so the line spreads: each number moves by
    /// (start − contact)·(setback + R·cosθ)/(groove to groove).
    #[must_use]
    pub fn groove_to_sight(self, geometry: &BankGeometry) -> Self {
        let spread = (self.start - self.contact) * geometry.sight_spread();
        Self { contact: self.contact - spread, start: self.start + spread }
    }

    /// The inverse of [`Line::groove_to_sight`].
    #[must_use]
    pub fn sight_to_groove(self, geometry: &BankGeometry) -> Self {
        let ratio = geometry.sight_spread();
        let spread = (self.start - self.contact) * ratio / (1.0 + 2.0 * ratio);
        Self { contact: self.contact + spread, start: self.start - spread }
    }

    /// The groove line read in the given way.
    #[must_use]
    pub fn read_as(self, reading: Reading, geometry: &BankGeometry) -> Self {
        match reading {
            Reading::Groove => self,
            Reading::Sight => self.groove_to_sight(geometry),
        }
    }

    /// The groove line of one that was read in the given way: the inverse of [`Line::read_as`].
    #[must_use]
    pub fn groove_from(self, reading: Reading, geometry: &BankGeometry) -> Self {
        match reading {
            Reading::Groove => self,
            Reading::Sight => self.sight_to_groove(geometry),
        }
    }

    /// True when both numbers are finite.
    pub const fn is_finite(self) -> bool {
        self.contact.is_finite() && self.start.is_finite()
    }
}

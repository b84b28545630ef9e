//! A line of travel by its two rail numbers.

use super::{BankGeometry, Rail, Reading, Side};
use crate::equipment::{Parameter, Table};
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// Nearer to the corner than this there is no sight to aim over, diamonds. Chosen.
const LEAST_OVER: f64 = 0.25;

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

    /// Where this groove line, begun past an end of the rail opposite, passes over the sights of the rail beside it:
    /// that rail, and the diamonds there from the corner past which the line begins. `None` where it begins no farther
    /// out than those sights, or only just so.
    pub fn over_rail_beside(self, geometry: &BankGeometry) -> Option<(Rail, f64)> {
        let beyond_m = geometry.read_outside_m(Reading::Sight);
        let [contact_m, start_m] =
            [self.contact, self.start].map(|number| number * geometry.diamond_m);
        let (side, sights_m) = if start_m > contact_m {
            (Side::High, geometry.high_groove_m + beyond_m)
        } else {
            (Side::Low, geometry.low_groove_m - beyond_m)
        };
        let into_m = geometry.span_m * (start_m - sights_m) / (start_m - contact_m);
        let rail = geometry.rail_of(side);
        let across_m = geometry.span_m + 2.0 * geometry.groove_m;
        let diamonds =
            if rail.is_end() { Table::END_RAIL_DIAMONDS } else { Table::LONG_RAIL_DIAMONDS };
        let number = (into_m + geometry.groove_m) / across_m * diamonds;
        (number >= LEAST_OVER && into_m <= geometry.span_m).then_some((rail, number))
    }

    /// True when both numbers are finite.
    pub const fn is_finite(self) -> bool {
        self.contact.is_finite() && self.start.is_finite()
    }
}

//! Aiming rules as data: a contact number in, a start number out. Nothing here knows how a ball
//! rebounds.
//!
//! A rule is a family of lines across the table, one for each contact number. Whatever is asked of
//! it is then the same question: **which of its lines passes through this point?** A contact number
//! is a point in the groove that is banked off, a start number one in the opposite groove, a ball a
//! point between them. Rules made of straight pieces answer in closed form, in either reading,
//! because reading a line elsewhere only moves its numbers along itself; a function is answered by
//! bracketing and root finding.

mod aim;
mod common;
mod crossing;
mod error;
mod function;
mod lines;
mod name;
mod plus;
mod spot;
#[cfg(test)]
mod tests;
mod ways;

pub use aim::RuleAim;
pub use common::common_rules;
pub use error::{RuleError, RuleQuery};
pub use function::{FunctionRule, StartFunction};
pub use lines::{LineTable, Outside, ShiftFrom, WayBetween};
pub use name::NamedRule;
pub use spot::AimSpot;
pub use ways::{WaysRow, WaysTable, ways_table};

use crate::rail::{BankGeometry, Line, Reading};
use error::finite;
use serde::Serialize;
use std::sync::Arc;

/// An aiming rule. Build it with [`Rule::linear`], [`Rule::mirror`], [`Rule::lines`] or
/// [`Rule::function`], which check what they are given.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rule {
    /// start = slope·contact + offset.
    Linear(Linear),
    /// Equal angles, from groove to groove and on to the midpoint of the mouth.
    Mirror,
    /// Known lines and a way of going between them.
    Lines(LineTable),
    /// A function from outside.
    Function(FunctionRule),
}

/// A linear rule's numbers.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Linear {
    slope: f64,
    offset: f64,
    reading: Reading,
}

impl Linear {
    /// The growth of the start number for each diamond of contact.
    pub const fn slope(&self) -> f64 {
        self.slope
    }

    /// The start number for contact 0, diamonds.
    pub const fn offset(&self) -> f64 {
        self.offset
    }

    /// The reading of its numbers.
    pub const fn reading(&self) -> Reading {
        self.reading
    }
}

impl Rule {
    /// start = slope·contact + offset, numbers in diamonds in the given reading.
    ///
    /// # Errors
    /// [`RuleError::NotFinite`].
    pub fn linear(slope: f64, offset: f64, reading: Reading) -> Result<Self, RuleError> {
        finite("slope", slope)?;
        finite("offset", offset)?;
        Ok(Self::Linear(Linear { slope, offset, reading }))
    }

    /// Equal angles, as light off a mirror in the groove, to the midpoint of the target's mouth.
    pub const fn mirror() -> Self {
        Self::Mirror
    }

    /// Known lines in the given reading, and the way between them.
    ///
    /// # Errors
    /// As [`LineTable::new`].
    pub fn lines(reading: Reading, lines: Vec<Line>, way: WayBetween) -> Result<Self, RuleError> {
        LineTable::new(reading, lines, way).map(Self::Lines)
    }

    /// A function from contact number to start number, both in the given reading.
    pub fn function(reading: Reading, function: Arc<dyn StartFunction>) -> Self {
        Self::Function(FunctionRule::new(reading, function))
    }

    /// The reading of the rule's numbers.
    pub const fn reading(&self) -> Reading {
        match self {
            Self::Linear(linear) => linear.reading,
            Self::Mirror => Reading::Groove,
            Self::Lines(table) => table.reading(),
            Self::Function(function) => function.reading(),
        }
    }
}

/// The mirror rule as one of its lines and a slope.
///
/// From the contact at distance x along the groove, the mouth's midpoint (xm, ym) is x − xm back
/// along the rail and span − ym across the table; the way in crosses the whole span at the same
/// angle, so start − contact = (contact − xm)·span/(span − ym). The line straight across at xm is
/// one of the family.
fn mirror_line(geometry: &BankGeometry) -> (Line, f64) {
    let midpoint = geometry.mouth.midpoint;
    let number = midpoint.x / geometry.diamond_m;
    let slope = 1.0 + geometry.span_m / (geometry.span_m - midpoint.y);
    (Line::new(number, number), slope)
}

//! A parameter's name, kind of quantity and accepted range: the one place where limits stand.

use crate::units::{Dimension, plain};
use thiserror::Error;

/// The values that a field accepts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameter {
    /// As it is written in a profile.
    pub name: &'static str,
    /// Its kind of quantity.
    pub dimension: Dimension,
    /// Smallest accepted value, in `unit`.
    pub low: f64,
    /// Largest accepted value, in `unit`.
    pub high: f64,
    /// The unit in which the limits are stated to people.
    pub unit: &'static str,
    /// SI value of one such unit.
    unit_si: f64,
    /// The limits in SI, with a hair of slack, so that a limit written in its own unit survives the
    /// conversion.
    accepts_si: (f64, f64),
}

/// A value outside its parameter's range, or not finite.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{name} is {value}; it must be from {low} to {high}")]
pub struct OutOfRange {
    /// The field.
    pub name: &'static str,
    /// The refused value with its unit.
    pub value: String,
    /// The smallest accepted value with its unit.
    pub low: String,
    /// The largest accepted value with its unit.
    pub high: String,
}

impl Parameter {
    /// Limits `low..=high` in `unit`, which must be one of the dimension's units.
    pub const fn new(
        name: &'static str,
        dimension: Dimension,
        low: f64,
        high: f64,
        unit: &'static str,
    ) -> Self {
        let unit_si = dimension.si_of(unit);
        let widest = if high.abs() > low.abs() { high.abs() } else { low.abs() };
        let slack = 1e-12 * widest;
        let accepts_si = ((low - slack) * unit_si, (high + slack) * unit_si);
        Self { name, dimension, low, high, unit, unit_si, accepts_si }
    }

    /// Checks an SI value.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not finite or outside the limits.
    pub fn check(&self, si: f64) -> Result<f64, OutOfRange> {
        if self.accepts(si) {
            return Ok(si);
        }
        Err(self.refusal(si))
    }

    /// True for an SI value inside the limits.
    #[inline]
    pub fn accepts(&self, si: f64) -> bool {
        // A comparison with what is not a number is false.
        si >= self.accepts_si.0 && si <= self.accepts_si.1
    }

    /// An SI value in the unit of the limits.
    pub fn in_unit(&self, si: f64) -> f64 {
        si / self.unit_si
    }

    /// An SI value in the unit of the limits, for people.
    pub fn shown(&self, si: f64) -> String {
        format!("{} {}", plain(si / self.unit_si), self.unit).trim_end().to_owned()
    }

    #[cold]
    fn refusal(&self, si: f64) -> OutOfRange {
        let with = |number: f64, unit| format!("{} {unit}", plain(number)).trim_end().to_owned();
        let show = |number: f64| with(number, self.unit);
        let value = si / self.unit_si;
        // The last bits say nothing, unless without them the number would be accepted.
        let short = format!("{value:.5e}").parse().unwrap_or(value);
        let value = if self.accepts(short * self.unit_si) { value } else { short };
        // A finite number stays one, in whichever unit.
        let value = if value.is_infinite() && si.is_finite() {
            with(si, self.dimension.si_symbol())
        } else {
            show(value)
        };
        OutOfRange { name: self.name, value, low: show(self.low), high: show(self.high) }
    }
}

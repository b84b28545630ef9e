//! A rule that is a function from outside, such as one written in a script.

use super::RuleError;
use super::crossing::Crossing;
use crate::rail::{BankGeometry, Line, Reading};
use crate::root::bracketed_root;
use core::fmt;
use serde::ser::{Serialize, SerializeStruct, Serializer};
use std::sync::Arc;

/// Panels per diamond when the rail is searched for lines: two lines through one point whose
/// contacts are closer than this are not told apart.
const PANELS_PER_DIAMOND: f64 = 8.0;
/// A root of a continuous function is met this closely, diamonds; a jump is not.
const CONTINUOUS: f64 = 1e-9;
/// Step of the numerical slope, diamonds. Truncation and rounding both stay near 1e-12 for
/// functions that bend on the scale of a diamond.
const SLOPE_STEP: f64 = 1e-3;

/// A function from contact number to start number, in diamonds. It must give the same answer each
/// time it is asked.
pub trait StartFunction: Send + Sync {
    /// The start number for a contact number.
    ///
    /// # Errors
    /// The fault, in words.
    fn start(&self, contact: f64) -> Result<f64, String>;

    /// Its name for people.
    fn name(&self) -> &str;

    /// Why it can't be asked any more, once its answers no longer depend on the contact alone (it
    /// ran out of time); its answers since then are no result.
    fn gave_up(&self) -> Option<String> {
        None
    }

    /// Its text, kept with the results it led to.
    fn source(&self) -> Option<&str> {
        None
    }
}

/// A function and the reading of its numbers.
#[derive(Clone)]
pub struct FunctionRule {
    reading: Reading,
    function: Arc<dyn StartFunction>,
}

impl FunctionRule {
    pub(super) fn new(reading: Reading, function: Arc<dyn StartFunction>) -> Self {
        Self { reading, function }
    }

    /// The reading of its numbers.
    pub const fn reading(&self) -> Reading {
        self.reading
    }

    /// The function.
    pub fn function(&self) -> &dyn StartFunction {
        &*self.function
    }

    fn start(&self, contact: f64) -> Result<f64, RuleError> {
        let name = || self.function.name().to_owned();
        match self.function.start(contact) {
            Ok(start) if start.is_finite() => Ok(start),
            Ok(value) => Err(RuleError::FunctionNotFinite { name: name(), contact, value }),
            Err(message) => Err(RuleError::FunctionFailed { name: name(), contact, message }),
        }
    }

    /// Its lines through a point, found by looking along the whole rail for changes of sign.
    ///
    /// Where the function fails it has no lines; its first failure is reported only when no line is
    /// found elsewhere.
    pub(super) fn lines_through(
        &self,
        crossing: &Crossing,
        geometry: &BankGeometry,
    ) -> Result<Vec<Line>, RuleError> {
        if crossing.fraction == 0.0 {
            let contact = crossing.number;
            return Ok(vec![Line::new(contact, self.start(contact)?)]);
        }
        let miss = |contact: f64| {
            let start = self.start(contact)?;
            Ok(crossing.place_of(Line::new(contact, start)) - crossing.number)
        };
        let (low, high) = self.contacts(crossing, geometry);
        let panels = libm::ceil((high - low) * PANELS_PER_DIAMOND);
        let mut roots = Vec::new();
        let mut first_failure = None;
        let mut previous: Option<(f64, f64)> = None;
        let mut step = 0.0;
        while step <= panels {
            let contact = low + (high - low) * (step / panels);
            step += 1.0;
            let here = match miss(contact) {
                Ok(value) => (contact, value),
                Err(failure) => {
                    first_failure.get_or_insert(failure);
                    previous = None;
                    continue;
                }
            };
            if here.1 == 0.0 {
                roots.push(contact);
            } else if let Some(before) = previous
                && before.1 != 0.0
                && (before.1 > 0.0) != (here.1 > 0.0)
            {
                match bracketed_root(miss, before, here) {
                    Ok((root, value)) if value.abs() <= CONTINUOUS * (1.0 + root.abs()) => {
                        roots.push(root);
                    }
                    Ok(_) => {}
                    Err(failure) => {
                        first_failure.get_or_insert(failure);
                    }
                }
            }
            previous = Some(here);
        }
        if roots.is_empty() {
            return Err(first_failure.unwrap_or(RuleError::NoLine { sought: crossing.sought }));
        }
        roots.into_iter().map(|root| Ok(Line::new(root, self.start(root)?))).collect()
    }

    /// The contact numbers to search, in the function's reading: all that are on the rail, and on to
    /// the point's own, at most a rail's length past the end. Through the sights a line that is a
    /// rail's length out of square is read that much further out.
    fn contacts(&self, crossing: &Crossing, geometry: &BankGeometry) -> (f64, f64) {
        let (low, high) = geometry.contacts();
        let length = high - low;
        let number = crossing.number.clamp(low - length, high + length);
        let spread = length * geometry.read_outside_m(self.reading) / geometry.span_m;
        (low.min(number) - spread, high.max(number) + spread)
    }

    /// d start/d contact by central differences of fourth order, or one-sided ones of second order
    /// where the function ends.
    pub(super) fn slope_at(&self, contact: f64) -> Result<f64, RuleError> {
        let at = |steps: f64| self.start(contact + steps * SLOPE_STEP);
        let central = || {
            let (inner, outer) = (at(1.0)? - at(-1.0)?, at(2.0)? - at(-2.0)?);
            Ok((8.0 * inner - outer) / (12.0 * SLOPE_STEP))
        };
        let one_sided = |side: f64| {
            let (here, near, far) = (at(0.0)?, at(side)?, at(2.0 * side)?);
            Ok(side * (4.0 * near - 3.0 * here - far) / (2.0 * SLOPE_STEP))
        };
        central().or_else(|_: RuleError| one_sided(1.0)).or_else(|_: RuleError| one_sided(-1.0))
    }
}

impl fmt::Debug for FunctionRule {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.debug_struct("FunctionRule")
            .field("reading", &self.reading)
            .field("name", &self.function.name())
            .finish_non_exhaustive()
    }
}

impl Serialize for FunctionRule {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("FunctionRule", 3)?;
        fields.serialize_field("name", self.function.name())?;
        fields.serialize_field("reading", &self.reading)?;
        fields.serialize_field("source", &self.function.source())?;
        fields.end()
    }
}

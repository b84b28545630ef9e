//! The one question a rule answers: which of its lines passes through a point.

use super::{RuleError, RuleQuery};
use crate::rail::{BankGeometry, Line, Reading};

/// A point that a line has to pass, placed as the rule's own reading sees it.
///
/// A rule reads its contact numbers a distance w outside the groove that is banked off and its
/// start numbers w outside the opposite one: w = 0 in the groove, setback + R·cosθ through the
/// sights. A point d off the rail then lies the fraction (w + d)/(span + 2w) of the way from the
/// one to the other.
#[derive(Debug, Clone, Copy)]
pub(super) struct Crossing {
    /// Where the point is along the rail, diamonds.
    pub number: f64,
    /// Its place between the line where contact numbers are read (0) and the line where start numbers are (1).
    pub fraction: f64,
    /// The question.
    pub sought: RuleQuery,
}

impl Crossing {
    pub(super) fn new(
        sought: RuleQuery,
        number: f64,
        off_rail_m: f64,
        reading: Reading,
        geometry: &BankGeometry,
    ) -> Self {
        let outside = geometry.read_outside_m(reading);
        let fraction = (outside + off_rail_m) / (geometry.span_m + 2.0 * outside);
        Self { number, fraction, sought }
    }

    /// Where a line passes the point's own distance off the rail, diamonds along the rail. Exact at
    /// both of the line's ends.
    pub(super) fn place_of(&self, line: Line) -> f64 {
        (1.0 - self.fraction) * line.contact + self.fraction * line.start
    }

    /// The line through the point in the family contact = c₀ + δ, start = s₀ + slope·δ, as its δ.
    ///
    /// The family's lines stand `stretch` = (1 − fraction) + fraction·slope diamonds apart at the
    /// point's distance off the rail for each diamond of δ. With fraction = w/(span + 2w) this is
    /// the change from the sight reading to the groove reading in closed form; it has no solution
    /// for slope = −1 − span/w, where all lines cross in the groove.
    ///
    /// # Errors
    /// [`RuleError::LinesMeet`] when the stretch is nothing but rounding.
    pub(super) fn shift_of(&self, known: Line, slope: f64) -> Result<f64, RuleError> {
        let (near, far) = (1.0 - self.fraction, self.fraction * slope);
        let stretch = near + far;
        let place = self.place_of(known);
        if stretch.abs() <= 8.0 * f64::EPSILON * (near + far.abs()) {
            return Err(RuleError::LinesMeet { sought: self.sought, number: place });
        }
        Ok((self.number - place) / stretch)
    }
}

/// A known line moved by δ at its contact and slope·δ at its start.
pub(super) fn shifted(known: Line, slope: f64, shift: f64) -> Line {
    Line::new(known.contact + shift, known.start + slope * shift)
}

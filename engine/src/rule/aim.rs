//! The answers of a rule: the line for a contact number, the contact number for a start number, and
//! the line for a ball anywhere.

use super::crossing::{Crossing, shifted};
use super::error::finite;
use super::{Rule, RuleError, RuleQuery, mirror_line};
use crate::rail::{BankGeometry, Line};
use crate::vector::Vec2;

/// The depth to which rounding may put a frozen ball inside the cushion, m.
const FROZEN_SLACK_M: f64 = 1e-9;

/// The line a rule gives for a ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RuleAim {
    /// The rule's line through the ball, groove reading.
    pub line: Line,
    /// Diamonds by which the contact that is hit (groove) goes wrong for each diamond by which the
    /// player misreads the contact number (in the rule's own reading).
    ///
    /// The player reads c + δ instead of c, takes the rule's start for it, start(c + δ) = s +
    /// start′·δ, and shoots from that mark through the ball. Marks are read w outside the groove
    /// (0 in the groove reading, setback + R·cosθ through the sights) and the ball is d off the
    /// rail, so by similar triangles about the ball the hit moves by
    ///
    /// −start′(c)·d/(span − d + w) for each diamond of δ.
    ///
    /// It is 0 for a frozen ball, whatever the player reads: the ball is its own contact. It is
    /// larger than 1 in size where d > (span + w)/(1 + start′): there, shooting and reading again
    /// leads away from the line instead of to it.
    pub contact_error_gain: f64,
    /// The number of the rule's lines that pass through the ball. When there are several, `line` is the
    /// one whose contact is nearest to the ball's square foot on the rail.
    pub lines_through_ball: usize,
}

impl Rule {
    /// The line for a contact number, both in the groove reading.
    ///
    /// # Errors
    /// [`RuleError`] when the rule has no line, or several, for that contact number.
    pub fn line_for_contact(
        &self,
        contact: f64,
        geometry: &BankGeometry,
    ) -> Result<Line, RuleError> {
        finite("contact number", contact)?;
        let line = self.only_line(RuleQuery::Contact(contact), contact, 0.0, geometry)?;
        Ok(Line { contact, ..line })
    }

    /// The contact number for a start number, both in the groove reading: the inverse of
    /// [`Rule::line_for_contact`].
    ///
    /// # Errors
    /// [`RuleError`] when the rule has no line, or several, from that start number.
    pub fn contact_for_start(&self, start: f64, geometry: &BankGeometry) -> Result<f64, RuleError> {
        finite("start number", start)?;
        let line = self.only_line(RuleQuery::Start(start), start, geometry.span_m, geometry)?;
        Ok(line.contact)
    }

    /// The line for a ball anywhere between the grooves.
    ///
    /// `ball` is its centre in the bank frame, m: x along the rail from the target's zero, y from
    /// the opposite groove, so it is span − y off the rail. The contact number decides the line and
    /// the line decides the contact number; both are solved together,
    /// contact + (start(contact) − contact)·d/span = ball's number.
    ///
    /// # Errors
    /// [`RuleError::BallOutside`], or that no line of the rule passes through the ball.
    pub fn aim_from(&self, ball: Vec2, geometry: &BankGeometry) -> Result<RuleAim, RuleError> {
        finite("the ball's place along the rail", ball.x)?;
        finite("the ball's place across the table", ball.y)?;
        let span = geometry.span_m;
        let off_rail_m = span - ball.y;
        if off_rail_m < -FROZEN_SLACK_M || off_rail_m >= span {
            return Err(RuleError::BallOutside { off_rail_m, span_m: span });
        }
        let off_rail_m = off_rail_m.max(0.0);
        let number = ball.x / geometry.diamond_m;
        let sought = RuleQuery::Ball { number, off_rail_m };
        let own_lines = self.lines_through(sought, number, off_rail_m, geometry)?;
        let lines_through_ball = own_lines.len();
        let (own, line) = own_lines
            .into_iter()
            .map(|own| (own, own.groove_from(self.reading(), geometry)))
            .min_by(|(_, a), (_, b)| {
                (a.contact - number).abs().total_cmp(&(b.contact - number).abs())
            })
            .ok_or(RuleError::NoLine { sought })?;
        let outside = geometry.read_outside_m(self.reading());
        // A frozen ball's gain is 0 without asking the rule for its slope.
        let contact_error_gain = if off_rail_m > 0.0 {
            -self.growth_at(own.contact, geometry)? * off_rail_m / (span - off_rail_m + outside)
        } else {
            0.0
        };
        Ok(RuleAim { line, contact_error_gain, lines_through_ball })
    }

    /// The one line through a point, in the groove reading.
    fn only_line(
        &self,
        sought: RuleQuery,
        number: f64,
        off_rail_m: f64,
        geometry: &BankGeometry,
    ) -> Result<Line, RuleError> {
        let own_lines = self.lines_through(sought, number, off_rail_m, geometry)?;
        let groove = |line: &Line| line.groove_from(self.reading(), geometry);
        match own_lines.as_slice() {
            [] => Err(RuleError::NoLine { sought }),
            [line] => Ok(groove(line)),
            several => Err(RuleError::SeveralLines {
                sought,
                contacts: several.iter().map(|line| groove(line).contact).collect(),
            }),
        }
    }

    /// All of the rule's lines through a point, in the rule's own reading.
    fn lines_through(
        &self,
        sought: RuleQuery,
        number: f64,
        off_rail_m: f64,
        geometry: &BankGeometry,
    ) -> Result<Vec<Line>, RuleError> {
        let crossing = Crossing::new(sought, number, off_rail_m, self.reading(), geometry);
        let one_of = |known: Line, slope: f64| {
            crossing.shift_of(known, slope).map(|shift| vec![shifted(known, slope, shift)])
        };
        let mut lines = match self {
            Self::Linear(linear) => one_of(Line::new(0.0, linear.offset), linear.slope)?,
            Self::Mirror => {
                let (straight, slope) = mirror_line(geometry);
                one_of(straight, slope)?
            }
            Self::Lines(table) => table.lines_through(&crossing)?,
            Self::Function(function) => function.lines_through(&crossing, geometry)?,
        };
        // Finite numbers can still overflow on the way.
        lines.retain(|line| line.is_finite());
        Ok(lines)
    }

    /// The growth of the start number for each diamond of contact, all in the rule's own reading.
    ///
    /// # Errors
    /// [`RuleError`] where a function has no answer there.
    pub fn growth_at(&self, own_contact: f64, geometry: &BankGeometry) -> Result<f64, RuleError> {
        match self {
            Self::Linear(linear) => Ok(linear.slope),
            Self::Mirror => Ok(mirror_line(geometry).1),
            Self::Lines(table) => Ok(table.slope_at(own_contact)),
            Self::Function(function) => function.slope_at(own_contact),
        }
    }
}

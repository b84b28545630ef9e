//! Why a rule has no answer.

use crate::units::short_number;
use core::fmt;
use thiserror::Error;

/// The question put to a rule, for its messages.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RuleQuery {
    /// The line that meets the rail at this contact number (groove).
    Contact(f64),
    /// The line that begins at this start number (groove).
    Start(f64),
    /// The line through a ball.
    Ball {
        /// Where the ball is along the rail, diamonds.
        number: f64,
        /// Its distance off the rail, m.
        off_rail_m: f64,
    },
}

impl fmt::Display for RuleQuery {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Contact(contact) => write!(out, "contact number {}", short_number(*contact, 3)),
            Self::Start(start) => write!(out, "start number {}", short_number(*start, 3)),
            Self::Ball { number: along, off_rail_m } => write!(
                out,
                "a ball at number {}, {} mm off the rail",
                short_number(*along, 3),
                short_number(1e3 * off_rail_m, 3)
            ),
        }
    }
}

/// Why a rule can't be built or has no answer.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum RuleError {
    /// A number given to the rule is a NaN or an infinity.
    #[error("{what} is {value}; it must be a finite number")]
    NotFinite {
        /// Which number.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// Fewer known lines than the way between them needs.
    #[error(
        "the rule has {given} known line(s); this way of going between lines needs at least {needed}"
    )]
    TooFewLines {
        /// Their number.
        given: usize,
        /// The number it takes.
        needed: usize,
    },
    /// Known lines out of order, or two for one contact number.
    #[error(
        "line {position} of the rule has contact {contact}, after {before}; contacts must grow from line to line"
    )]
    LinesOutOfOrder {
        /// Which line, counted from 1.
        position: usize,
        /// Its contact number.
        contact: f64,
        /// The contact number of the line before it.
        before: f64,
    },
    /// Outside the known lines, where interpolation says nothing.
    #[error(
        "{sought} lies outside the rule's known lines, whose contacts run from {first} to {last} ({reading} reading)"
    )]
    OutsideLines {
        /// The question.
        sought: RuleQuery,
        /// The first line's contact number, in the rule's reading.
        first: f64,
        /// The last line's contact number, in the rule's reading.
        last: f64,
        /// The rule's reading.
        reading: &'static str,
    },
    /// All lines that could serve cross in one point there: either none passes through the point or
    /// all do.
    #[error(
        "the rule's lines all cross at number {number} there, so it has no one line for {sought}"
    )]
    LinesMeet {
        /// The question.
        sought: RuleQuery,
        /// Where they cross, diamonds along the rail.
        number: f64,
    },
    /// No line of the rule passes through the point.
    #[error("the rule has no line for {sought}")]
    NoLine {
        /// The question.
        sought: RuleQuery,
    },
    /// Several lines of the rule pass through the point.
    #[error("the rule has {} lines for {sought}; their contact numbers are {}", contacts.len(), listed(contacts))]
    SeveralLines {
        /// The question.
        sought: RuleQuery,
        /// The contact numbers of those lines (groove).
        contacts: Vec<f64>,
    },
    /// The ball is not between the two grooves.
    #[error(
        "the ball is {off_rail_m} m off the rail; it must be from 0 to less than {span_m} m, the distance between the grooves"
    )]
    BallOutside {
        /// Its distance off the rail, m.
        off_rail_m: f64,
        /// Groove to groove, m.
        span_m: f64,
    },
    /// The function reported an error of its own.
    #[error("the rule {name} failed at contact {contact}: {message}")]
    FunctionFailed {
        /// The function's name.
        name: String,
        /// The contact number it was given, in its reading.
        contact: f64,
        /// Its message.
        message: String,
    },
    /// The function returned a NaN or an infinity.
    #[error("the rule {name} returned {value} at contact {contact}; a start number must be finite")]
    FunctionNotFinite {
        /// The function's name.
        name: String,
        /// The contact number it was given, in its reading.
        contact: f64,
        /// The value it returned.
        value: f64,
    },
}

impl RuleError {
    /// True where a rule's function failed, and not where the rule has no line.
    pub const fn is_failure(&self) -> bool {
        matches!(self, Self::FunctionFailed { .. } | Self::FunctionNotFinite { .. })
    }

    /// A line, or none where the rule has none.
    ///
    /// # Errors
    /// Where a rule's function failed.
    pub fn line_or_none<T>(found: Result<T, Self>) -> Result<Option<T>, Self> {
        match found {
            Ok(line) => Ok(Some(line)),
            Err(error) if error.is_failure() => Err(error),
            Err(_) => Ok(None),
        }
    }
}

fn listed(contacts: &[f64]) -> String {
    contacts.iter().map(|contact| short_number(*contact, 3)).collect::<Vec<_>>().join(", ")
}

/// Passes a finite number on.
pub(super) fn finite(what: &'static str, value: f64) -> Result<f64, RuleError> {
    if value.is_finite() { Ok(value) } else { Err(RuleError::NotFinite { what, value }) }
}

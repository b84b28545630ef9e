//! Why a sweep is refused or cannot go on.

use crate::bank::{BankError, LaunchError};
use crate::equipment::OutOfRange;
use crate::rule::RuleError;
use crate::sample::SampleError;
use thiserror::Error;

/// Why a sweep is refused or cannot go on.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PlanError {
    /// An axis without values.
    #[error("the axis `{axis}` has no values")]
    EmptyAxis {
        /// The axis.
        axis: &'static str,
    },
    /// Values of another kind than the input's.
    #[error("the axis `{axis}` holds values of another kind")]
    WrongKind {
        /// The axis.
        axis: &'static str,
    },
    /// A range from a number to one that is not greater.
    #[error("the range of `{axis}` goes from {low} to {high}; it must rise")]
    EmptyRange {
        /// The axis.
        axis: &'static str,
        /// Its low end, SI.
        low: f64,
        /// Its high end, SI.
        high: f64,
    },
    /// A sample that can't be drawn.
    #[error(transparent)]
    Sample(#[from] SampleError),
    /// The same input twice.
    #[error("`{axis}` is given twice")]
    Twice {
        /// The axis.
        axis: &'static str,
    },
    /// Two inputs that say the same thing.
    #[error("`{first}` and `{second}` contradict each other: give one of them")]
    Contradiction {
        /// One input.
        first: &'static str,
        /// The other.
        second: &'static str,
    },
    /// An input that every sweep needs.
    #[error("`{axis}` is missing")]
    Missing {
        /// The axis.
        axis: &'static str,
    },
    /// More rows than are evaluated at once.
    #[error("this sweep would have {rows} banks; at most {limit} are played at once")]
    TooLarge {
        /// Points times rules.
        rows: u128,
        /// The limit.
        limit: usize,
    },
    /// A value outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A table that cannot be made ready.
    #[error(transparent)]
    Bank(#[from] BankError),
    /// A launch that is refused.
    #[error(transparent)]
    Launch(#[from] LaunchError),
    /// A rule without an answer at a point.
    #[error("the rule `{rule}` has no answer at {point}: {error}")]
    Rule {
        /// The rule's name.
        rule: String,
        /// The point in words.
        point: String,
        /// Why.
        error: RuleError,
    },
    /// A rule whose answer is far outside any table.
    #[error("the rule `{rule}` gives no start number to play from at {point}: {error}")]
    FarStart {
        /// The rule's name.
        rule: String,
        /// The point in words.
        point: String,
        /// By how much.
        error: Box<OutOfRange>,
    },
}

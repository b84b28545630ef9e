//! Why a search is refused or cannot go on.

use crate::sweep::PlanError;
use thiserror::Error;

/// Why a search for a frontier is refused or cannot go on.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FrontierError {
    /// The input is chosen from words, so nothing lies between two of its values.
    #[error("`{input}` is chosen from words, but a frontier runs along numbers")]
    NotNumbers {
        /// The input.
        input: &'static str,
    },
    /// The plan does not say from where to where.
    #[error(
        "the sweep gives `{input}` {values}; a frontier needs two or more, from the least to the greatest"
    )]
    NoRange {
        /// The input.
        input: &'static str,
        /// The number of different values it gives, in words.
        values: &'static str,
    },
    /// Along and across the same input.
    #[error("`{input}` can't be searched along and traced over at once")]
    Same {
        /// The input.
        input: &'static str,
    },
    /// A tolerance that is no part of the range.
    #[error("the tolerance of `{input}` is {tolerance}; it must be from {least} to {most} (SI)")]
    Tolerance {
        /// The input.
        input: &'static str,
        /// The tolerance, SI.
        tolerance: f64,
        /// The least that is accepted, SI.
        least: f64,
        /// The greatest that is accepted, SI.
        most: f64,
    },
    /// A number of probes that is none.
    #[error("{probes} probes; a line takes from 2 to {most}")]
    Probes {
        /// Their number.
        probes: usize,
        /// The most that are accepted.
        most: usize,
    },
    /// The plan's points are spread over ranges, so they make no lines.
    #[error(
        "the sweep's points are spread over ranges; a frontier needs values, and lines through them"
    )]
    Spread,
    /// The message of the plan itself.
    #[error(transparent)]
    Plan(#[from] PlanError),
}

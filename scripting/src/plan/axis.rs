//! The axes of a plan as maps and files see them, whatever it plays.

use super::shot_axes::{ShotAxis, ShotValues};
use railproof_engine::sweep::{Axis, Span, Values};

/// One thing that varies, or might.
#[derive(Debug, Clone, Copy)]
pub enum PlanAxis<'a> {
    /// An input of banks.
    Input(&'a Axis),
    /// A name of whole shots.
    Named(&'a ShotAxis),
}

impl<'a> PlanAxis<'a> {
    /// Its name.
    pub fn name(self) -> &'a str {
        match self {
            Self::Input(axis) => axis.input.name(),
            Self::Named(axis) => &axis.name,
        }
    }

    /// The number of its values; one for a range.
    pub fn count(self) -> usize {
        match self {
            Self::Input(axis) => axis.values.len(),
            Self::Named(axis) => axis.values.len(),
        }
    }

    /// True when points differ in it.
    pub fn varies(self) -> bool {
        self.range().is_some() || self.count() > 1
    }

    /// The range that it is spread over, if it is.
    pub fn range(self) -> Option<&'a Span> {
        match self {
            Self::Input(Axis { values: Values::Range(span), .. }) => Some(span),
            _ => None,
        }
    }

    /// One of its numbers, SI.
    pub fn number(self, at: usize) -> Option<f64> {
        match self {
            Self::Input(axis) => axis.values.number(at),
            Self::Named(ShotAxis { values: ShotValues::Numbers { si, .. }, .. }) => {
                si.get(at).copied()
            }
            Self::Named(_) => None,
        }
    }

    /// One of its words.
    pub fn word(self, at: usize) -> Option<&'a str> {
        match self {
            Self::Input(axis) => axis.values.word(at),
            Self::Named(ShotAxis { values: ShotValues::Words(words), .. }) => {
                words.get(at).map(String::as_str)
            }
            Self::Named(_) => None,
        }
    }
}

//! Stretches of start numbers.

use smallvec::SmallVec;

/// A stretch of start numbers, groove reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Its first start number.
    pub from: f64,
    /// Its last.
    pub to: f64,
}

impl Window {
    /// Its middle.
    pub const fn middle(self) -> f64 {
        0.5 * (self.from + self.to)
    }
}

/// A window and what it counts for.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WeightedWindow {
    pub(crate) weight: f64,
    /// In the integral by which the error is judged.
    pub(crate) rough_weight: f64,
    pub(crate) window: Window,
}

/// The stretches of one table, condition and node.
pub(super) type Windows = SmallVec<[Window; 1]>;

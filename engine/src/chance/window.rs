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

/// The stretches of one table, condition and node.
pub(super) type Windows = SmallVec<[Window; 1]>;

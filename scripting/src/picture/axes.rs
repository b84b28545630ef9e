//! Axes as they are given to be drawn.

use super::page;

/// An axis with one tick for each row or column of cells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureAxis {
    /// Title of the axis, such as `speed at launch`.
    pub title: String,
    /// Its unit, such as `m/s`; empty for a bare number.
    pub unit: String,
    /// The value of each column (x, from the left) or row (y, from the bottom).
    pub ticks: Vec<String>,
}

impl PictureAxis {
    /// Title and unit.
    pub(super) fn words(&self) -> String {
        page::with_unit(&self.title, &self.unit)
    }
}

/// A numeric axis; its range follows from the data.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct NumericAxis {
    /// Title of the axis.
    pub title: String,
    /// Its unit; empty for a bare number.
    pub unit: String,
    /// The only values on it, where words stand for them.
    pub words: Vec<(f64, String)>,
}

impl NumericAxis {
    /// Title and unit.
    pub(super) fn words(&self) -> String {
        page::with_unit(&self.title, &self.unit)
    }
}

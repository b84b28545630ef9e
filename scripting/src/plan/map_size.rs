//! How many cells a map of every pair of inputs has: decided by the plan alone.

use railproof_engine::sweep::{Axis, Plan, Values};

/// The most bins of one axis.
pub const MOST_BINS: usize = 64;

/// How many bins an axis has.
pub fn bin_count(axis: &Axis) -> usize {
    match &axis.values {
        Values::Range(_) => MOST_BINS,
        values => values.len().min(MOST_BINS),
    }
}

/// The cells of every pair of inputs that vary, by every rule.
pub fn map_cells(banks: &Plan, ways: u64) -> u64 {
    let axes = banks.axes().iter().filter(|axis| axis.varies());
    let bins: Vec<u64> = axes.map(|axis| bin_count(axis) as u64).collect();
    let cells = match bins.as_slice() {
        [] => 1,
        [only] => *only,
        all => (0..all.len()).map(|x| all[x] * all[x + 1..].iter().sum::<u64>()).sum(),
    };
    cells.saturating_mul(ways)
}

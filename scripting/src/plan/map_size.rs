//! The number of cells of a map of every pair of inputs: decided by the plan alone.

use super::PlanAxis;

/// The most bins of one axis.
pub const MOST_BINS: usize = 64;

/// The number of bins of an axis.
pub fn bin_count(axis: PlanAxis<'_>) -> usize {
    if axis.range().is_some() { MOST_BINS } else { axis.count().min(MOST_BINS) }
}

/// The most cells of a plan.
const MOST_CELLS: u64 = 4_000_000;

/// Refuses a map of more cells than are counted.
///
/// # Errors
/// Their number, in words.
pub fn check_cells(axes: &[PlanAxis<'_>], ways: u64) -> Result<(), String> {
    let cells = map_cells(axes, ways);
    if cells <= MOST_CELLS {
        return Ok(());
    }
    let inputs = axes.iter().filter(|axis| axis.varies()).count();
    Err(format!(
        "a map of every pair of {inputs} inputs by {ways} rules has {cells} cells; at most \
         {MOST_CELLS} are counted; vary fewer inputs, or keep rows or failures"
    ))
}

/// The cells of every pair of inputs that vary, by every rule.
pub fn map_cells(axes: &[PlanAxis<'_>], ways: u64) -> u64 {
    let axes = axes.iter().filter(|axis| axis.varies());
    let bins: Vec<u64> = axes.map(|axis| bin_count(*axis) as u64).collect();
    let cells = match bins.as_slice() {
        [] => 1,
        [only] => *only,
        all => (0..all.len()).map(|x| all[x] * all[x + 1..].iter().sum::<u64>()).sum(),
    };
    cells.saturating_mul(ways)
}

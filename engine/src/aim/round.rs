//! A search round the whole circle of directions.

use super::NoAim;
use crate::root::bracketed_root;

/// Directions are looked at in so many steps round the whole circle.
const LOOKS: usize = 2880;
/// A value this near to zero is one; where it jumps over zero it stays larger.
const SETTLED: f64 = 1e-6;

/// Every direction, rad, at which `off` passes through zero. Where it has no value nothing is found.
pub(super) fn zeros_round(
    mut off: impl FnMut(f64) -> Result<Option<f64>, NoAim>,
) -> Result<Vec<f64>, NoAim> {
    let step = core::f64::consts::TAU / LOOKS as f64;
    let mut found = Vec::new();
    let mut last: Option<(f64, f64)> = None;
    for look in 0..=LOOKS {
        let direction = step * look as f64;
        let here = off(direction)?.map(|value| (direction, value));
        if let (Some(low), Some(high)) = (last, here)
            && (low.1 > 0.0) != (high.1 > 0.0)
        {
            let mut broken = false;
            let (zero, left) = bracketed_root(
                |direction| -> Result<f64, NoAim> {
                    Ok(off(direction)?.unwrap_or_else(|| {
                        broken = true;
                        f64::INFINITY
                    }))
                },
                low,
                high,
            )?;
            if !broken && left.abs() < SETTLED {
                found.push(zero);
            }
        }
        last = here;
    }
    Ok(found)
}

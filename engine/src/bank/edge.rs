//! The edge of a stretch in which a bank holds.

use crate::root::last_true;
use core::convert::Infallible;

/// The place nearest to the edge, to 1e-7 of itself, where a bank holds still.
pub(super) fn edge(holding: f64, breaking: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let tolerance = |place: f64| 1e-7 * place.abs().max(1e-6);
    let Ok(place) =
        last_true((holding, breaking), tolerance, |place| Ok::<bool, Infallible>(holds(place)));
    place
}

//! The normal law.

use core::f64::consts::{FRAC_1_SQRT_2, PI};

/// Its density at a distance from the middle, in standard deviations.
pub(crate) fn density(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) / (2.0 * PI).sqrt()
}

/// The share of it between two distances, in standard deviations.
pub(super) fn share_between(from: f64, to: f64) -> f64 {
    // By the tail that is nearer, so that small shares keep their digits.
    if from > 0.0 { above(from) - above(to) } else { above(-to) - above(-from) }
}

/// The share of it below a distance, in standard deviations.
pub(crate) fn share_below(z: f64) -> f64 {
    above(-z)
}

fn above(z: f64) -> f64 {
    0.5 * libm::erfc(z * FRAC_1_SQRT_2)
}

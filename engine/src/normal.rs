//! The normal law: density, shares and quantiles.

use core::f64::consts::{FRAC_1_SQRT_2, PI};

/// Its density at a distance from the middle, in standard deviations.
pub(crate) fn density(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) / (2.0 * PI).sqrt()
}

/// The share of it between two distances, in standard deviations.
pub(crate) fn share_between(from: f64, to: f64) -> f64 {
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

/// The distance below which a share of it lies, in standard deviations; the share is inside (0, 1).
///
/// A first guess within 4.5e-4 (C. Hastings 1955, *Approximations for digital computers*, sheet 67; Abramowitz &
/// Stegun 26.2.23), then Halley's steps on the share itself to rounding.
pub(crate) fn below_which(share: f64) -> f64 {
    let tail = share.min(1.0 - share);
    let t = (-2.0 * libm::log(tail)).sqrt();
    let above_guess = t
        - (2.515_517 + t * (0.802_853 + t * 0.010_328))
            / (1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308)));
    let mut z = above_guess;
    for _ in 0..2 {
        // The tail beyond z falls with z.
        let step = (above(z) - tail) / density(z);
        z += step / (1.0 - 0.5 * z * step);
    }
    if share < 0.5 { -z } else { z }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_are_those_of_printed_tables() {
        // Abramowitz & Stegun 1964, *Handbook of Mathematical Functions*, table 26.5 and its percentage points.
        for (share, z) in [
            (0.5, 0.0),
            (0.841_344_746_068_543, 1.0),
            (0.95, 1.644_853_626_951_472_7),
            (0.975, 1.959_963_984_540_054),
            (0.999, 3.090_232_306_167_813_5),
        ] {
            assert!((below_which(share) - z).abs() < 1e-12, "{share}: {}", below_which(share));
            assert!((below_which(1.0 - share) + z).abs() < 1e-12);
        }
    }

    #[test]
    fn quantiles_undo_shares_far_into_the_tails() {
        for tenth in -70_i32..=70 {
            let z = 0.1 * f64::from(tenth);
            let share = share_below(z);
            // A share near 1 has lost the digits of its tail.
            let error = if z > 0.0 { 2e-16 / density(z) } else { 1e-13 };
            assert!((below_which(share) - z).abs() <= 4.0 * error + 1e-12, "{z}");
        }
    }
}

//! The chi-square law, central and not, in whole degrees of freedom.

use core::f64::consts::FRAC_1_SQRT_2;

/// The share of the law beyond a value: M. Abramowitz and I. Stegun 1964, *Handbook of Mathematical Functions*,
/// 26.4.4 and 26.4.5.
pub(super) fn beyond(value: f64, degrees: usize) -> f64 {
    if value <= 0.0 {
        return 1.0;
    }
    let half = 0.5 * value;
    let is_odd = degrees % 2 == 1;
    // exp(−x/2)·(x/2)^k/Γ(k + 1) for k = 0, 1, … or 1/2, 3/2, …
    let first = if is_odd { 0.5 } else { 0.0 };
    let terms = (0..degrees / 2).map(|at| {
        let power = at as f64 + first;
        libm::exp(power * libm::log(half) - half - libm::lgamma(power + 1.0))
    });
    let tail = if is_odd { libm::erfc(value.sqrt() * FRAC_1_SQRT_2) } else { 0.0 };
    (tail + terms.sum::<f64>()).min(1.0)
}

/// The value beyond which a share of the law lies.
pub(super) fn value_beyond(share: f64, degrees: usize) -> f64 {
    let mut high = degrees as f64 + 1.0;
    while beyond(high, degrees) > share {
        high *= 2.0;
    }
    halved(0.0, high, |value| beyond(value, degrees) > share)
}

/// The share beyond a value of the law that is moved off its middle; a Poisson mixture of central ones (26.4.25).
fn beyond_moved(value: f64, degrees: usize, moved: f64) -> f64 {
    let half = 0.5 * moved;
    let most = (half + 12.0 * (half + 1.0).sqrt() + 20.0).ceil();
    let (mut sum, mut at) = (0.0, 0.0);
    let mut of = degrees;
    while at <= most {
        let weight = if half > 0.0 {
            libm::exp(at * libm::log(half) - half - libm::lgamma(at + 1.0))
        } else if at == 0.0 {
            1.0
        } else {
            0.0
        };
        sum += weight * beyond(value, of);
        of += 2;
        at += 1.0;
    }
    sum
}

/// How far the law must be moved so that this share of it lies beyond a value.
pub(super) fn moved_so_that(share: f64, value: f64, degrees: usize) -> f64 {
    let mut high = value + 1.0;
    while beyond_moved(value, degrees, high) < share {
        high *= 2.0;
    }
    halved(0.0, high, |moved| beyond_moved(value, degrees, moved) < share)
}

/// Where a claim that holds from `low` on ceases to.
fn halved(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_and_values_are_the_handbooks() {
        // Abramowitz & Stegun 1964, table 26.8: the value beyond which 0.05 lies, for 1, 2, 5, 12, 30 degrees.
        for (degrees, value) in
            [(1, 3.84146), (2, 5.99147), (5, 11.0705), (12, 21.0261), (30, 43.7729)]
        {
            let found = value_beyond(0.05, degrees);
            assert!((found - value).abs() < 1e-4, "{degrees} degrees: {found}");
        }
        assert!((beyond(18.5493, 12) - 0.1).abs() < 1e-5);
    }

    #[test]
    fn a_law_that_is_moved_has_its_own_shares() {
        // One degree of freedom is the square of a normal number: P(|z + 2| > 1.96), by hand from the normal law.
        let by_hand = 0.5 * libm::erfc((1.96 - 2.0) * FRAC_1_SQRT_2)
            + 0.5 * libm::erfc((1.96 + 2.0) * FRAC_1_SQRT_2);
        assert!((beyond_moved(1.96 * 1.96, 1, 4.0) - by_hand).abs() < 1e-12);
        let moved = moved_so_that(by_hand, 1.96 * 1.96, 1);
        assert!((moved - 4.0).abs() < 1e-9, "{moved}");
    }
}

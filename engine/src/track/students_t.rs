//! Student's t.

use core::f64::consts::FRAC_2_PI;

/// The share of Student's law within ±t, exactly, for whole degrees of freedom: finite series in cos θ, tan θ = t/√ν
/// (M. Abramowitz and I. Stegun 1964, 26.7.3 and 26.7.4, from memory).
fn share_within(t: f64, degrees: usize) -> f64 {
    let theta = libm::atan(t / (degrees as f64).sqrt());
    let (sin, cos) = (libm::sin(theta), libm::cos(theta));
    let is_odd = degrees % 2 == 1;
    // Odd: cos θ + (2/3) cos³θ + …; even: 1 + (1/2) cos²θ + …
    let (mut term, mut sum) = if is_odd { (cos, cos) } else { (1.0, 1.0) };
    let mut at = if is_odd { 3 } else { 2 };
    while at < degrees {
        term *= cos * cos * (at - 1) as f64 / at as f64;
        sum += term;
        at += 2;
    }
    match degrees {
        1 => FRAC_2_PI * theta,
        _ if is_odd => FRAC_2_PI * (theta + sin * sum),
        _ => sin * sum,
    }
}

/// The t for which a share of Student's law with some degrees of freedom lies within ±t.
pub fn students_t(share: f64, degrees: usize) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    while share_within(high, degrees) < share && high < 1e12 {
        high *= 2.0;
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if share_within(middle, degrees) < share { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::students_t;

    /// Printed tables, from memory.
    #[test]
    fn quantiles_are_those_of_the_tables() {
        for (share, degrees, t) in [
            (0.5, 1, 1.0),
            (0.9, 1, 6.313_752),
            (0.9, 2, 2.919_986),
            (0.9, 3, 2.353_363),
            (0.5, 5, 0.726_687),
            (0.9, 5, 2.015_048),
            (0.95, 10, 2.228_139),
            (0.9, 100_000, 1.644_87),
        ] {
            let found = students_t(share, degrees);
            assert!((found - t).abs() < 2e-5, "{share} {degrees}: {found}");
        }
    }
}

//! Numbers as the decimals people typed: 3 inches are 0.0762 m, not 0.07619999999999999.

use super::plain;

/// Digits of a number that was typed; what arithmetic left has more.
const TYPED_DIGITS: usize = 15;

/// A whole number times a power of ten.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Decimal {
    digits: i128,
    exponent: i32,
}

impl Decimal {
    /// The decimal that a number was typed as; nothing for one that no short decimal gives.
    pub fn typed(number: f64) -> Option<Self> {
        if !number.is_finite() {
            return None;
        }
        // The shortest text that reads back the same: `-1.25e-2`.
        let text = format!("{number:e}");
        let (digits, exponent) = text.split_once('e')?;
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        if whole.trim_start_matches('-').len() + part.len() > TYPED_DIGITS {
            return None;
        }
        Some(Self {
            digits: format!("{whole}{part}").parse().ok()?,
            exponent: exponent.parse::<i32>().ok()? - i32::try_from(part.len()).ok()?,
        })
    }

    /// The number nearest to it.
    pub fn nearest(self) -> f64 {
        format!("{}e{}", self.digits, self.exponent).parse().unwrap_or(f64::NAN)
    }

    /// The product, when it can be held.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        Some(Self {
            digits: self.digits.checked_mul(other.digits)?,
            exponent: self.exponent + other.exponent,
        })
    }

    /// Several in units of one power of ten, and that power's exponent; nothing when they can't be
    /// held together.
    pub fn alike<const N: usize>(all: [Self; N]) -> Option<([i128; N], i32)> {
        // A zero goes with every exponent.
        let exponents = all.iter().filter(|one| one.digits != 0).map(|one| one.exponent);
        let least = exponents.min().unwrap_or(0);
        let mut digits = [0; N];
        for (to, one) in digits.iter_mut().zip(all).filter(|(_, one)| one.digits != 0) {
            let by = 10_i128.checked_pow(u32::try_from(one.exponent - least).ok()?)?;
            *to = one.digits.checked_mul(by)?;
        }
        Some((digits, least))
    }

    /// So many times a power of ten.
    pub const fn of(digits: i128, exponent: i32) -> Self {
        Self { digits, exponent }
    }
}

/// An amount of a unit in SI units, as near as a number can be to the product of the decimals that
/// both were typed as; where one was not, to their product.
///
/// ```
/// use railproof_engine::units::{INCH_M, KMH_M_S, in_si};
/// assert_eq!(in_si(3.0, INCH_M), 0.0762);
/// assert_eq!(in_si(18.0, KMH_M_S), 5.0);
/// ```
pub fn in_si(amount: f64, si: f64) -> f64 {
    let product = |a: f64, b: f64| Decimal::typed(a)?.times(Decimal::typed(b)?);
    if let Some(exact) = product(amount, si) {
        return exact.nearest();
    }
    // A unit that is a share of another, such as a kilometre per hour: 1/3.6 m/s.
    let share = 1.0 / si;
    if Decimal::typed(share).is_some() && 1.0 / share == si { amount / share } else { amount * si }
}

/// A number as people write it: at most so many decimals, no closing zero, no `-0`.
pub fn short_number(value: f64, decimals: usize) -> String {
    // Decimals say nothing of a number that large.
    if value.abs() >= 1e16 {
        return plain(value);
    }
    let text = format!("{value:.decimals$}");
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{DEGREE_RAD, INCH_M, KMH_M_S, MPH_M_S};

    #[test]
    fn short_numbers_drop_empty_decimals_only() {
        let shown = [10.0, 100.0, 0.1, -0.0001, 2.25, -3.0].map(|value| short_number(value, 3));
        assert_eq!(shown, ["10", "100", "0.1", "0", "2.25", "-3"]);
        assert_eq!(short_number(100.0, 0), "100");
    }

    #[test]
    fn a_huge_number_is_not_shown_digit_by_digit() {
        assert_eq!(short_number(-5e307, 2), "-5e307");
        assert_eq!(short_number(1e15 + 0.5, 1), "1000000000000000.5");
    }

    #[test]
    fn amounts_are_the_decimals_that_were_typed() {
        // The inch is 25.4 mm and the mile per hour 0.44704 m/s by definition (NIST SP 811, B.8).
        for (amount, si, expected) in [
            (3.0, INCH_M, 0.0762),
            (0.7, INCH_M, 0.01778),
            (-3.0, INCH_M, -0.0762),
            (57.15, 0.001, 0.05715),
            (7.0, MPH_M_S, 3.12928),
            (36.0, KMH_M_S, 10.0),
            (9.0, KMH_M_S, 2.5),
            (0.0, INCH_M, 0.0),
            (1e300, 1.0, 1e300),
            (5e-324, 1.0, 5e-324),
        ] {
            assert_eq!(in_si(amount, si), expected, "{amount} × {si}");
        }
        // What no decimal gives is multiplied as before.
        assert_eq!(in_si(1.0 / 3.0, INCH_M), INCH_M / 3.0);
        assert_eq!(in_si(30.0, DEGREE_RAD), 30.0 * DEGREE_RAD);
        assert!(in_si(f64::INFINITY, INCH_M).is_infinite() && in_si(f64::NAN, 1.0).is_nan());
        assert!(in_si(1e308, 1000.0).is_infinite());
    }
}

//! A sum that is the same in whatever order its terms come.

use serde::{Deserialize, Serialize};

/// Two to the power of 52: a term's coarse part is counted in so many parts of one.
const COARSE: f64 = (1_u64 << 52) as f64;
/// Two to the power of 62: its fine part is counted in so many parts of a coarse one.
const FINE: f64 = (1_u64 << 62) as f64;

/// A sum of numbers as counts of 2⁻⁵² and of 2⁻¹¹⁴. Whole numbers add up to the same in any order,
/// where floating-point numbers would not. Of a term, less than 2⁻¹¹⁴ is left out; terms up to 2²⁰ have
/// room, more of them than a sweep has points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(into = "SumText", try_from = "SumText")]
pub struct OrderFreeSum {
    coarse: i128,
    fine: i128,
}

/// The two counts as text: in JSON a number has no room for them.
#[derive(Serialize, Deserialize)]
struct SumText(String, String);

impl OrderFreeSum {
    /// Adds a term, which is finite.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "the rest is taken on its own, or left out"
    )]
    pub fn add(&mut self, term: f64) {
        let counted = term * COARSE;
        let whole = counted.trunc();
        // The difference of a number and its whole part is exact.
        let rest = (counted - whole) * FINE;
        self.coarse = self.coarse.wrapping_add(whole as i128);
        self.fine = self.fine.wrapping_add(i128::from(rest as i64));
    }

    /// Adds another sum.
    pub const fn merge(&mut self, other: &Self) {
        self.coarse = self.coarse.wrapping_add(other.coarse);
        self.fine = self.fine.wrapping_add(other.fine);
    }

    /// The sum as a number.
    pub fn value(&self) -> f64 {
        (self.coarse as f64 + self.fine as f64 / FINE) / COARSE
    }
}

impl From<f64> for OrderFreeSum {
    fn from(term: f64) -> Self {
        let mut sum = Self::default();
        sum.add(term);
        sum
    }
}

impl From<OrderFreeSum> for SumText {
    fn from(sum: OrderFreeSum) -> Self {
        Self(sum.coarse.to_string(), sum.fine.to_string())
    }
}

impl TryFrom<SumText> for OrderFreeSum {
    type Error = std::num::ParseIntError;

    fn try_from(SumText(coarse, fine): SumText) -> Result<Self, Self::Error> {
        Ok(Self { coarse: coarse.parse()?, fine: fine.parse()? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sum_is_the_same_in_any_order_and_comes_back_from_json() {
        let terms: Vec<f64> =
            (1..2000).map(|at| libm::sin(f64::from(at)) / f64::from(at)).collect();
        let sum = |terms: &mut dyn Iterator<Item = &f64>| {
            let mut sum = OrderFreeSum::default();
            terms.for_each(|term| sum.add(*term));
            sum
        };
        let plain = |terms: &mut dyn Iterator<Item = &f64>| terms.sum::<f64>();
        let (forth, back) = (sum(&mut terms.iter()), sum(&mut terms.iter().rev()));
        assert_eq!(forth, back);
        // Floating-point numbers do not add up so, or the test would show nothing.
        let (there, again) = (plain(&mut terms.iter()), plain(&mut terms.iter().rev()));
        assert!(there.to_bits() != again.to_bits() && (there - forth.value()).abs() < 1e-14);
        let mut merged = sum(&mut terms[700..].iter());
        merged.merge(&sum(&mut terms[..700].iter()));
        assert_eq!(merged, forth);
        let text = serde_json::to_value(forth).unwrap();
        assert_eq!(serde_json::from_value::<OrderFreeSum>(text).unwrap(), forth);
    }

    #[test]
    fn a_single_term_comes_back_to_the_bit() {
        for term in [0.0, -0.007_771_326_069_331_157, 3.3, -1.0 / 3.0, 1e-14, 12_345.678_9] {
            assert_eq!(OrderFreeSum::from(term).value().to_bits(), f64::to_bits(term));
        }
    }
}

//! The middle and the intervals of a number over weighted members.

/// Quantiles of a number over an ensemble.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CredibleInterval {
    /// The median.
    pub middle: f64,
    /// From the 25th to the 75th percentile.
    pub half: (f64, f64),
    /// From the 5th to the 95th percentile.
    pub ninety: (f64, f64),
}

impl CredibleInterval {
    /// Of values with their weights; values that are no numbers are left out. `None` without any.
    pub fn of(values: &[f64], weights: &[f64]) -> Option<Self> {
        let mut pairs: Vec<(f64, f64)> = values
            .iter()
            .copied()
            .zip(weights.iter().copied())
            .filter(|(value, weight)| value.is_finite() && *weight > 0.0)
            .collect();
        if pairs.is_empty() {
            return None;
        }
        pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
        let whole: f64 = pairs.iter().map(|(_, weight)| weight).sum();
        let at = |share: f64| quantile(&pairs, share * whole);
        Some(Self { middle: at(0.5), half: (at(0.25), at(0.75)), ninety: (at(0.05), at(0.95)) })
    }

    /// The width of the 90 % interval.
    pub fn width(&self) -> f64 {
        self.ninety.1 - self.ninety.0
    }
}

/// The value at which the weights' sum reaches `mark`, each value standing at the middle of its weight and
/// straight lines between (Hyndman & Fan 1996, The American Statistician 50(4):361–365, definition 5).
fn quantile(pairs: &[(f64, f64)], mark: f64) -> f64 {
    let mut sum = 0.0;
    let mut last: Option<(f64, f64)> = None;
    for &(value, weight) in pairs {
        let here = sum + 0.5 * weight;
        if here >= mark {
            return match last {
                Some((before, there)) if here > there => {
                    before + (value - before) * (mark - there) / (here - there)
                }
                _ => value,
            };
        }
        last = Some((value, here));
        sum += weight;
    }
    pairs[pairs.len() - 1].0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_weights_give_numpys_hazen_quantiles() {
        // numpy 2: numpy.quantile([3, 1, 4, 1.5, 9, 2.6, 5], q, method="hazen"), q = 0.05 … 0.95.
        let values = [3.0, 1.0, 4.0, 1.5, 9.0, 2.6, 5.0];
        let interval = CredibleInterval::of(&values, &[1.0; 7]).expect("values");
        assert_eq!(interval.middle, 3.0);
        assert!((interval.half.0 - 1.775).abs() < 1e-12, "{interval:?}");
        assert!((interval.half.1 - 4.75).abs() < 1e-12, "{interval:?}");
        assert_eq!(interval.ninety, (1.0, 9.0));
    }

    #[test]
    fn a_weight_is_as_good_as_so_many_equal_values() {
        let once = CredibleInterval::of(&[1.0, 2.0, 3.0], &[1.0, 1.0, 1.0]).expect("values");
        assert_eq!(once.middle, 2.0);
        assert_eq!(CredibleInterval::of(&[f64::NAN, 7.0], &[5.0, 1.0]).expect("one").middle, 7.0);
        assert_eq!(CredibleInterval::of(&[f64::NAN], &[1.0]), None);
    }
}

//! A mean over weighted members, and how sure it is.

/// A weighted mean and its standard error, √Σ w²(x − mean)² (Owen 2013, *Monte Carlo theory, methods and
/// examples*, section 9.2): weights add up to 1.
pub(crate) fn weighted_mean(
    values: impl Iterator<Item = f64> + Clone,
    weights: &[f64],
) -> (f64, f64) {
    let mean: f64 = values.clone().zip(weights).map(|(value, weight)| weight * value).sum();
    let squares: f64 =
        values.zip(weights).map(|(value, w)| w * w * (value - mean) * (value - mean)).sum();
    // A sum of nothing is -0.
    (mean + 0.0, squares.sqrt())
}

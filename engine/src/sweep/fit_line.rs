//! The straight line nearest to (contact, start) pairs.

use serde::Serialize;

/// start = slope·contact + offset, and the quality of the fit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LineFit {
    /// Diamonds of start per diamond of contact.
    pub slope: f64,
    /// Diamonds.
    pub offset: f64,
    /// Root mean square of the residuals, diamonds.
    pub rms: f64,
    /// The largest residual, diamonds, signed (data minus line).
    pub worst: f64,
    /// The number of pairs.
    pub count: usize,
}

/// Least squares through the origin; `None` without a pair off zero.
pub fn fit_through_origin(pairs: &[(f64, f64)]) -> Option<LineFit> {
    let squares: f64 = pairs.iter().map(|(x, _)| x * x).sum();
    let products: f64 = pairs.iter().map(|(x, y)| x * y).sum();
    (squares > 0.0).then(|| with_residuals(pairs, products / squares, 0.0))
}

/// Least squares with an offset; `None` for fewer than two different contacts.
pub fn fit_with_offset(pairs: &[(f64, f64)]) -> Option<LineFit> {
    let count = pairs.len() as f64;
    let mean_x = pairs.iter().map(|(x, _)| x).sum::<f64>() / count;
    let mean_y = pairs.iter().map(|(_, y)| y).sum::<f64>() / count;
    let squares: f64 = pairs.iter().map(|(x, _)| (x - mean_x) * (x - mean_x)).sum();
    let products: f64 = pairs.iter().map(|(x, y)| (x - mean_x) * (y - mean_y)).sum();
    (squares > 0.0).then(|| {
        let slope = products / squares;
        with_residuals(pairs, slope, mean_y - slope * mean_x)
    })
}

fn with_residuals(pairs: &[(f64, f64)], slope: f64, offset: f64) -> LineFit {
    let residual = |(x, y): &(f64, f64)| y - (slope * x + offset);
    let squares: f64 = pairs.iter().map(|pair| residual(pair) * residual(pair)).sum();
    let worst = pairs
        .iter()
        .map(residual)
        .fold(0.0, |worst: f64, next| if next.abs() > worst.abs() { next } else { worst });
    LineFit { slope, offset, rms: (squares / pairs.len() as f64).sqrt(), worst, count: pairs.len() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_a_line_that_is_there() {
        let pairs = [(1.0, 2.5), (2.0, 4.75), (3.0, 7.0)];
        let fit = fit_with_offset(&pairs).unwrap();
        assert!((fit.slope - 2.25).abs() < 1e-12 && (fit.offset - 0.25).abs() < 1e-12);
        assert!(fit.rms < 1e-12);
        assert!(fit_with_offset(&pairs[..1]).is_none());
    }

    #[test]
    fn through_the_origin_weighs_far_points_more() {
        // Hand calculation: (1·2 + 2·5)/(1 + 4) = 2.4.
        assert_eq!(fit_through_origin(&[(1.0, 2.0), (2.0, 5.0)]).unwrap().slope, 2.4);
    }
}

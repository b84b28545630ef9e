//! Stable roots of the quadratics that say when a moving ball crosses a line.

/// The smallest root of a·t² + b·t + c = 0 with `low < t <= high`, or `None`.
///
/// The root that would lose digits is taken from the product of the roots instead, and a single
/// Newton step at the end polishes the last bits.
#[inline]
pub fn first_root_in(a: f64, b: f64, c: f64, low: f64, high: f64) -> Option<f64> {
    let inside = |t: f64| t > low && t <= high;
    if a == 0.0 {
        if b == 0.0 {
            return None;
        }
        return Some(-c / b).filter(|t| inside(*t));
    }
    let discriminant = b * b - 4.0 * a * c;
    if discriminant < 0.0 || !discriminant.is_finite() {
        return None;
    }
    let root = discriminant.sqrt();
    let q = -0.5 * (b + if b < 0.0 { -root } else { root });
    let (first, second) = if q == 0.0 { (0.0, 0.0) } else { (q / a, c / q) };
    let (early, late) = if first <= second { (first, second) } else { (second, first) };
    let polish = |t: f64| {
        let slope = 2.0 * a * t + b;
        let step = ((a * t + b) * t + c) / slope;
        if step.is_finite() && step.abs() < 1e-6 * (1.0 + t.abs()) { t - step } else { t }
    };
    // The later root is seldom wanted, and its division costs.
    Some(polish(early)).filter(|t| inside(*t)).or_else(|| Some(polish(late)).filter(|t| inside(*t)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keeps_the_digits_of_a_small_root() {
        // 1e-9·t² − t + 1e-9: the small root is 1e-9 to within 1e-27.
        let root = first_root_in(1e-9, -1.0, 1e-9, 0.0, 1.0).unwrap();
        assert!((root - 1e-9).abs() < 1e-24);
    }

    #[test]
    fn takes_the_first_root_after_the_low_end() {
        assert_eq!(first_root_in(1.0, -3.0, 2.0, 0.0, 9.0), Some(1.0));
        assert_eq!(first_root_in(1.0, -3.0, 2.0, 1.0, 9.0), Some(2.0));
        assert_eq!(first_root_in(1.0, -3.0, 2.0, 2.0, 9.0), None);
        assert_eq!(first_root_in(0.0, 0.0, 2.0, 0.0, 9.0), None);
    }
}

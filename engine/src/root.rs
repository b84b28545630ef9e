//! A bracketed root, and the edge of a stretch where something holds.

/// A root of `f` between two places where its signs differ, as (place, value there).
///
/// The ITP method (interpolate, truncate, project): Oliveira & Takahashi 2021, *An enhancement of
/// the bisection method average performance preserving minmax optimality*, ACM Trans. Math. Softw.
/// 47(1):5, with κ₁ = 0.2/(b − a), κ₂ = 2, n₀ = 1 (quoted from memory). It never takes more than one
/// step over bisection, whatever `f` is, and closes in superlinearly where `f` is smooth. The
/// bracket is narrowed to a few units in the last place, and the better end is returned: where `f`
/// jumps over zero its value there is not small, which the caller must check.
///
/// # Errors
/// The first error of `f`.
pub(crate) fn bracketed_root<E>(
    mut f: impl FnMut(f64) -> Result<f64, E>,
    low: (f64, f64),
    high: (f64, f64),
) -> Result<(f64, f64), E> {
    let (mut low, mut high) = (low, high);
    let rising = high.1 > low.1;
    let tolerance = 2.0 * f64::EPSILON * low.0.abs().max(high.0.abs()).max(f64::MIN_POSITIVE);
    let truncation = 0.2 / (high.0 - low.0);
    // Half the bracket that bisection would have after the steps taken so far and one to spare.
    let mut reach = tolerance;
    while reach < 0.5 * (high.0 - low.0) {
        reach *= 2.0;
    }
    reach *= 2.0;
    while high.0 - low.0 > 2.0 * tolerance {
        let width = high.0 - low.0;
        let half = low.0 + 0.5 * width;
        let leeway = reach - 0.5 * width;
        let secant = (high.1 * low.0 - low.1 * high.0) / (high.1 - low.1);
        let to_half = half - secant;
        let nudge = truncation * width * width;
        let truncated =
            if nudge <= to_half.abs() { secant + nudge.copysign(to_half) } else { half };
        let projected = if (truncated - half).abs() <= leeway {
            truncated
        } else {
            half - leeway.max(0.0).copysign(to_half)
        };
        // Rounding can land on an end, or on no number at all when the values overflow.
        let next = if projected > low.0 && projected < high.0 { projected } else { half };
        let value = f(next)?;
        if value == 0.0 {
            return Ok((next, value));
        }
        if (value > 0.0) == rising {
            high = (next, value);
        } else {
            low = (next, value);
        }
        reach *= 0.5;
    }
    Ok(if low.1.abs() <= high.1.abs() { low } else { high })
}

/// Bisects between a place where something holds and one where it does not until they are within
/// `tolerance` of the first; gives the place where it holds.
///
/// # Errors
/// The first error of `holds`.
pub(crate) fn last_true<E>(
    (mut yes, mut no): (f64, f64),
    tolerance: impl Fn(f64) -> f64,
    mut holds: impl FnMut(f64) -> Result<bool, E>,
) -> Result<f64, E> {
    while (yes - no).abs() > tolerance(yes) {
        let middle = 0.5 * (yes + no);
        if middle == yes || middle == no {
            break;
        }
        if holds(middle)? { yes = middle } else { no = middle }
    }
    Ok(yes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn solve(f: impl Fn(f64) -> f64, low: f64, high: f64) -> (f64, f64, usize) {
        let mut calls = 0;
        let root = bracketed_root::<()>(
            |x| {
                calls += 1;
                Ok(f(x))
            },
            (low, f(low)),
            (high, f(high)),
        );
        let (place, value) = root.unwrap();
        (place, value, calls)
    }

    #[test]
    fn finds_smooth_roots_to_the_last_places_in_few_steps() {
        let (place, _, calls) = solve(|x| x * x - 2.0, 0.0, 2.0);
        assert!((place - core::f64::consts::SQRT_2).abs() < 1e-15);
        assert!(calls < 20, "{calls}");
        let (place, _, _) = solve(|x| 5.0 - x * x * x, 1.0, 3.0);
        assert!((place * place * place - 5.0).abs() < 1e-14);
    }

    #[test]
    fn never_needs_much_more_than_bisection() {
        // A ninth-order root at 0.3 defeats the secant.
        let ninth = |x: f64| {
            let cube = (x - 0.3) * (x - 0.3) * (x - 0.3);
            cube * cube * cube
        };
        let (place, _, calls) = solve(ninth, -1.0, 4.0);
        assert!((place - 0.3).abs() < 1e-15);
        // Bisection from width 5 to 4 units in the last place of 4: 52 halvings.
        assert!(calls <= 54, "{calls}");
    }

    #[test]
    fn a_jump_over_zero_is_left_with_a_large_value() {
        let (place, value, _) = solve(|x| if x < 0.7 { -1.0 } else { 2.0 }, 0.0, 1.0);
        assert!((place - 0.7).abs() < 1e-15);
        assert!(value.abs() >= 1.0);
    }

    #[test]
    fn errors_pass_through() {
        assert_eq!(bracketed_root(|_| Err("no"), (0.0, -1.0), (1.0, 1.0)), Err("no"));
    }
}

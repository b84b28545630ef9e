//! One edge between a place where it holds and one where it does not, closed to a tolerance.

use super::probe::{Probe, insert};

/// The share of the tolerance by which a look is set beside the place where the edge is expected:
/// when the guess is right, the next look on its other side closes the bracket.
const BESIDE: f64 = 0.45;

/// Closes the bracket of looks `index` and `index + 1`, whose verdicts differ, to `tolerance`.
/// Every look is kept among the looks; returns the index of the closed bracket's lower end.
///
/// The verdict decides on which side a look falls; the room on the broken side, where there is one,
/// only says where to look, by a parabola or a line through the looks nearby. A root finder that is
/// after the root itself converges from one side and leaves a wide bracket, so each look here is
/// set beside the expected place, on the side of the wider rest. When three looks have not halved
/// the bracket, the next bisects it: at most about four times as many looks as bisection takes,
/// usually two or three.
pub(super) fn close<T, E>(
    looks: &mut Vec<Probe<T>>,
    index: usize,
    tolerance: f64,
    look: &mut impl FnMut(f64) -> Result<Probe<T>, E>,
) -> Result<usize, E> {
    let mut low = index;
    let (mut since_halving, mut goal) = (0, 0.5 * width(looks, low));
    while width(looks, low) > tolerance {
        let (from, to) = (looks[low].at, looks[low + 1].at);
        let half = from + 0.5 * (to - from);
        let next = match expected(looks, low) {
            Some(edge) if since_halving < 3 => beside(edge, from, to, tolerance),
            _ => half,
        };
        // Rounding can land on an end.
        let next = if next > from && next < to { next } else { half };
        if next <= from || next >= to {
            break;
        }
        let new = look(next)?;
        let same_as_low = new.holds == looks[low].holds;
        let at = insert(looks, new);
        low = if same_as_low { at } else { at - 1 };
        since_halving += 1;
        if width(looks, low) <= goal {
            (since_halving, goal) = (0, 0.5 * width(looks, low));
        }
    }
    Ok(low)
}

fn width<T>(looks: &[Probe<T>], low: usize) -> f64 {
    looks[low + 1].at - looks[low].at
}

/// A look that closes the bracket if it can be closed by one, or else cuts off the wider rest.
fn beside(edge: f64, from: f64, to: f64, tolerance: f64) -> f64 {
    let (before, after) = (edge - from, to - edge);
    if before <= BESIDE * tolerance {
        from + 2.0 * BESIDE * tolerance
    } else if after <= BESIDE * tolerance {
        to - 2.0 * BESIDE * tolerance
    } else if after >= before {
        edge + BESIDE * tolerance
    } else {
        edge - BESIDE * tolerance
    }
}

/// Where the room on the broken side is expected to vanish within a bracket.
fn expected<T>(looks: &[Probe<T>], low: usize) -> Option<f64> {
    let (a, b) = (&looks[low], &looks[low + 1]);
    let broken = if a.holds { b } else { a };
    let side = broken.broken_side()?;
    let (from, to) = ((a.at, a.room(side)?), (b.at, b.room(side)?));
    if (from.1 > 0.0) == (to.1 > 0.0) {
        return None;
    }
    let secant = from.0 - from.1 * (to.0 - from.0) / (to.1 - from.1);
    // The third point is the nearer neighbour.
    let before = low.checked_sub(1).and_then(|at| looks.get(at));
    let after = looks.get(low + 2);
    let third = match (before, after) {
        (Some(before), Some(after)) if after.at - b.at < a.at - before.at => Some(after),
        (Some(before), _) => Some(before),
        (None, after) => after,
    };
    let curved = third
        .and_then(|third| Some((third.at, third.room(side)?)))
        .and_then(|third| parabola_root(from, to, third));
    Some(curved.unwrap_or(secant))
}

/// The root between `a` and `b`, whose values differ in sign, of the parabola through three points.
fn parabola_root(a: (f64, f64), b: (f64, f64), c: (f64, f64)) -> Option<f64> {
    let slope = (b.1 - a.1) / (b.0 - a.0);
    let other = (c.1 - b.1) / (c.0 - b.0);
    let bend = (other - slope) / (c.0 - a.0);
    // a.1 + (x − a)·slope + (x − a)(x − b)·bend = 0 with s = x − a.
    let linear = slope - bend * (b.0 - a.0);
    let discriminant = linear * linear - 4.0 * bend * a.1;
    if !discriminant.is_finite() || discriminant < 0.0 {
        return None;
    }
    let sum = linear + discriminant.sqrt().copysign(linear);
    let roots = [-2.0 * a.1 / sum, -0.5 * sum / bend];
    roots.into_iter().map(|s| a.0 + s).find(|x| *x > a.0 && *x < b.0)
}

#[cfg(test)]
mod tests {
    use super::super::probe::testing::room;
    use super::*;

    fn closed(f: impl Fn(f64) -> f64, from: f64, to: f64, tolerance: f64) -> (f64, f64, usize) {
        let look = room(f);
        let mut looks = vec![look(from).unwrap(), look(to).unwrap()];
        let mut count = 0;
        let low = close(&mut looks, 0, tolerance, &mut |at| {
            count += 1;
            look(at)
        })
        .unwrap();
        assert!(looks.is_sorted_by(|a, b| a.at < b.at));
        assert_ne!(looks[low].holds, looks[low + 1].holds);
        (looks[low].at, looks[low + 1].at, count)
    }

    #[test]
    fn a_smooth_edge_takes_few_looks() {
        let (low, high, looks) = closed(|x| x * x - 2.0, 1.0, 2.0, 1e-3);
        assert!(low < core::f64::consts::SQRT_2 && core::f64::consts::SQRT_2 <= high);
        assert!(high - low <= 1e-3);
        // Bisection takes ten.
        assert!(looks <= 4, "{looks}");
        let (low, high, looks) = closed(|x| libm::exp(-x) - 0.3, 0.0, 3.0, 1e-6);
        assert!(low <= -libm::log(0.3) && -libm::log(0.3) <= high && high - low <= 1e-6);
        // Measured: eight. Bisection takes 22.
        assert!(looks <= 9, "{looks}");
    }

    #[test]
    fn a_jump_and_a_flat_root_still_close() {
        let (low, high, _) = closed(|x| if x < 0.7 { -1.0 } else { 2.0 }, 0.0, 1.0, 1e-6);
        assert!(low < 0.7 && 0.7 <= high && high - low <= 1e-6);
        let ninth = |x: f64| {
            let cube = (x - 0.3) * (x - 0.3) * (x - 0.3);
            cube * cube * cube
        };
        let (low, high, looks) = closed(ninth, -1.0, 4.0, 1e-6);
        assert!(low <= 0.3 && 0.3 <= high && high - low <= 1e-6);
        assert!(looks <= 4 * 23, "{looks}");
    }

    #[test]
    fn without_rooms_it_bisects() {
        let look = |at: f64| -> Result<Probe<()>, ()> {
            Ok(Probe { at, holds: at > 0.37, rooms: None, what: () })
        };
        let mut looks = vec![look(0.0).unwrap(), look(1.0).unwrap()];
        let low = close(&mut looks, 0, 1e-3, &mut { look }).unwrap();
        assert!(looks[low].at <= 0.37 && 0.37 < looks[low + 1].at);
        assert_eq!(looks.len(), 12);
    }
}

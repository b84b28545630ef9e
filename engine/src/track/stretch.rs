//! The place where a way breaks in two.

use super::parabola::{Parabola, TimedPlace};

/// The least points of a stretch: one more than a fit takes.
pub(super) const FEWEST: usize = 4;
/// The least points of a stretch that ends a side: fewer tell a speed poorly. Chosen.
const FEWEST_AT_RAIL: usize = 12;
/// Candidates looked at in a round.
const LOOKS: usize = 128;
/// A break within a side is believed from this ratio of variances on. Chosen far out: the best of many splits of mere
/// scatter seldom reaches 3.
const BELIEVED: f64 = 5.0;

/// The first point of the second of two fits that leave least, and the sum of squares that they leave.
/// Each takes `fewest` points or more.
pub(super) fn best_split(places: &[TimedPlace], fewest: usize) -> Option<(usize, f64)> {
    let (mut from, mut to) = (fewest, places.len().checked_sub(fewest)?);
    let left = |at: usize| {
        let (before, after) = places.split_at(at);
        Some(Parabola::new(before)?.left_m2 + Parabola::new(after)?.left_m2)
    };
    loop {
        let step = (to.checked_sub(from)? / LOOKS).max(1);
        let looks = (from..=to).step_by(step).filter_map(|at| Some((at, left(at)?)));
        let best = looks.min_by(|one, other| one.1.total_cmp(&other.1))?;
        if step == 1 {
            return Some(best);
        }
        from = from.max(best.0 - step.min(best.0));
        to = to.min(best.0 + step);
    }
}

/// The break inside one side of a bank, when two fits tell it much better than one.
pub(super) fn inner_break(places: &[TimedPlace]) -> Option<usize> {
    let one = Parabola::new(places)?.left_m2;
    let (at, two) = best_split(places, FEWEST_AT_RAIL)?;
    // Six more numbers; the time of the break is a seventh.
    let degrees = (2 * places.len()).checked_sub(13).filter(|it| *it > 0)?;
    let ratio = ((one - two) / 7.0) / (two / degrees as f64);
    // Rounding alone is no break.
    let is_seen = (one / places.len() as f64).sqrt() > 1e-7;
    (is_seen && ratio > BELIEVED).then_some(at)
}

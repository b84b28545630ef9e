//! Many lines beside each other: probed at the given places, traced in between.

use super::edge::close;
use super::line::{HoldingStretch, Limit, LineFindings, search};
use super::probe::{Looks, Probe, insert};
use rayon::prelude::*;

/// One line of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SheetLine<T> {
    pub across: f64,
    /// The looks at it, when it was probed all along; `None` for a line on which only the edges of its
    /// neighbours were followed.
    pub seen: Option<LineFindings<T>>,
    pub stretches: Vec<HoldingStretch<T>>,
}

/// The places to look at, and the tolerance.
#[derive(Debug, Clone, Copy)]
pub(super) struct Net<'a> {
    /// Probes of a line, ascending.
    pub probes: &'a [f64],
    /// Tolerance along a line.
    pub along: f64,
    /// Tolerance across the lines.
    pub across: f64,
}

/// Searches a line at each of the places `across` (ascending) and follows the edges between them.
///
/// Between two neighbouring lines with the same stretches, edges are taken for straight pieces, and
/// these are checked at a third and two thirds of the way: two looks beside each piece, so close
/// that they also bracket the edge. Where a piece fails, its edge is found there and the parts are
/// checked in turn. Between neighbours with different stretches the line midway is searched all
/// along, until they are no further apart than the tolerance: so turning points are closed in on.
pub(super) fn sheet<T: Copy + Send + Sync, E: Send>(
    across: &[f64],
    net: Net<'_>,
    look: &(impl Looks<T, E> + Sync),
) -> Result<Vec<SheetLine<T>>, E> {
    let probed: Vec<SheetLine<T>> =
        across.par_iter().map(|at| probed(*at, net, look)).collect::<Result<_, E>>()?;
    let between: Vec<Vec<SheetLine<T>>> = probed
        .par_windows(2)
        .map(|pair| {
            let mut lines = Vec::new();
            refine(&pair[0], &pair[1], net, look, &mut lines)?;
            Ok(lines)
        })
        .collect::<Result<_, E>>()?;
    let mut between = between.into_iter();
    Ok(probed
        .into_iter()
        .flat_map(|line| std::iter::once(line).chain(between.next().unwrap_or_default()))
        .collect())
}

fn probed<T: Copy, E>(
    across: f64,
    net: Net<'_>,
    look: &impl Looks<T, E>,
) -> Result<SheetLine<T>, E> {
    let looks = look.look_along(across, net.probes)?;
    let seen = search(net.probes, looks, net.along, &mut |along| look.look(across, along))?;
    Ok(SheetLine { across, stretches: seen.stretches.clone(), seen: Some(seen) })
}

/// Appends the lines that are needed strictly between two.
fn refine<T: Copy, E>(
    a: &SheetLine<T>,
    b: &SheetLine<T>,
    net: Net<'_>,
    look: &impl Looks<T, E>,
    lines: &mut Vec<SheetLine<T>>,
) -> Result<(), E> {
    let gap = b.across - a.across;
    if gap <= net.across || !gap.is_finite() {
        return Ok(());
    }
    if !alike(a, b) {
        let middle = probed(a.across + 0.5 * gap, net, look)?;
        refine(a, &middle, net, look, lines)?;
        lines.push(middle.clone());
        return refine(&middle, b, net, look, lines);
    }
    if a.stretches.is_empty() {
        return Ok(());
    }
    let (first, straight) = traced(a, b, a.across + gap / 3.0, net, look)?;
    let (second, also) = traced(a, b, b.across - gap / 3.0, net, look)?;
    if straight && also {
        lines.extend([first, second]);
        return Ok(());
    }
    refine(a, &first, net, look, lines)?;
    lines.push(first.clone());
    refine(&first, &second, net, look, lines)?;
    lines.push(second.clone());
    refine(&second, b, net, look, lines)
}

/// Whether two lines have the same stretches: as many, each over the other, each end of the same
/// kind.
pub(super) fn alike<T>(a: &SheetLine<T>, b: &SheetLine<T>) -> bool {
    a.stretches.len() == b.stretches.len()
        && a.stretches.iter().zip(&b.stretches).all(|(a, b)| {
            overlap(a, b) && a.low.kind() == b.low.kind() && a.high.kind() == b.high.kind()
        })
}

/// Whether two stretches of neighbouring lines lie side by side.
pub(super) fn overlap<T>(a: &HoldingStretch<T>, b: &HoldingStretch<T>) -> bool {
    a.low.place().max(b.low.place()) <= a.high.place().min(b.high.place())
}

/// The line at `across`, between two that are alike, by their edges; and whether every edge lies on
/// the straight piece between theirs. A line on which an edge is not found nearby is searched.
fn traced<T: Copy, E>(
    a: &SheetLine<T>,
    b: &SheetLine<T>,
    across: f64,
    net: Net<'_>,
    look: &impl Looks<T, E>,
) -> Result<(SheetLine<T>, bool), E> {
    let share = (across - a.across) / (b.across - a.across);
    let between = |a: f64, b: f64| a + share * (b - a);
    let mut straight = true;
    let mut stretches = Vec::with_capacity(a.stretches.len());
    let mut along = |place| look.look(across, place);
    let lowest = net.probes.first().copied().unwrap_or(0.0);
    let highest = net.probes.last().copied().unwrap_or(0.0);
    let mut bound = lowest;
    for (index, (of_a, of_b)) in a.stretches.iter().zip(&b.stretches).enumerate() {
        let low = between(of_a.low.place(), of_b.low.place());
        let high = between(of_a.high.place(), of_b.high.place());
        let middle = 0.5 * (low + high);
        let next = match (a.stretches.get(index + 1), b.stretches.get(index + 1)) {
            (Some(a), Some(b)) => 0.5 * (high + between(a.low.place(), b.low.place())),
            _ => highest,
        };
        let mut edge = |of: &Limit<T>, at: f64, outer: f64| -> Result<_, E> {
            if matches!(of, Limit::Range(_)) {
                let end = along(at)?;
                return Ok(end.holds.then_some((Limit::Range(end), true)));
            }
            follow(at, middle, outer, net.along, &mut along)
        };
        let found = match edge(&of_a.low, low, bound)? {
            Some(low) => edge(&of_a.high, high, next)?.map(|high| (low, high)),
            None => None,
        };
        let Some(((low, low_straight), (high, high_straight))) = found else {
            return Ok((probed(across, net, look)?, false));
        };
        straight &= low_straight && high_straight;
        let room = |limit: &Limit<T>| limit.holding().least_room().unwrap_or(f64::NEG_INFINITY);
        let best = if room(&high) > room(&low) { *high.holding() } else { *low.holding() };
        stretches.push(HoldingStretch { low, high, best });
        bound = next;
    }
    let line = SheetLine { across, seen: None, stretches };
    // An edge that broke in another way than its neighbours' is no sign of a straight piece.
    let straight = straight && alike(a, &line);
    Ok((line, straight))
}

/// The edge near `at`, holding towards `inner`: found by two looks when it is within the tolerance
/// of it, which is the second answer, and by wider ones up to `inner` and `outer` otherwise. `None`
/// when it is not between those.
fn follow<T: Copy, E>(
    at: f64,
    inner: f64,
    outer: f64,
    tolerance: f64,
    look: &mut impl FnMut(f64) -> Result<Probe<T>, E>,
) -> Result<Option<(Limit<T>, bool)>, E> {
    let inwards = if inner > at { 1.0 } else { -1.0 };
    let within = |place: f64| (place - inner) * inwards < 0.0 && (place - outer) * inwards > 0.0;
    let mut reach = 0.49 * tolerance;
    let (inside, outside) = (at + inwards * reach, at - inwards * reach);
    if !within(inside) || !within(outside) {
        return Ok(None);
    }
    let mut looks = vec![look(inside)?];
    insert(&mut looks, look(outside)?);
    let pick = |looks: &[Probe<T>]| {
        looks.windows(2).position(|pair| {
            (pair[0].holds, pair[1].holds)
                == if inwards > 0.0 { (false, true) } else { (true, false) }
        })
    };
    let straight = pick(&looks).is_some();
    let mut found = pick(&looks);
    while found.is_none() {
        // Both hold: the edge is further out. Both break: further in.
        let (a, b) = (looks[0], looks[looks.len() - 1]);
        let out = if a.holds { -inwards } else { inwards };
        reach *= 3.0;
        let nearest = if out > 0.0 { b.at } else { a.at };
        let guess = expected_beyond(&looks, out).unwrap_or(0.0).max(reach);
        let next = nearest + out * guess;
        if !within(next) {
            return Ok(None);
        }
        insert(&mut looks, look(next)?);
        found = pick(&looks);
    }
    let Some(found) = found else { return Ok(None) };
    let low = close(&mut looks, found, tolerance, look)?;
    let (one, other) = (looks[low], looks[low + 1]);
    let (holding, breaking) = if one.holds { (one, other) } else { (other, one) };
    Ok(Some((Limit::Edge { holding, breaking }, straight)))
}

/// The distance beyond the outermost look, towards `out`, at which the room that decides is expected to
/// vanish, and a little more.
fn expected_beyond<T>(looks: &[Probe<T>], out: f64) -> Option<f64> {
    let (first, last) = (looks.first()?, looks.last()?);
    let (from, to) = if out > 0.0 { (first, last) } else { (last, first) };
    let side = match to.broken_side() {
        Some(side) => side,
        // It holds: the room that falls fastest towards there is the one that will run out.
        None => {
            let fall = |side| Some(from.room(side)? - to.room(side)?);
            usize::from(fall(1)? > fall(0)?)
        }
    };
    let slope = (to.room(side)? - from.room(side)?) / (to.at - from.at).abs();
    let distance = -to.room(side)? / slope;
    (distance.is_finite() && distance > 0.0).then_some(1.05 * distance)
}

#[cfg(test)]
#[path = "sheet_tests.rs"]
mod tests;

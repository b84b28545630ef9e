//! All stretches of one line where it holds.

use super::edge::close;
use super::hidden_change::suspicion;
use super::probe::{Probe, insert};

/// Extra looks between two neighbouring probes, at most, for changes that may hide there.
const MOST_SUSPICIONS: usize = 16;

/// Where a stretch that holds ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Limit<T> {
    /// At the end of the searched range, where it still holds.
    Range(Probe<T>),
    /// Between these two.
    Edge { holding: Probe<T>, breaking: Probe<T> },
}

impl<T> Limit<T> {
    /// The last place where it was seen to hold.
    pub fn holding(&self) -> &Probe<T> {
        match self {
            Self::Range(one) | Self::Edge { holding: one, .. } => one,
        }
    }

    /// The middle of the bracket, or the end of the range.
    pub fn place(&self) -> f64 {
        match self {
            Self::Range(one) => one.at,
            Self::Edge { holding, breaking } => 0.5 * (holding.at + breaking.at),
        }
    }

    /// The side on which it breaks, as in [`Probe::broken_side`]; 2 for another break, 3 for the
    /// end of the range.
    pub fn kind(&self) -> usize {
        match self {
            Self::Range(_) => 3,
            Self::Edge { breaking, .. } => breaking.broken_side().unwrap_or(2),
        }
    }
}

/// A stretch that holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct HoldingStretch<T> {
    pub low: Limit<T>,
    pub high: Limit<T>,
    /// The look within it that has the most room.
    pub best: Probe<T>,
}

/// The findings on one line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LineFindings<T> {
    pub stretches: Vec<HoldingStretch<T>>,
    /// Every look, in order.
    pub looks: Vec<Probe<T>>,
    /// The widest stretch between two neighbouring looks that agree.
    pub widest_gap: f64,
    /// The number of gaps between probes that may still hide something when the looks for them ran out.
    pub unsettled: usize,
}

/// Goes on from a look at every probe (in ascending order, at least two), follows up what may hide between them,
/// and closes every edge to `tolerance`.
pub(super) fn search<T: Copy, E>(
    probes: &[f64],
    mut looks: Vec<Probe<T>>,
    tolerance: f64,
    look: &mut impl FnMut(f64) -> Result<Probe<T>, E>,
) -> Result<LineFindings<T>, E> {
    let mut spent = vec![0_usize; probes.len()];
    let mut unsettled = 0;
    let mut index = 0;
    while index + 1 < looks.len() {
        let (a, b) = (looks[index], looks[index + 1]);
        if b.at - a.at <= tolerance {
            index += 1;
            continue;
        }
        if a.holds != b.holds {
            close(&mut looks, index, tolerance, look)?;
            // What was learnt there speaks about the stretches on both sides.
            index = index.saturating_sub(1);
            continue;
        }
        let gap = probes.partition_point(|probe| *probe <= a.at).saturating_sub(1);
        let apart = probes.get(gap + 1).map_or(0.0, |next| next - probes[gap]);
        match suspicion(&looks, index, apart) {
            Some(place) if spent[gap] < MOST_SUSPICIONS && place > a.at && place < b.at => {
                spent[gap] += 1;
                insert(&mut looks, look(place)?);
                index = index.saturating_sub(1);
            }
            Some(_) if spent[gap] == MOST_SUSPICIONS => {
                spent[gap] += 1;
                unsettled += 1;
                index += 1;
            }
            _ => index += 1,
        }
    }
    let widest_gap = looks
        .windows(2)
        .filter(|pair| pair[0].holds == pair[1].holds)
        .map(|pair| pair[1].at - pair[0].at)
        .fold(0.0, f64::max);
    Ok(LineFindings { stretches: stretches(&looks), looks, widest_gap, unsettled })
}

fn stretches<T: Copy>(looks: &[Probe<T>]) -> Vec<HoldingStretch<T>> {
    let mut found = Vec::new();
    let mut from = 0;
    for run in looks.chunk_by(|a, b| a.holds == b.holds) {
        let to = from + run.len() - 1;
        if run[0].holds {
            let limit = |end: usize, beyond: Option<usize>| match beyond
                .and_then(|at| looks.get(at))
                .copied()
            {
                Some(breaking) => Limit::Edge { holding: looks[end], breaking },
                None => Limit::Range(looks[end]),
            };
            let room = |one: &Probe<T>| one.least_room().unwrap_or(f64::NEG_INFINITY);
            let best = run.iter().fold(
                run[0],
                |best, next| {
                    if room(next) > room(&best) { *next } else { best }
                },
            );
            found.push(HoldingStretch {
                low: limit(from, from.checked_sub(1)),
                high: limit(to, Some(to + 1)),
                best,
            });
        }
        from = to + 1;
    }
    found
}

#[cfg(test)]
#[path = "line_tests.rs"]
mod tests;

//! Windows between the speeds and sides at which they were looked for.
//!
//! Edges move nearly straight from one speed to the next, but a ball that is hit too softly never comes to the pocket,
//! and there the windows end at once. So speeds and sides lie on a grid; where the number of windows changes from one
//! speed to the next, the speed at which it does is closed in on ([`Cut`]); and between two that are known the edges are
//! drawn straight ([`SideRow`]). A normal law is then taken in strata of equal shares.

use super::nodes::SpreadGrid;
use super::window::{WeightedWindow, Window, Windows};

/// Two neighbours of one side with other numbers of windows, and what was looked at between them.
#[derive(Debug, Clone)]
pub(super) struct Cut {
    /// The side, by its place in the grid.
    pub(super) side: usize,
    /// The node before it, by its place among the speeds.
    after: usize,
    /// The fastest of the slower kind and the slowest of the faster, standard deviations.
    places: [f64; 2],
    /// The number of windows of the slower kind.
    count: usize,
    /// What holds at speeds between the nodes, in their order: closer together the nearer the change.
    known: Vec<(f64, Windows)>,
}

impl Cut {
    /// A new one wherever two neighbours differ.
    pub(super) fn between(grid: &SpreadGrid, windows: &[Windows]) -> Vec<Self> {
        let mut cuts = Vec::new();
        for side in 0..grid.sides.len() {
            for after in 0..grid.speeds.len() - 1 {
                let count = |speed: usize| windows[grid.node(speed, side)].len();
                if count(after) != count(after + 1) {
                    let places = [grid.speeds[after], grid.speeds[after + 1]];
                    cuts.push(Self { side, after, places, count: count(after), known: Vec::new() });
                }
            }
        }
        cuts
    }

    /// The speed between both.
    pub(super) fn middle(&self) -> f64 {
        0.5 * (self.places[0] + self.places[1])
    }

    /// Takes what holds in the middle for the end that it is like.
    pub(super) fn close_in(&mut self, windows: Windows) {
        let middle = self.middle();
        self.places[usize::from(windows.len() != self.count)] = middle;
        let at = self.known.partition_point(|(place, _)| *place < middle);
        self.known.insert(at, (middle, windows));
    }
}

/// What holds with one side, from the slowest speed to the fastest.
struct SideRow<'a>(Vec<(f64, &'a [Window])>);

impl<'a> SideRow<'a> {
    /// Of every so many speeds.
    fn of(
        grid: &SpreadGrid,
        windows: &'a [Windows],
        cuts: &'a [Cut],
        side: usize,
        every: usize,
    ) -> Self {
        let mut known = Vec::with_capacity(grid.speeds.len());
        for (speed, place) in grid.speeds.iter().enumerate() {
            if speed % every == 0 {
                known.push((*place, windows[grid.node(speed, side)].as_slice()));
            }
            for cut in cuts.iter().filter(|cut| cut.side == side && cut.after == speed) {
                known.extend(cut.known.iter().map(|(place, it)| (*place, it.as_slice())));
            }
        }
        Self(known)
    }

    /// What holds at a speed.
    fn at(&self, place: f64) -> Windows {
        let known = &self.0;
        let next =
            known.partition_point(|(speed, _)| *speed < place).clamp(1, known.len().max(2) - 1);
        match known.get(next) {
            Some((faster, after)) => {
                let (slower, before) = known[next - 1];
                between((slower, before), (*faster, after), place)
            }
            None => Windows::from_slice(known[0].1),
        }
    }
}

/// What holds between two places: the straight way from one edge to the other, or that of the nearer place.
fn between((from, before): (f64, &[Window]), (to, after): (f64, &[Window]), place: f64) -> Windows {
    let share = (place - from) / (to - from);
    match (before, after) {
        ([one], [other]) => {
            let way = |one: f64, other: f64| one + share * (other - one);
            let window = Window { from: way(one.from, other.from), to: way(one.to, other.to) };
            // Edges that pass each other leave nothing.
            if window.from < window.to { Windows::from_slice(&[window]) } else { Windows::new() }
        }
        _ => Windows::from_slice(if share < 0.5 { before } else { after }),
    }
}

/// Which strata, and of which of the integral's two weights.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum StrataOf {
    /// All of the law.
    Whole,
    /// Half of the nodes and of the strata, by which the error is judged.
    Rough,
}

/// The windows of one condition on one table over all strata of the law, or over half of them.
pub(super) fn over_strata(
    grid: &SpreadGrid,
    windows: &[Windows],
    cuts: &[Cut],
    of: StrataOf,
) -> Vec<WeightedWindow> {
    let (every, [speeds, sides]) = match of {
        StrataOf::Whole => (1, &grid.strata),
        StrataOf::Rough => (2, &grid.rough_strata),
    };
    let kept = (0..grid.sides.len()).filter(|at| at % every == 0);
    let rows: Vec<(f64, SideRow<'_>)> = kept
        .map(|side| (grid.sides[side], SideRow::of(grid, windows, cuts, side, every)))
        .collect();
    let share = 1.0 / (speeds.len() * sides.len()) as f64;
    let (weight, rough_weight) = match of {
        StrataOf::Whole => (share, 0.0),
        StrataOf::Rough => (0.0, share),
    };
    let mut out = Vec::new();
    for speed in speeds {
        let at_speed: Vec<(f64, Windows)> =
            rows.iter().map(|(side, row)| (*side, row.at(*speed))).collect();
        let known: Vec<(f64, &[Window])> =
            at_speed.iter().map(|(side, windows)| (*side, windows.as_slice())).collect();
        let row = SideRow(known);
        for side in sides {
            let here = row.at(*side).into_iter();
            out.extend(here.map(|window| WeightedWindow { weight, rough_weight, window }));
        }
    }
    out
}

//! Windows at other speeds and sides, from those of the shot as it is meant.

use super::looks::{Look, Looks, Point};
use super::scan::{self, NEAR_M};
use super::Windows;
use crate::chance::Window;

/// Between two looks at one edge when nothing is known of its slope, diamonds.
const FIRST_STEP: f64 = 0.02;
/// A longer step has lost the edge, diamonds.
const LONGEST_STEP: f64 = 2.0;
/// Rounds before an edge counts as lost.
const ROUNDS: usize = 8;

/// One edge on its way to the place where the room is nothing.
struct Edge {
    condition: usize,
    node: usize,
    point: Point,
    start: f64,
    /// The look before, as start and room.
    before: Option<(f64, f64)>,
    /// The room's growth with the start number, m a diamond, where a neighbour has told it.
    slope: Option<f64>,
    state: State,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    Open,
    Found,
    Lost,
}

/// The windows of every condition, a node each; `meant` holds those of the first node.
pub(super) fn windows(looks: &mut Looks<'_>, meant: &[Windows]) -> Vec<Vec<Windows>> {
    let nodes = looks.nodes();
    let mut found: Vec<Vec<Option<Windows>>> = meant
        .iter()
        .map(|first| {
            let mut row = vec![None; nodes];
            row[0] = Some(first.clone());
            row
        })
        .collect();
    follow_edges(looks, meant, &mut found);
    let lost: Vec<(usize, usize)> = found
        .iter()
        .enumerate()
        .flat_map(|(condition, row)| {
            let lost = row.iter().enumerate().filter(|(_, windows)| windows.is_none());
            lost.map(move |(node, _)| (condition, node))
        })
        .collect();
    for (&(condition, node), windows) in lost.iter().zip(scan::windows(looks, &lost)) {
        found[condition][node] = Some(windows);
    }
    found.into_iter().map(|row| row.into_iter().map(Option::unwrap_or_default).collect()).collect()
}

fn follow_edges(looks: &mut Looks<'_>, meant: &[Windows], found: &mut [Vec<Option<Windows>>]) {
    let mut edges: Vec<Edge> = Vec::new();
    for (condition, windows) in meant.iter().enumerate() {
        let [window] = windows.as_slice() else { continue };
        let ends = ends_of(looks, condition, *window);
        for node in 1..looks.nodes() {
            for (point, start) in ends {
                let (before, slope, state) = (None, None, State::Open);
                edges.push(Edge { condition, node, point, start, before, slope, state });
            }
        }
    }
    follow(looks, &mut edges);
    let pairs: Vec<(usize, usize, Window)> = edges
        .chunks_exact(2)
        .filter(|pair| pair.iter().all(|edge| edge.state == State::Found))
        .map(|pair| {
            let (a, b) = (pair[0].start, pair[1].start);
            (pair[0].condition, pair[0].node, Window { from: a.min(b), to: a.max(b) })
        })
        .collect();
    let middles: Vec<Look> = pairs
        .iter()
        .map(|&(condition, node, window)| Look { condition, node, start: window.middle() })
        .collect();
    for ((condition, node, window), room) in pairs.into_iter().zip(looks.take(&middles)) {
        if room.holds() {
            found[condition][node] = Some([window].into_iter().collect());
        }
    }
}

/// The point of the mouth at each end of a window: the one that has less room there.
fn ends_of(looks: &mut Looks<'_>, condition: usize, window: Window) -> [(Point, f64); 2] {
    let ends = [window.from, window.to];
    let asked = ends.map(|start| Look { condition, node: 0, start });
    let rooms = looks.take(&asked);
    core::array::from_fn(|end| {
        let room = rooms[end];
        let is_long = room.is_seen() && room.long_m < room.short_m;
        (if is_long { Point::Long } else { Point::Short }, ends[end])
    })
}

fn follow(looks: &mut Looks<'_>, edges: &mut [Edge]) {
    for _ in 0..ROUNDS {
        let open: Vec<usize> =
            (0..edges.len()).filter(|&at| edges[at].state == State::Open).collect();
        if open.is_empty() {
            return;
        }
        let asked: Vec<Look> = open
            .iter()
            .map(|&at| Look {
                condition: edges[at].condition,
                node: edges[at].node,
                start: edges[at].start,
            })
            .collect();
        for (at, room) in open.into_iter().zip(looks.take(&asked)) {
            let point = edges[at].point;
            edges[at].step(room.at(point));
        }
    }
}

impl Edge {
    fn step(&mut self, room_m: f64) {
        if !room_m.is_finite() {
            self.state = State::Lost;
            return;
        }
        if room_m.abs() < NEAR_M {
            self.state = State::Found;
            return;
        }
        if let Some((start, before_m)) = self.before {
            self.slope = Some((room_m - before_m) / (self.start - start));
        }
        let step = match self.slope {
            Some(slope) => -room_m / slope,
            None => FIRST_STEP,
        };
        // A slope of nothing gives no step at all.
        if !step.is_finite() || step.abs() > LONGEST_STEP {
            self.state = State::Lost;
            return;
        }
        self.before = Some((self.start, room_m));
        self.start += step;
    }
}

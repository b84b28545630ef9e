//! Windows at other speeds and sides, from those of the shot as it is meant.
//!
//! An edge is a smooth function of speed and side. It is followed first along either alone; where both differ it
//! is looked for where the two ways add up, and a look or two remain.

use super::looks::{BankLooks, Look, MouthRoom, Point};
use super::scan;
use crate::chance::SpreadNode;
use crate::chance::window::{Window, Windows};

/// To either side of an edge to find its slope, diamonds.
const ASIDE: f64 = 0.005;
/// A longer step has lost the edge, diamonds.
const LONGEST_STEP: f64 = 2.0;
/// So near a step along a known slope ends at the edge, m: what is left falls with the square of it.
const ONE_STEP_M: f64 = 1e-4;
/// Rounds before an edge counts as lost.
const ROUNDS: usize = 8;

/// One edge on its way to the place where the room is nothing.
#[derive(Clone, Copy)]
struct FollowedEdge {
    condition: usize,
    node: usize,
    point: Point,
    start: f64,
    /// The look before, as start and room.
    before: Option<(f64, f64)>,
    /// The room's growth with the start number, m a diamond.
    slope: f64,
    state: State,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    Open,
    Found,
    Lost,
}

/// A window's two edges as they are meant.
type Ends = [FollowedEdge; 2];

/// The windows of every condition, a node each; `meant` holds those of the first node.
pub(super) fn windows(looks: &mut BankLooks<'_>, meant: &[Windows]) -> Vec<Vec<Windows>> {
    let nodes = looks.nodes().len();
    let mut found: Vec<Vec<Option<Windows>>> = meant
        .iter()
        .map(|first| {
            let mut row = vec![None; nodes];
            row[0] = Some(first.clone());
            row
        })
        .collect();
    let ends = ends(looks, meant);
    let ways = ways(looks.nodes());
    let alone: Vec<usize> = (1..nodes).filter(|&node| ways[node].is_none()).collect();
    let edges = edges(&ends, &alone, |ends, _| ends);
    keep(looks, edges, &mut found);
    let both: Vec<usize> = (1..nodes).filter(|&node| ways[node].is_some()).collect();
    let edges = edges_by_sums(&ends, &both, &ways, &found);
    keep(looks, edges, &mut found);
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

/// The edges of every condition that holds along one stretch as it is meant: at each the point with less room.
fn ends(looks: &mut BankLooks<'_>, meant: &[Windows]) -> Vec<Ends> {
    let mut single: Vec<(usize, Window)> = Vec::new();
    for (condition, windows) in meant.iter().enumerate() {
        if let [window] = windows.as_slice() {
            single.push((condition, *window));
        }
    }
    let asked: Vec<Look> = single
        .iter()
        .flat_map(|&(condition, window)| {
            [window.from, window.to].into_iter().flat_map(move |edge| {
                [-ASIDE, ASIDE].map(|aside| Look { condition, node: 0, start: edge + aside })
            })
        })
        .collect();
    let rooms = looks.take(&asked);
    let pairs = rooms.chunks_exact(4);
    single
        .into_iter()
        .zip(pairs)
        .map(|((condition, window), rooms)| {
            let edge = |start: f64, rooms: &[MouthRoom]| {
                let point = nearer_point(rooms);
                let slope = (rooms[1].at(point) - rooms[0].at(point)) / (2.0 * ASIDE);
                let state = if slope.is_finite() { State::Open } else { State::Lost };
                FollowedEdge { condition, node: 0, point, start, before: None, slope, state }
            };
            [edge(window.from, &rooms[..2]), edge(window.to, &rooms[2..])]
        })
        .collect()
}

fn nearer_point(rooms: &[MouthRoom]) -> Point {
    let least =
        |point: Point| rooms.iter().map(|room| room.at(point)).fold(f64::INFINITY, f64::min);
    if least(Point::Long) < least(Point::Short) { Point::Long } else { Point::Short }
}

/// For every node at which speed and side both differ from what is meant, the node of that speed alone and that of
/// that side alone.
fn ways(nodes: &[SpreadNode]) -> Vec<Option<(usize, usize)>> {
    let Some(meant) = nodes.first() else { return Vec::new() };
    let place = |speed_ratio: f64, side: f64| {
        nodes.iter().position(|it| it.speed_ratio == speed_ratio && it.side == side)
    };
    nodes
        .iter()
        .map(|node| {
            let is_alone = node.speed_ratio == meant.speed_ratio || node.side == meant.side;
            let ways = place(node.speed_ratio, meant.side).zip(place(meant.speed_ratio, node.side));
            ways.filter(|_| !is_alone)
        })
        .collect()
}

/// All edges at these nodes, from where `from` puts them.
fn edges(ends: &[Ends], nodes: &[usize], from: impl Fn(Ends, usize) -> Ends) -> Vec<FollowedEdge> {
    let at_node =
        &|ends: Ends, node: usize| from(ends, node).map(|edge| FollowedEdge { node, ..edge });
    ends.iter().flat_map(|&ends| nodes.iter().flat_map(move |&node| at_node(ends, node))).collect()
}

/// The same, moved by as much as the node's speed alone and its side alone move them.
fn edges_by_sums(
    ends: &[Ends],
    nodes: &[usize],
    ways: &[Option<(usize, usize)>],
    found: &[Vec<Option<Windows>>],
) -> Vec<FollowedEdge> {
    edges(ends, nodes, |ends, node| {
        let row = &found[ends[0].condition];
        let window = |at: usize| match row[at].as_deref() {
            Some([window]) => Some([window.from, window.to]),
            _ => None,
        };
        let moved = ways[node].and_then(|(speed, side)| {
            let (meant, speed, side) = (window(0)?, window(speed)?, window(side)?);
            Some(core::array::from_fn(|end| speed[end] + side[end] - meant[end]))
        });
        let starts: [f64; 2] = moved.unwrap_or(ends.map(|edge| edge.start));
        core::array::from_fn(|end| FollowedEdge { start: starts[end], ..ends[end] })
    })
}

/// Follows edges, and keeps the windows between those that are found and hold in their middle.
fn keep(
    looks: &mut BankLooks<'_>,
    mut edges: Vec<FollowedEdge>,
    found: &mut [Vec<Option<Windows>>],
) {
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

fn follow(looks: &mut BankLooks<'_>, edges: &mut [FollowedEdge]) {
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

impl FollowedEdge {
    fn step(&mut self, room_m: f64) {
        if !room_m.is_finite() {
            self.state = State::Lost;
            return;
        }
        if let Some((start, before_m)) = self.before {
            self.slope = (room_m - before_m) / (self.start - start);
        }
        let step = -room_m / self.slope;
        // A slope of nothing gives no step at all.
        if !step.is_finite() || step.abs() > LONGEST_STEP {
            self.state = State::Lost;
            return;
        }
        self.before = Some((self.start, room_m));
        self.start += step;
        if room_m.abs() < ONE_STEP_M {
            self.state = State::Found;
        }
    }
}

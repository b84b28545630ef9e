//! Windows from a row of starts.

use super::looks::{BankLooks, Look, MouthRoom, Point};
use crate::chance::Condition;
use crate::chance::window::{Window, Windows};

/// Between two looks of a row, diamonds. Clearances change their sign once in so little.
const STEP: f64 = 0.25;
/// A row ends where the start lies so many times the ball's number, and so much again, past the ball.
const REACH: (f64, f64) = (2.5, 1.5);
/// An edge is found when the room there is less, m.
const NEAR_M: f64 = 1e-7;
/// Halvings of the stretch in which a ball ceases to come to the mouth.
const HALVINGS: usize = 20;
/// Rounds for an edge, far more than it takes.
const ROUNDS: usize = 40;

/// A start and the room seen from there.
type SeenStart = (f64, MouthRoom);

/// A change of sign of the room at one point, between two looks.
struct Bracket {
    /// Which row, and after which of its looks.
    row: usize,
    after: usize,
    point: Point,
    /// Start and room on either side.
    low: (f64, f64),
    high: (f64, f64),
    /// Which end moved last.
    moved: Option<BracketEnd>,
    /// The start nearest to the edge.
    start: f64,
    closed: bool,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum BracketEnd {
    Low,
    High,
}

/// The windows of each (condition, node), in order.
pub(super) fn windows(looks: &mut BankLooks<'_>, rows: &[(usize, usize)]) -> Vec<Windows> {
    let starts: Vec<Vec<f64>> =
        rows.iter().map(|(condition, _)| row_of(&looks.conditions()[*condition])).collect();
    let asked: Vec<Look> = rows
        .iter()
        .zip(&starts)
        .flat_map(|(&(condition, node), starts)| {
            starts.iter().map(move |&start| Look { condition, node, start })
        })
        .collect();
    let mut seen = looks.take(&asked).into_iter();
    let mut looked: Vec<Vec<SeenStart>> =
        starts.into_iter().map(|starts| starts.into_iter().zip(seen.by_ref()).collect()).collect();
    for (row, looked) in rows.iter().zip(&mut looked) {
        add_last_seen(looks, *row, looked);
    }
    let mut brackets: Vec<Bracket> =
        looked.iter().enumerate().flat_map(|(row, looked)| changes(row, looked)).collect();
    close(looks, rows, &mut brackets);
    let mut brackets = brackets.into_iter().peekable();
    looked
        .iter()
        .enumerate()
        .map(|(row, looked)| {
            let mut own = Vec::new();
            while let Some(bracket) = brackets.next_if(|it| it.row == row) {
                own.push(bracket);
            }
            stretches(looked, own)
        })
        .collect()
}

/// The starts of a row, growing.
fn row_of(condition: &Condition) -> Vec<f64> {
    let number = condition.number;
    let reach = REACH.0 * number.abs() + REACH.1;
    let sense = if number < 0.0 { -1.0 } else { 1.0 };
    let steps = core::iter::successors(Some(0.0), |away| Some(away + STEP));
    let mut starts: Vec<f64> =
        steps.take_while(|away| *away < reach + STEP).map(|away| number + sense * away).collect();
    starts.sort_by(f64::total_cmp);
    starts
}

/// Where a ball ceases to come to the mouth between two looks, adds the last place from which it comes, if it may
/// hold there.
fn add_last_seen(
    looks: &mut BankLooks<'_>,
    (condition, node): (usize, usize),
    looked: &mut Vec<SeenStart>,
) {
    let mut at = 1;
    while at < looked.len() {
        let (low, high) = (looked[at - 1], looked[at]);
        let last_before = at.checked_sub(2).map(|before| looked[before]);
        let (seen, beyond, before) = match (low.1.is_seen(), high.1.is_seen()) {
            (true, false) => (low, high.0, last_before),
            (false, true) => (high, low.0, looked.get(at + 1).copied()),
            _ => {
                at += 1;
                continue;
            }
        };
        if !may_hold(seen, before) {
            at += 1;
            continue;
        }
        let (mut from, mut beyond) = (seen, beyond);
        for _ in 0..HALVINGS {
            let start = 0.5 * (from.0 + beyond);
            let room = looks.take(&[Look { condition, node, start }])[0];
            if room.is_seen() {
                from = (start, room);
            } else {
                beyond = start;
            }
        }
        looked.insert(at, from);
        at += 2;
    }
}

/// Whether a ball may hold past the last look at which it comes to the mouth: it does there, or is on its way to
/// by a step more, as straight lines through the look before have it.
fn may_hold(seen: SeenStart, before: Option<SeenStart>) -> bool {
    let Some((_, before)) = before.filter(|it| it.1.is_seen()) else { return true };
    let ahead = |here: f64, before: f64| here.max(2.0 * here - before) > 0.0;
    ahead(seen.1.long_m, before.long_m) && ahead(seen.1.short_m, before.short_m)
}

fn changes(row: usize, looked: &[SeenStart]) -> Vec<Bracket> {
    let mut changes = Vec::new();
    for (after, pair) in looked.windows(2).enumerate() {
        let (low, high) = (pair[0], pair[1]);
        if !low.1.is_seen() || !high.1.is_seen() {
            continue;
        }
        for point in [Point::Long, Point::Short] {
            let (a, b) = (low.1.at(point), high.1.at(point));
            if (a > 0.0) != (b > 0.0) {
                changes.push(Bracket {
                    row,
                    after,
                    point,
                    low: (low.0, a),
                    high: (high.0, b),
                    moved: None,
                    start: low.0,
                    closed: false,
                });
            }
        }
    }
    changes
}

/// Closes all of them, a look each in every round: false position with the end that stays halved (the Illinois
/// method; Dowell & Jarratt 1971, BIT 11:168–174).
fn close(looks: &mut BankLooks<'_>, rows: &[(usize, usize)], brackets: &mut [Bracket]) {
    for _ in 0..ROUNDS {
        let open: Vec<usize> = (0..brackets.len()).filter(|&at| !brackets[at].closed).collect();
        if open.is_empty() {
            return;
        }
        let asked: Vec<Look> = open
            .iter()
            .map(|&at| {
                let bracket = &brackets[at];
                let ((a, room_a), (b, room_b)) = (bracket.low, bracket.high);
                let (condition, node) = rows[bracket.row];
                Look { condition, node, start: a + (b - a) * (room_a / (room_a - room_b)) }
            })
            .collect();
        for ((at, look), room) in open.into_iter().zip(&asked).zip(looks.take(&asked)) {
            brackets[at].narrow(look.start, room);
        }
    }
}

impl Bracket {
    fn narrow(&mut self, start: f64, room: MouthRoom) {
        let room = room.at(self.point);
        self.start = start;
        if !room.is_finite() || room.abs() < NEAR_M {
            self.closed = true;
            return;
        }
        let end =
            if (room > 0.0) == (self.low.1 > 0.0) { BracketEnd::Low } else { BracketEnd::High };
        let again = self.moved == Some(end);
        let (moving, staying) = match end {
            BracketEnd::Low => (&mut self.low, &mut self.high),
            BracketEnd::High => (&mut self.high, &mut self.low),
        };
        *moving = (start, room);
        if again {
            staying.1 *= 0.5;
        }
        self.moved = Some(end);
    }
}

/// The stretches in which both points are clear: from look to look, and at each edge between them the room at
/// its point changes its sign.
fn stretches(looked: &[SeenStart], mut edges: Vec<Bracket>) -> Windows {
    edges.sort_by(|a, b| a.after.cmp(&b.after).then(a.start.total_cmp(&b.start)));
    let mut edges = edges.into_iter().peekable();
    let mut windows = Windows::new();
    for (at, pair) in looked.windows(2).enumerate() {
        let (low, high) = (pair[0], pair[1]);
        let (mut long, mut short) = (low.1.long_m > 0.0, low.1.short_m > 0.0);
        let mut from = low.0;
        while let Some(edge) = edges.next_if(|edge| edge.after == at) {
            add(&mut windows, long && short, from, edge.start);
            from = edge.start;
            match edge.point {
                Point::Long => long = !long,
                Point::Short => short = !short,
            }
        }
        if high.1.is_seen() {
            add(&mut windows, long && short, from, high.0);
        }
    }
    windows
}

/// Adds a stretch, joined to the one before where they touch.
fn add(windows: &mut Windows, holds: bool, from: f64, to: f64) {
    if !holds || to <= from {
        return;
    }
    match windows.last_mut() {
        Some(last) if last.to == from => last.to = to,
        _ => windows.push(Window { from, to }),
    }
}

//! The nearest approach of two balls.

use crate::motion::Segment;
use crate::shot::{Piece, Shot};
use crate::vector::Vec2;

/// The nearest approach of two balls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Separation {
    /// Distance of the centres, m.
    pub distance_m: f64,
    /// When, s since the start.
    pub time_s: f64,
}

/// Halvings of a bracket of a turning point.
const HALVINGS: usize = 60;
/// Looks on one common stretch: |r|² is a quartic there, with at most three turning points.
const LOOKS: usize = 24;

/// The nearest approach of the centres of two balls between two times, s; `None` for balls that are
/// not in the shot.
pub fn closest(
    shot: &Shot,
    one: usize,
    other: usize,
    from_s: f64,
    until_s: f64,
) -> Option<Separation> {
    let start = |ball: usize| shot.state_at(ball, from_s).map(|state| state.position);
    let mut best = Separation { distance_m: (start(one)? - start(other)?).norm(), time_s: from_s };
    let (a, b) = (shot.pieces(one), shot.pieces(other));
    let mut times: Vec<f64> = a
        .iter()
        .chain(&b)
        .flat_map(|piece| [piece.time_s, piece.time_s + piece.motion.duration_s])
        .filter(|time_s| *time_s > from_s && *time_s < until_s)
        .chain([from_s, until_s.min(shot.duration_s().max(from_s))])
        .collect();
    times.sort_by(f64::total_cmp);
    for pair in times.windows(2) {
        let (begin, end) = (pair[0], pair[1]);
        if end <= begin {
            continue;
        }
        let (Some(p), Some(q)) = (motion(shot, one, &a, begin), motion(shot, other, &b, begin))
        else {
            continue;
        };
        let relative = Segment {
            position: p.position - q.position,
            velocity: p.velocity - q.velocity,
            acceleration: p.acceleration - q.acceleration,
            duration_s: end - begin,
        };
        let after_s = nearest_on(&relative);
        let distance_m = relative.position_at(after_s).norm();
        if distance_m < best.distance_m {
            best = Separation { distance_m, time_s: begin + after_s };
        }
    }
    Some(best)
}

/// A ball's motion from a time on, as far as the next change.
fn motion(shot: &Shot, ball: usize, pieces: &[Piece], time_s: f64) -> Option<Segment> {
    let state = shot.state_at(ball, time_s)?;
    let begun = pieces.partition_point(|piece| piece.time_s <= time_s + 1e-12);
    let piece = begun.checked_sub(1).and_then(|index| pieces.get(index));
    let moving = piece.filter(|piece| time_s < piece.time_s + piece.motion.duration_s - 1e-12);
    Some(match moving {
        Some(piece) => {
            let after_s = time_s - piece.time_s;
            Segment {
                position: piece.motion.position_at(after_s),
                velocity: piece.motion.velocity_at(after_s),
                acceleration: piece.motion.acceleration,
                duration_s: piece.motion.duration_s - after_s,
            }
        }
        None => Segment {
            position: state.position,
            velocity: Vec2::ZERO,
            acceleration: Vec2::ZERO,
            duration_s: f64::INFINITY,
        },
    })
}

/// When |r| is least on a stretch.
fn nearest_on(relative: &Segment) -> f64 {
    let closing = |t: f64| relative.position_at(t).dot(relative.velocity_at(t));
    let distance = |t: f64| relative.position_at(t).norm();
    let step = relative.duration_s / LOOKS as f64;
    let mut best =
        if distance(0.0) <= distance(relative.duration_s) { 0.0 } else { relative.duration_s };
    for look in 0..LOOKS {
        let (mut low, mut high) = (step * look as f64, step * (look + 1) as f64);
        if closing(low) < 0.0 && closing(high) > 0.0 {
            for _ in 0..HALVINGS {
                let middle = 0.5 * (low + high);
                if closing(middle) < 0.0 { low = middle } else { high = middle }
            }
            if distance(low) < distance(best) {
                best = low;
            }
        }
    }
    best
}

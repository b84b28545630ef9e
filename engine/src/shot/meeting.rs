//! What a free ball meets first.

use crate::motion::Path;
use crate::rail::{Outline, Pocket, Rail};
use crate::vector::Vec2;

/// What a ball meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Meeting {
    /// A cushion, with the centre on its groove.
    Cushion(Rail),
    /// A pocket's mouth line, between the points.
    Mouth(Pocket),
}

/// A line crosses a parabola and the straight line that goes on from it at most four times.
const MOST_CROSSINGS: usize = 4;

/// What the path meets first, and after how many seconds; 0 for a ball on a groove that moves into
/// the cushion. Of meetings at the same time end rails come before long rails, and cushions before
/// mouths: mirror images have the same order.
pub(super) fn next_meeting(outline: &Outline, path: &Path) -> Option<(f64, Meeting)> {
    let cushions = Rail::ALL
        .into_iter()
        .filter_map(|rail| cushion(outline, path, rail).map(|time| (time, Meeting::Cushion(rail))));
    let mouths = Pocket::ALL.into_iter().filter_map(|pocket| {
        mouth(outline, path, pocket).map(|time| (time, Meeting::Mouth(pocket)))
    });
    cushions.chain(mouths).fold(None, |first, next| match first {
        Some((time, _)) if time <= next.0 => first,
        _ => Some(next),
    })
}

/// When the path meets this rail's cushion.
fn cushion(outline: &Outline, path: &Path, rail: Rail) -> Option<f64> {
    let (outward, offset) = (rail.outward(), outline.groove_offset_m(rail));
    let start = path.state_at(0.0);
    let frozen = outward.dot(start.position) >= offset && outward.dot(start.velocity) > 0.0;
    if frozen && on_cushion(outline, path, rail, 0.0) {
        return Some(0.0);
    }
    let mut after = 0.0;
    for _ in 0..MOST_CROSSINGS {
        let time = path.first_crossing(outward, offset, after)?;
        if on_cushion(outline, path, rail, time) {
            return Some(time);
        }
        after = time;
    }
    None
}

/// When the path crosses this pocket's mouth line between its points.
fn mouth(outline: &Outline, path: &Path, pocket: Pocket) -> Option<f64> {
    let (normal, reach) = outline.mouth_line(pocket);
    let [a, b] = outline.mouth_points(pocket);
    let (midpoint, across) = ((a + b) * 0.5, b - a);
    let mut after = 0.0;
    for _ in 0..MOST_CROSSINGS {
        let time = path.first_crossing(normal, reach, after)?;
        let from_middle = (path.state_at(time).position - midpoint).dot(across);
        if from_middle.abs() <= 0.5 * across.dot(across) {
            return Some(time);
        }
        after = time;
    }
    None
}

/// True when a ball that crosses the groove now meets the cushion: there is one, or the ball would
/// leave the mouth sideways past a point.
pub(super) fn on_cushion(outline: &Outline, path: &Path, rail: Rail, time_s: f64) -> bool {
    match outline.opening_at(rail, path.state_at(time_s).position) {
        None => true,
        Some(pocket) => leaves_sideways(outline, path, rail, pocket, time_s),
    }
}

/// True when the ball, beyond the groove in a pocket's opening, passes a mouth point sideways before
/// it crosses the mouth line or comes back over the groove.
fn leaves_sideways(
    outline: &Outline,
    path: &Path,
    rail: Rail,
    pocket: Pocket,
    time_s: f64,
) -> bool {
    let crossing = |normal: Vec2, offset: f64| {
        path.first_crossing(normal, offset, time_s).unwrap_or(f64::INFINITY)
    };
    let (mouth_normal, reach) = outline.mouth_line(pocket);
    let back = crossing(-rail.outward(), -outline.groove_offset_m(rail));
    let stays_until = back.min(crossing(mouth_normal, reach));
    let axis = if rail.is_end() { Vec2::new(0.0, 1.0) } else { Vec2::new(1.0, 0.0) };
    outline.gaps(pocket).filter(|gap| gap.rail == rail).any(|gap| {
        // Past a corner's other end there is nothing to brush.
        let ends = [(gap.from, gap.to, true), (gap.to, gap.from, pocket.is_side())];
        ends.into_iter().filter(|(_, _, is_point)| *is_point).any(|(point, other, _)| {
            let away = axis * if axis.dot(point) > axis.dot(other) { 1.0 } else { -1.0 };
            crossing(away, away.dot(point)) < stays_until
        })
    })
}

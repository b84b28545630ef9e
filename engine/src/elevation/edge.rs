//! A level edge with solid stuff under it.

use super::cue::{CueLine, CuePoint};
use crate::vector::Vec2;

/// The part of an edge that lies behind the ball within the cue's width.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    from: CuePoint,
    to: CuePoint,
}

impl Edge {
    /// The part of the edge between two points over the table that can be under the cue.
    pub fn under(line: &CueLine, from: Vec2, to: Vec2, height_m: f64) -> Option<Self> {
        let (from, to) = (line.place(from, height_m), line.place(to, height_m));
        let half = line.half_width_m();
        let outside = |a: f64, b: f64, low: f64, high: f64| a.max(b) <= low || a.min(b) >= high;
        let furthest = line.length_m + line.radius_m;
        if outside(from.y, to.y, -half, half) || outside(from.s, to.s, 0.0, furthest) {
            return None;
        }
        let within = |(low, high): (f64, f64), a: f64, b: f64, share: (f64, f64)| {
            if a == b {
                return share;
            }
            let ends = ((low - a) / (b - a), (high - a) / (b - a));
            (share.0.max(ends.0.min(ends.1)), share.1.min(ends.0.max(ends.1)))
        };
        let share = within((-half, half), from.y, to.y, (0.0, 1.0));
        let share = within((0.0, furthest), from.s, to.s, share);
        if share.0 > share.1 {
            return None;
        }
        let whole = Self { from, to };
        Some(Self { from: whole.at_share(share.0), to: whole.at_share(share.1) })
    }

    /// True when the axis runs more than half the cue's greatest width above both ends, and so above
    /// all of the edge.
    pub fn is_far_below(&self, line: &CueLine, turn: (f64, f64)) -> bool {
        let clear = |at: CuePoint| line.over(at, turn).0 > line.half_width_m();
        clear(self.from) && clear(self.to)
    }

    /// The distance of the cue above the edge, square to its axis, m; negative when it cuts into what is
    /// under the edge, infinite when it is not over it.
    ///
    /// Over a point at y beside the axis the cue's underside is √(r² − y²) below the axis. Along the
    /// edge, s = s₀ + κ·y, the least of κ·y·sinε − √(r² − y²) is at y = −r·κ·sinε/√(1 + κ²·sin²ε), or
    /// at an end.
    pub fn room_m(&self, line: &CueLine, turn: (f64, f64)) -> f64 {
        let Self { from, to } = *self;
        let mut room = point_m(line, from, turn).min(point_m(line, to, turn));
        let across = to.y - from.y;
        if across != 0.0 {
            let slope = (to.s - from.s) / across * turn.0;
            let mut y = 0.0;
            for _ in 0..3 {
                let at = self.at(y);
                let radius = line.radius_at(line.over(at, turn).1);
                y = -radius * slope / (1.0 + slope * slope).sqrt();
                y = y.clamp(from.y.min(to.y), from.y.max(to.y));
            }
            room = room.min(point_m(line, self.at(y), turn));
        }
        self.at_the_butt(line, turn).map_or(room, |at| room.min(point_m(line, at, turn)))
    }

    /// Where it goes through the plane of the butt's end.
    fn at_the_butt(&self, line: &CueLine, turn: (f64, f64)) -> Option<CuePoint> {
        let past_m = |at: CuePoint| line.over(at, turn).1 - line.length_m;
        let (one, other) = (past_m(self.from), past_m(self.to));
        ((one > 0.0) != (other > 0.0)).then(|| self.at_share(one / (one - other)))
    }

    fn at(&self, y: f64) -> CuePoint {
        CuePoint { y, ..self.at_share((y - self.from.y) / (self.to.y - self.from.y)) }
    }

    fn at_share(&self, share: f64) -> CuePoint {
        let Self { from, to } = *self;
        CuePoint {
            s: from.s + (to.s - from.s) * share,
            y: from.y + (to.y - from.y) * share,
            z: from.z,
        }
    }
}

/// A point no further past the butt's end is at it, m.
const ROUNDING_M: f64 = 1e-12;

/// As [`Edge::room_m`], over one point. The solid under it stands upright: where the point is past
/// the cue's butt end, the plane of that end cuts the upright, and that place counts.
fn point_m(line: &CueLine, at: CuePoint, turn: (f64, f64)) -> f64 {
    let (mut above, mut from_tip) = line.over(at, turn);
    let past_m = from_tip - line.length_m;
    if past_m > ROUNDING_M {
        let (sin, cos) = turn;
        if past_m >= sin * line.height_over_cloth_m(at) {
            return f64::INFINITY;
        }
        above += past_m / sin * cos;
        from_tip = line.length_m;
    }
    let radius = line.radius_at(from_tip);
    if at.y.abs() >= radius {
        return f64::INFINITY;
    }
    above - (radius * radius - at.y * at.y).sqrt()
}

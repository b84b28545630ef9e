//! The first contact with a straight edge.

use super::{DEEPEST_TOUCH_M, JOIN_SLACK_M};
use crate::motion::Segment;
use crate::vector::Vec2;

/// A line that centres meet from one side, between two ends or without end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StraightEdge {
    /// Unit vector from a centre that meets the line into what it meets.
    pub normal: Vec2,
    /// `normal`·p on the line, m.
    pub offset_m: f64,
    /// Where it begins, along the tangent (−normal.y, normal.x), m; −∞ for no end.
    pub from_m: f64,
    /// Where it ends, along the tangent, m; ∞ for no end.
    pub to_m: f64,
}

impl StraightEdge {
    /// A line without ends.
    pub const fn endless(normal: Vec2, offset_m: f64) -> Self {
        Self { normal, offset_m, from_m: f64::NEG_INFINITY, to_m: f64::INFINITY }
    }

    /// The edge between two points, in either order, with this unit normal square to it.
    pub fn between(normal: Vec2, one: Vec2, other: Vec2) -> Self {
        let tangent = Vec2::new(-normal.y, normal.x);
        let (one_m, other_m) = (tangent.dot(one), tangent.dot(other));
        Self {
            normal,
            offset_m: 0.5 * (normal.dot(one) + normal.dot(other)),
            from_m: one_m.min(other_m),
            to_m: one_m.max(other_m),
        }
    }

    /// The distance of a centre from the line, m; negative behind it. Its ends do not count here.
    pub fn gap(&self, centre: Vec2) -> f64 {
        self.offset_m - self.normal.dot(centre)
    }

    /// Unit vector from a centre there into what it meets: the line's normal.
    pub fn normal_at(&self, _centre: Vec2) -> Vec2 {
        self.normal
    }

    /// The place of a point along the line, m.
    pub fn along(&self, point: Vec2) -> f64 {
        Vec2::new(-self.normal.y, self.normal.x).dot(point)
    }

    /// True when the line has ends.
    pub fn has_ends(&self) -> bool {
        self.from_m.is_finite() || self.to_m.is_finite()
    }

    /// The first contact of a centre on that stretch, at a time of the stretch in [0, `until_s`] and
    /// within its duration, s; see [the module](super) for the meaning of a contact.
    ///
    /// It counts only between the line's ends, with [`JOIN_SLACK_M`] to spare, and, if there are any,
    /// no deeper behind the line than [`DEEPEST_TOUCH_M`]. On one stretch a line without ends is met
    /// once at most, so nothing follows a contact past an end.
    pub fn first_contact(&self, segment: &Segment, until_s: f64) -> Option<f64> {
        let until_s = until_s.min(segment.duration_s);
        let gap = self.gap(segment.position);
        let closing = self.normal.dot(segment.velocity);
        let bend = 0.5 * self.normal.dot(segment.acceleration);
        let time = first_rise(gap, closing, bend, until_s)?;
        (!self.has_ends() || self.meets(segment.position_at(time))).then_some(time)
    }

    /// True when a centre that touches there does so between the ends.
    fn meets(&self, centre: Vec2) -> bool {
        let along = self.along(centre);
        along >= self.from_m - JOIN_SLACK_M
            && along <= self.to_m + JOIN_SLACK_M
            && self.gap(centre) >= -DEEPEST_TOUCH_M
    }
}

/// The first time in [0, `until_s`] at which `closing`·t + `bend`·t² ≥ `gap` and rises.
#[inline]
fn first_rise(gap: f64, closing: f64, bend: f64, until_s: f64) -> Option<f64> {
    let in_range = |time: f64| (time >= 0.0 && time <= until_s).then_some(time);
    if bend <= 0.0 && closing <= 0.0 {
        return None;
    }
    if gap <= 0.0 && (closing > 0.0 || (closing == 0.0 && bend > 0.0)) {
        return in_range(0.0);
    }
    // It goes no further than its first slope or its last takes it.
    if gap > until_s * closing.max(closing + 2.0 * bend * until_s) {
        return None;
    }
    let discriminant = closing * closing + 4.0 * bend * gap;
    let rises = discriminant > 0.0;
    if closing > 0.0 {
        // Apart and closing: the smaller root, as a quotient that keeps its digits.
        return rises.then(|| 2.0 * gap / (closing + discriminant.sqrt())).and_then(in_range);
    }
    if bend > 0.0 {
        // Parting or still, and turned by the acceleration. If it turns before it has come clear,
        // that is when it meets.
        let turn = -0.5 * closing / bend;
        let met = if rises { turn + 0.5 * discriminant.sqrt() / bend } else { turn };
        return in_range(met);
    }
    None
}

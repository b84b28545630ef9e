//! The distance of a centre from the things it could touch, and the time of a touch within a step. Steps
//! that the fastest possible approach could just bridge find it, so nothing is jumped over; the event
//! engine's roots have no part in it.

use crate::vector::Vec2;
use crate::world::{Boundary, BoundaryShape};

/// Two that are no further apart than this touch, m.
pub(super) const TOUCH_M: f64 = 1e-10;
/// A thing that approaches no faster than this is not waited for, m/s: in the longest step it goes 50 nm.
pub(super) const SLOW_M_S: f64 = 1e-6;
/// The depth from which a thing that has sunk in so slowly touches all the same, m.
pub(super) const DEEP_M: f64 = 1e-8;
/// A centre this far behind a boundary is not in front of it but beside or behind its solid, m.
const BEHIND_M: f64 = 0.02;
/// The search takes at most so many steps and grazes that are over within one of them are no touch.
const LOOKS: f64 = 1024.0;

/// One look at a gap.
#[derive(Debug, Clone, Copy)]
pub(super) struct GapReading {
    /// The gap, m, or a lower bound of the distance to where it could close.
    pub(super) gap_m: f64,
    /// It would be a touch if the gap were closed.
    pub(super) counts: bool,
}

/// A centre's distance from a boundary: its gap where it faces it, else a lower bound of the distance
/// to a place where it would.
pub(super) fn clearance(boundary: &Boundary, centre: Vec2) -> GapReading {
    if let Some(gap_m) = boundary.gap(centre)
        && gap_m > -BEHIND_M
    {
        return GapReading { gap_m, counts: true };
    }
    let gap_m = match &boundary.place {
        BoundaryShape::Line(line) => {
            let along = Vec2::new(-line.normal.y, line.normal.x);
            let at = line.along(centre).clamp(line.from_m, line.to_m);
            let nearest = line.normal * line.offset_m + along * at;
            // Behind it, it comes round an end first.
            ((centre - nearest).norm() - BEHIND_M).max(TOUCH_M)
        }
        BoundaryShape::Arc(arc) => {
            let ends = [arc.from, arc.to].map(|end| arc.centre + end * arc.radius_m);
            let [from, to] = ends.map(|end| (end - centre).norm());
            arc.gap(centre).max(from.min(to) - BEHIND_M).max(TOUCH_M)
        }
    };
    GapReading { gap_m, counts: false }
}

/// True when those at such a gap that close at such a speed begin to push each other.
pub(super) fn touches(gap_m: f64, closing_m_s: f64) -> bool {
    gap_m <= TOUCH_M && (closing_m_s > SLOW_M_S || (closing_m_s > 0.0 && gap_m < -DEEP_M))
}

/// When within `until_s` a gap that closes no faster than `fastest_m_s` is first closed and counts.
pub(super) fn first_touch(
    look: impl Fn(f64) -> GapReading,
    fastest_m_s: f64,
    until_s: f64,
) -> Option<f64> {
    let mut now = look(0.0);
    if fastest_m_s * until_s < now.gap_m || fastest_m_s <= 0.0 {
        return None;
    }
    // Two that part all through a step, or that stay together, do not meet in it.
    if now.gap_m <= TOUCH_M && !now.counts && !look(until_s).counts {
        return None;
    }
    let mut time_s = 0.0;
    while time_s < until_s {
        let bridged_s = (now.gap_m - 0.25 * TOUCH_M) / fastest_m_s;
        let next_s = (time_s + bridged_s.max(until_s / LOOKS)).min(until_s);
        let next = look(next_s);
        if next.counts && next.gap_m <= 0.5 * TOUCH_M {
            if now.gap_m <= 0.5 * TOUCH_M || !now.counts {
                return Some(next_s);
            }
            return Some(narrowed(look, time_s, next_s));
        }
        (time_s, now) = (next_s, next);
    }
    None
}

fn narrowed(look: impl Fn(f64) -> GapReading, mut open_s: f64, mut closed_s: f64) -> f64 {
    for _ in 0..60 {
        let middle_s = 0.5 * (open_s + closed_s);
        if look(middle_s).gap_m > 0.25 * TOUCH_M {
            open_s = middle_s;
        } else {
            closed_s = middle_s;
        }
    }
    closed_s
}

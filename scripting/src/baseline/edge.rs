//! Verdicts that change at an edge: a ball that nearly touched a point, and touches it now, says nothing about the rule.

use super::entries::Entry;
use railproof_engine::bank::{BankVerdict, Direction};

/// A changed verdict is a warning and no failure where the ball arrives no farther than this from the edge
/// between the two verdicts, mm, and its miss moved within the expectation's tolerance: a ball's way is not
/// known as well on any table.
pub const EDGE_BAND_MM: f64 = 0.5;

/// The distance of the bank from the edge between its stored verdict and the one it has now, mm, where that is
/// within [`EDGE_BAND_MM`]; `moved_mm` is the distance between its misses. `edges_stand` is whether
/// the rails and pockets are where they were.
pub(super) fn distance_mm(
    old: &Entry,
    now: &Entry,
    moved_mm: f64,
    edges_stand: bool,
) -> Option<f64> {
    use BankVerdict::{Holds, Long, Short, TouchesPoint};
    let distance = match (old.verdict, now.verdict) {
        // Between holding and touching the room to the point is nothing.
        (Holds, TouchesPoint(_)) | (TouchesPoint(_), Holds) => now.clearance_mm?.abs(),
        // An edge that stands lies between the two arrivals, of which the one that misses came further that way. Where
        // the ball came as it did, another verdict is another answer and no edge.
        (TouchesPoint(Direction::Long), Long) | (Short, TouchesPoint(Direction::Short))
            if edges_stand && now.miss_mm? > old.miss_mm? =>
        {
            moved_mm
        }
        (Long, TouchesPoint(Direction::Long)) | (TouchesPoint(Direction::Short), Short)
            if edges_stand && now.miss_mm? < old.miss_mm? =>
        {
            moved_mm
        }
        _ => return None,
    };
    (distance <= EDGE_BAND_MM).then_some(distance)
}

//! A ball in play: its leg, its meeting on that leg, and the changes of its own motion.

use super::End;
use super::trajectory::{Leg, LegKind};
use crate::equipment::Ball;
use crate::motion::Path;
use crate::world::Meeting;

/// A ball in play.
pub(super) struct BallInPlay {
    pub(super) ball: Ball,
    pub(super) kind: usize,
    pub(super) leg: Leg,
    /// The meeting on its leg if nothing comes before, and its time.
    pub(super) meeting: Option<(f64, Meeting)>,
    /// The changes that its own motion brings, in order of time.
    pub(super) changes: [(f64, Change); 3],
    pub(super) next_change: usize,
    /// Its end, once it has one.
    pub(super) ended: Option<End>,
    pub(super) moves: bool,
    /// The time at which it last touched a surface, and the number of touches at that moment.
    touches: (f64, u32),
}

/// More touches of one ball at one moment than this are not played out.
const MOST_TOUCHES_AT_ONCE: u32 = 200;

/// A change that a ball's own motion brings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Change {
    Roll,
    Pivot,
    Stop,
    /// A lasting contact or a held step is over.
    LegEnds,
    Nothing,
}

pub(super) const NO_CHANGE: (f64, Change) = (f64::INFINITY, Change::Nothing);

impl BallInPlay {
    /// A ball on its first leg.
    pub(super) fn new(ball: Ball, kind: usize, leg: &Leg) -> Self {
        Self {
            ball,
            kind,
            leg: *leg,
            meeting: None,
            changes: [NO_CHANGE; 3],
            next_change: 3,
            ended: None,
            moves: false,
            touches: (f64::NEG_INFINITY, 0),
        }
    }

    /// Counts a touch of a surface at that time.
    pub(super) fn count_touch(&mut self, time_s: f64) {
        let (last_s, count) = self.touches;
        self.touches = (time_s, if time_s == last_s { count + 1 } else { 1 });
    }

    /// False for a ball that has touched surfaces too often at this moment.
    pub(super) fn is_patient(&self, time_s: f64) -> bool {
        let (last_s, count) = self.touches;
        time_s != last_s || count < MOST_TOUCHES_AT_ONCE
    }

    /// True when it has ended: it has stopped after moving, or dropped.
    pub(super) fn is_over(&self) -> bool {
        self.ended.is_some()
    }

    /// When the ball's leg ends at the latest.
    pub(super) fn leg_ends_s(&self) -> f64 {
        let met_s = self.meeting.map_or(f64::INFINITY, |(time_s, _)| time_s);
        match self.leg.kind {
            LegKind::Free => met_s,
            LegKind::Against { until_s, .. } | LegKind::Held { until_s, .. } => met_s.min(until_s),
        }
    }
}

/// Roll, pivot and stop on a free path that nothing meets before `free_s`, by the clock.
pub(super) fn own_changes(path: &Path, begun_s: f64, free_s: f64) -> [(f64, Change); 3] {
    let mut changes = [NO_CHANGE; 3];
    let mut count = 0;
    let mut note = |time_s: f64, change: Change| {
        if time_s < free_s && time_s.is_finite() {
            changes[count] = (begun_s + time_s, change);
            count += 1;
        }
    };
    let (rolls_s, centre_s, rests_s) =
        (path.rolls_from_s(), path.centre_rests_from_s(), path.rests_from_s());
    if rolls_s > 0.0 && path.roll().duration_s > 0.0 {
        note(rolls_s, Change::Roll);
    }
    if centre_s > 0.0 && rests_s > centre_s {
        note(centre_s, Change::Pivot);
    }
    note(rests_s, Change::Stop);
    changes
}

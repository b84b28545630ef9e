//! Meetings of a ball with a surface or a drop line.

use super::game::ShotGame;
use super::response::{act, gliding, with_speed_into};
use super::spin_hold::{HELD_BELOW_M_S, along_while_touching, is_held};
use super::trajectory::{Leg, LegKind, tidy};
use super::{CushionTouch, Ending, EventKind, Touch};
use crate::motion::{BallState, Path};
use crate::rail::Pocket;
use crate::world::{Boundary, Meeting, Owner};

/// A touch slower than this, m/s, or than this share of the ball's speed, is none: it is rounding.
const LEAST_IMPACT: f64 = 1e-14;

impl ShotGame<'_> {
    /// A ball meets what its leg leads it to.
    pub(super) fn meet(&mut self, index: usize) {
        let Some(meeting) = self.take_meeting(index) else { return };
        // What holds it gives way to what it meets.
        let was_held = matches!(self.players[index].leg.kind, LegKind::Held { .. });
        let state = self.leave(index, self.now_s);
        match meeting {
            // It is over the edge, wherever it would have gone.
            Meeting::Drop(pocket) => self.drop_into(index, pocket, state),
            Meeting::Touch(boundary) => {
                let into = boundary.normal_at(state.position);
                if was_held && into.dot(state.velocity) < HELD_BELOW_M_S {
                    self.begin(index, state);
                    self.stop_at_rest(index, state);
                } else {
                    self.touch(index, boundary, state);
                }
            }
        }
        self.foresee_all(index);
    }

    fn drop_into(&mut self, index: usize, pocket: Pocket, state: BallState) {
        self.record(EventKind::Drop(pocket), index, state, state);
        self.end(index, Ending::Dropped(pocket), state);
    }

    fn touch(&mut self, index: usize, boundary: Boundary, state: BallState) {
        self.players[index].count_touch(self.now_s);
        let before = BallState { position: boundary.pinned(state.position), ..state };
        let into = boundary.normal_at(before.position);
        let speed = into.dot(before.velocity);
        // Rounding at the very change from slide to roll can take the last of a speed away.
        let least = LEAST_IMPACT * before.velocity.norm().max(LEAST_IMPACT);
        if speed <= least {
            let passing = if speed < -least { before } else { gliding(into, before) };
            return self.begin(index, passing);
        }
        let kind = self.kind(index);
        let answer = kind.answer_of(self.world, self.model, boundary.owner);
        let (mut after, touch) = act(answer.model, &answer.contact, into, before);
        let away = -into.dot(after.velocity);
        if away < HELD_BELOW_M_S {
            let still = with_speed_into(into, after, 0.0);
            let path = Path::new(still, kind.cloth);
            if is_held(kind.grown(), &path, &still, &boundary) {
                after = still;
                self.record_touch(index, boundary, touch, before, after);
                return self.begin(index, after);
            }
        }
        self.record_touch(index, boundary, touch, before, after);
        if answer.lasts_s > 0.0 {
            let path = along_while_touching(into, before, after, kind.cloth.radius_m);
            let until_s = self.now_s + answer.lasts_s;
            let kind = LegKind::Against { until_s, departs: tidy(after) };
            self.follow(index, &Leg { time_s: self.now_s, path, kind });
        } else {
            self.begin(index, after);
        }
    }

    fn record_touch(
        &mut self,
        index: usize,
        boundary: Boundary,
        touch: Touch,
        before: BallState,
        after: BallState,
    ) {
        self.record(event(boundary, touch), index, before, after);
        if touch.hop {
            self.record(EventKind::Hop, index, after, after);
        }
    }
}

fn event(boundary: Boundary, touch: Touch) -> EventKind {
    match boundary.owner {
        Owner::Nose(rail) => EventKind::Cushion(CushionTouch { rail, touch }),
        Owner::Jaw { pocket, side, part } => EventKind::Jaw { pocket, side, part, touch },
        Owner::Obstacle(index) => EventKind::Obstacle { index, touch },
    }
}

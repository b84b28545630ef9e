//! What happens when a ball meets a surface or a drop line.

use super::game::Game;
use super::held::{HELD_BELOW_M_S, along_while_touching, holding};
use super::touch::{act, gliding, with_speed_into};
use super::trajectory::{Leg, LegKind, tidy};
use super::{CushionTouch, Ending, EventKind, Touch};
use crate::equipment::RailModel;
use crate::impact::CushionContact;
use crate::motion::{BallState, Path};
use crate::rail::Pocket;
use crate::world::{Boundary, Meeting, Owner};

/// A touch slower than this, m/s, or than this share of the ball's speed, is none: it is rounding.
const LEAST_IMPACT: f64 = 1e-14;

impl Game<'_> {
    /// A ball meets what its leg leads it to.
    pub(super) fn meet(&mut self, index: usize) {
        let Some(meeting) = self.take_meeting(index) else { return };
        if !matches!(self.players[index].leg.kind, LegKind::Free) {
            // What holds it gives way to what it meets, which the free ball then meets at once.
            self.leave(index, false);
            if let Meeting::Drop(pocket) = meeting {
                // It is over the edge, wherever it would have gone.
                self.drop_into(index, pocket);
            }
            return self.foresee_all(index);
        }
        let state = self.state_of(index);
        match meeting {
            Meeting::Drop(pocket) => self.drop_into(index, pocket),
            Meeting::Touch(boundary) => self.touch(index, boundary, state),
        }
        self.foresee_all(index);
    }

    fn drop_into(&mut self, index: usize, pocket: Pocket) {
        let state = self.state_of(index);
        self.record(EventKind::Drop(pocket), index, state, state);
        self.end(index, Ending::Pocketed(pocket), state);
    }

    fn touch(&mut self, index: usize, boundary: Boundary, state: BallState) {
        let before = BallState { position: boundary.pinned(state.position), ..state };
        let into = boundary.normal_at(before.position);
        let speed = into.dot(before.velocity);
        // Rounding at the very change from slide to roll can take the last of a speed away.
        if speed <= LEAST_IMPACT * before.velocity.norm().max(LEAST_IMPACT) {
            let passing = if speed < 0.0 { before } else { gliding(into, before) };
            return self.begin(index, passing);
        }
        let kind = self.kind(index);
        let (model, contact, lasts_s) = match boundary.owner {
            Owner::Obstacle(obstacle) => {
                let obstacle = &self.world.obstacles()[obstacle];
                (
                    RailModel::Planar,
                    upright(&kind.contact, obstacle.restitution, obstacle.friction),
                    0.0,
                )
            }
            Owner::Nose(_) | Owner::Jaw { .. } => (self.model, kind.contact, self.contact_time_s),
        };
        let (mut after, touch) = act(model, &contact, into, before);
        let away = -into.dot(after.velocity);
        if away < HELD_BELOW_M_S {
            let still = with_speed_into(into, after, 0.0);
            let path = Path::new(still, kind.cloth);
            if holding(kind.grown(), &path, &still).is_some_and(|it| it.owner == boundary.owner) {
                after = still;
                self.record_touch(index, boundary, touch, before, after);
                return self.begin(index, after);
            }
        }
        self.record_touch(index, boundary, touch, before, after);
        if lasts_s > 0.0 {
            let path = along_while_touching(into, before, after, kind.cloth.radius_m);
            let until_s = self.now_s + lasts_s;
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

/// The contact of a ball with an upright thing of its own restitution and friction.
fn upright(of_ball: &CushionContact, restitution: f64, friction: f64) -> CushionContact {
    CushionContact {
        sin_theta: 0.0,
        cos_theta: 1.0,
        nose_friction: friction,
        restitution,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        checked_speed_m_s: f64::INFINITY,
        ..*of_ball
    }
}

fn event(boundary: Boundary, touch: Touch) -> EventKind {
    match boundary.owner {
        Owner::Nose(rail) => EventKind::Cushion(CushionTouch { rail, touch }),
        Owner::Jaw { pocket, side, part } => EventKind::Jaw { pocket, side, part, touch },
        Owner::Obstacle(index) => EventKind::Obstacle { index, touch },
    }
}

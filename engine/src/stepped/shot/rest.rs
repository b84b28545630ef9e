//! Balls that come to rest or fall.

use super::clearance::TOUCH_M;
use super::game::{HELD_STEPS, SteppedGame};
use super::hold::Hold;
use crate::shot::{End, Ending};
use crate::stepped::cloth;
use crate::vector::{Vec2, Vec3};

impl SteppedGame<'_> {
    /// Which balls have come to rest, and which move again.
    pub(super) fn note_rest(&mut self) {
        for ball in 0..self.states.len() {
            if !self.on_table[ball] {
                continue;
            }
            if self.leans_still(ball) {
                self.let_lean(ball);
            }
            let touched = self.is_touched(ball);
            let state = &mut self.states[ball];
            if !touched && cloth::rests(state, &self.kinds[ball].cloth) {
                state.velocity = Vec2::ZERO;
                state.spin.x = 0.0;
                state.spin.y = 0.0;
                if state.spin.z.abs() <= 1e-9 * self.kinds[ball].cloth.pivot_deceleration_rad_s2 {
                    state.spin.z = 0.0;
                }
            }
            let rests = !touched && state.velocity == Vec2::ZERO && state.spin == Vec3::ZERO;
            if rests && !self.rests[ball] {
                let state = *state;
                self.ends[ball] = Some(End { ending: Ending::AtRest, time_s: self.now_s, state });
                self.samples[ball].keep(self.now_s, state, true);
            }
            if !rests {
                self.ends[ball] = None;
            }
            self.rests[ball] = rests;
        }
    }

    /// True when surfaces push a ball that hardly moves by less than rolling resistance holds.
    pub(super) fn leans_still(&self, ball: usize) -> bool {
        let (state, cloth) = (&self.states[ball], &self.kinds[ball].cloth);
        let slack_s = self.contact_time_s_of(ball) / HELD_STEPS;
        let holds = || self.holds.iter().filter(|hold| hold.ball == ball && hold.pushes());
        holds().next().is_some()
            && holds().all(|hold| hold.acceleration(state) <= cloth.rolling_deceleration_m_s2)
            && state.velocity.norm() <= cloth.rolling_deceleration_m_s2 * slack_s
            && state.cloth_slip(cloth.radius_m).norm() <= cloth.rolling_deceleration_m_s2 * slack_s
            && !self.pairs.iter().any(|pair| pair.balls.contains(&ball))
    }

    /// Longest contact time of the surfaces on a ball, s.
    pub(super) fn contact_time_s_of(&self, ball: usize) -> f64 {
        let holds = self.holds.iter().filter(|hold| hold.ball == ball);
        holds.map(Hold::contact_time_s).fold(0.0, f64::max)
    }

    /// A ball that leans against surfaces comes to rest there.
    pub(super) fn let_lean(&mut self, ball: usize) {
        self.states[ball].velocity = Vec2::ZERO;
        self.states[ball].spin.x = 0.0;
        self.states[ball].spin.y = 0.0;
        for hold in self.holds.iter().filter(|hold| hold.ball == ball && hold.pushes()) {
            let contact = &mut self.contacts[hold.contact];
            contact.ended_s = Some(self.now_s);
            contact.departure = self.states[ball];
        }
        self.holds.retain(|hold| hold.ball != ball);
    }

    pub(super) fn drop_balls(&mut self) {
        for ball in 0..self.states.len() {
            let centre = self.states[ball].position;
            if !self.on_table[ball] || self.kinds[ball].is_free(centre, TOUCH_M) {
                continue;
            }
            let state = self.states[ball];
            let fallen = self.drops.iter().find(|(_, drop)| {
                drop.offset_m - drop.normal.dot(centre) <= TOUCH_M
                    && drop.normal.dot(state.velocity) > 0.0
            });
            if let Some((pocket, _)) = fallen {
                let ending = Ending::Dropped(*pocket);
                self.ends[ball] = Some(End { ending, time_s: self.now_s, state });
                self.samples[ball].keep(self.now_s, state, true);
                self.on_table[ball] = false;
                self.rests[ball] = true;
                self.solver.remove(ball);
                self.holds.retain(|hold| hold.ball != ball);
                self.pairs.retain(|pair| !pair.balls.contains(&ball));
            }
        }
    }
}

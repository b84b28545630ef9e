//! One step: half of the pushes, the solver, the other half.

use super::clearance::{DEEP_M, SLOW_M_S};
use super::game::{HELD, SteppedGame};
use crate::motion::BallState;
use crate::shot::touching_m;
use crate::stepped::cloth::ClothPush;

impl SteppedGame<'_> {
    pub(super) fn step(&mut self, step_s: f64) {
        let half_s = 0.5 * step_s;
        let steady: Vec<bool> = (0..self.states.len())
            .map(|ball| self.on_table[ball] && self.steady_time_s(ball) <= step_s * (1.0 + 1e-9))
            .collect();
        let pushes: Vec<Option<ClothPush>> = (0..self.states.len())
            .map(|ball| {
                (self.on_table[ball] && !self.rests[ball]).then(|| self.push_of(ball, step_s))
            })
            .collect();
        let before = self.begin_step(half_s, &pushes);
        self.solver.step(&mut self.states, &self.on_table, step_s);
        self.now_s += step_s;
        self.steps += 1;
        self.after_pairs(step_s);
        self.end_step(half_s, step_s, &pushes, &before);
        self.keep_samples(&steady);
    }

    /// The first halves of the pushes; returns the force of each hold at the step's beginning.
    pub(super) fn begin_step(&mut self, half_s: f64, pushes: &[Option<ClothPush>]) -> Vec<f64> {
        for (state, push) in self.states.iter_mut().zip(pushes) {
            half_of_cloth(state, push.as_ref());
        }
        let mut before = Vec::with_capacity(self.holds.len());
        for hold in &mut self.holds {
            let state = &mut self.states[hold.ball];
            before.push(0.0);
            if !hold.pushes() {
                continue;
            }
            hold.follow(state);
            let radius_m = self.balls[hold.ball].ball.radius_m();
            if let Some(push) = hold.push(state, radius_m, half_s, false) {
                if let Some(last) = before.last_mut() {
                    *last = push.speed_m_s / half_s;
                }
                *state = push.state;
                let contact = &mut self.contacts[hold.contact];
                contact.impulse_n_s += push.speed_m_s * self.balls[hold.ball].ball.mass_kg;
            }
        }
        self.solver.part_all();
        for pair in &self.pairs {
            let [one, other] = pair.balls;
            let kinds = [&self.balls[one].ball, &self.balls[other].ball];
            let states = [&self.states[one], &self.states[other]];
            let apart_m = (states[1].position - states[0].position).norm();
            if apart_m < touching_m(kinds[0], kinds[1]) {
                self.solver.join(pair.balls, pair.plane_friction(kinds, states));
            }
        }
        before
    }

    /// The touches of balls with each other in the solver's step.
    pub(super) fn after_pairs(&mut self, step_s: f64) {
        let mut at = 0;
        while at < self.pairs.len() {
            let pair = &mut self.pairs[at];
            let [one, other] = pair.balls;
            let kinds = [&self.balls[one].ball, &self.balls[other].ball];
            let impulse = self.solver.impulse_n_s(pair.balls);
            let contact = &mut self.contacts[pair.contact];
            if impulse > 0.0 {
                pair.pushed = true;
                let rolled =
                    pair.roll_over(kinds, [&self.states[one], &self.states[other]], impulse);
                [self.states[one], self.states[other]] = rolled;
                contact.impulse_n_s += impulse;
            }
            let (a, b) = (self.states[one], self.states[other]);
            let apart = b.position - a.position;
            let gap_m = apart.norm() - touching_m(kinds[0], kinds[1]);
            let approach = (a.velocity - b.velocity).dot(apart.unit_or_zero());
            contact.depth_m = contact.depth_m.max(-gap_m);
            contact.approach_m_s = contact.approach_m_s.max(approach);
            let apart = impulse <= 0.0 && approach <= 0.0 && (pair.pushed || gap_m > 0.0);
            // What is left between them is less than the cloth holds.
            let spent = approach.abs() <= SLOW_M_S
                && gap_m > -DEEP_M
                && (self.now_s - pair.began_s > HELD * self.ball_contact_time_s || impulse <= 0.0);
            let ended = apart || spent;
            contact.departure = a;
            contact.other = contact.other.map(|[arrival, _]| [arrival, b]);
            if ended {
                // The step that did not push any more is not part of it.
                let idle_s = if impulse > 0.0 { 0.0 } else { step_s };
                contact.ended_s = Some(self.now_s - idle_s);
                self.samples[one].keep(self.now_s, a, true);
                self.samples[other].keep(self.now_s, b, true);
                self.pairs.swap_remove(at);
            } else {
                at += 1;
            }
        }
    }

    /// The second halves of the pushes, and which of them are over.
    pub(super) fn end_step(
        &mut self,
        half_s: f64,
        step_s: f64,
        pushes: &[Option<ClothPush>],
        before: &[f64],
    ) {
        for (hold, began_with) in self.holds.iter_mut().zip(before) {
            let state = &mut self.states[hold.ball];
            if !hold.pushes() {
                hold.come_back(step_s);
                continue;
            }
            let radius_m = self.balls[hold.ball].ball.radius_m();
            let contact = &mut self.contacts[hold.contact];
            if let Some(push) = hold.push(state, radius_m, half_s, true) {
                *state = push.state;
                contact.impulse_n_s += push.speed_m_s * self.balls[hold.ball].ball.mass_kg;
            } else {
                // The push fell to nothing within the step, in proportion.
                let pull = -hold.acceleration(state);
                let sum = began_with + pull;
                let share = if sum > 0.0 { began_with / sum } else { 1.0 };
                contact.ended_s = Some(self.now_s - step_s * (1.0 - share));
                hold.let_go(state.position);
                self.samples[hold.ball].keep(self.now_s, *state, true);
            }
            contact.departure = *state;
            contact.depth_m = contact.depth_m.max(hold.depth_m(state.position));
            contact.approach_m_s = hold.approach_m_s;
            contact.restitution = hold.restitution;
        }
        for (state, push) in self.states.iter_mut().zip(pushes) {
            half_of_cloth(state, push.as_ref());
        }
        self.holds.retain(|hold| !hold.is_over());
    }

    pub(super) fn keep_samples(&mut self, steady: &[bool]) {
        for ball in (0..self.states.len()).filter(|ball| self.on_table[*ball]) {
            let touched = self.is_touched(ball);
            let samples = &mut self.samples[ball];
            let due = self.now_s - samples.last_s() >= self.free_step_s * 0.999;
            if !self.rests[ball] && (touched || steady[ball] || due) {
                samples.keep(self.now_s, self.states[ball], steady[ball]);
            }
        }
    }
}

fn half_of_cloth(state: &mut BallState, push: Option<&ClothPush>) {
    if let Some(push) = push {
        state.velocity += push.velocity * 0.5;
        state.spin.x += 0.5 * push.level_spin.x;
        state.spin.y += 0.5 * push.level_spin.y;
        state.spin.z += 0.5 * push.spin_z;
    }
}

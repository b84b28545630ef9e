//! Which contacts begin, and which surface a gliding ball is on.

use super::clearance::{TOUCH_M, clearance, touches};
use super::game::SteppedGame;
use super::hold::{Hold, Material, Stage};
use super::pair::BallPair;
use super::{ContactWith, SteppedContact};
use crate::motion::BallState;
use crate::shot::touching_m;
use crate::world::{Boundary, Owner};

impl SteppedGame<'_> {
    /// A surface that a ball has glided off hands it over to the next piece of the same solid, which
    /// goes on where it ends.
    pub(super) fn take_over(&mut self) {
        for hold in &mut self.holds {
            let centre = self.states[hold.ball].position;
            if hold.boundary.spans(centre) {
                continue;
            }
            let normal = hold.boundary.normal_at(centre);
            let depth_m = hold.depth_m(centre);
            let next = self.kinds[hold.ball].boundaries.iter().find(|next| {
                next.gap(centre).is_some_and(|gap| (gap + depth_m).abs() < 1e-3)
                    && next.normal_at(centre).dot(normal) > 0.9
            });
            match next {
                Some(next) => hold.boundary = *next,
                // Its piece has ended and nothing goes on: so does the push.
                None => hold.stage = Stage::ComingBack(0.0),
            }
        }
    }

    pub(super) fn material(&self, owner: Owner) -> Material {
        match owner {
            Owner::Nose(_) | Owner::Jaw { .. } => {
                let contact_time_s = self.world.contact_time_s(owner);
                Material::cushion(&self.world.equipment().cushion, contact_time_s)
            }
            Owner::Obstacle(index) => {
                Material::obstacle(&self.world.obstacles()[index], self.ball_contact_time_s)
            }
        }
    }

    /// Begins the contacts of those that touch and approach each other.
    pub(super) fn begin_contacts(&mut self) {
        for ball in 0..self.states.len() {
            let state = self.states[ball];
            if !self.on_table[ball] || self.kinds[ball].is_free(state.position, TOUCH_M) {
                continue;
            }
            for at in 0..self.kinds[ball].boundaries.len() {
                let boundary = self.kinds[ball].boundaries[at];
                let look = clearance(&boundary, state.position);
                let speed = boundary.normal_at(state.position).dot(state.velocity);
                let known =
                    self.holds.iter().position(|it| it.ball == ball && it.boundary == boundary);
                match known {
                    Some(known) => {
                        let hold = &self.holds[known];
                        let meets = look.gap_m + hold.left_m() <= TOUCH_M
                            && hold.acceleration(&state) > 0.0;
                        if hold.pushes() || !meets {
                            continue;
                        }
                        if speed <= 0.0 {
                            // It had not gone: the surface has caught up with it.
                            self.holds[known].stage = Stage::Pushing;
                        } else {
                            self.holds.swap_remove(known);
                            self.begin_hold(ball, boundary, state);
                        }
                    }
                    None => {
                        if look.counts && touches(look.gap_m, speed) {
                            self.begin_hold(ball, boundary, state);
                        }
                    }
                }
            }
        }
        for one in 0..self.states.len() {
            for other in one + 1..self.states.len() {
                if self.on_table[one] && self.on_table[other] && !self.is_pair(one, other) {
                    self.begin_pair(one, other);
                }
            }
        }
    }

    pub(super) fn begin_hold(&mut self, ball: usize, boundary: Boundary, state: BallState) {
        let material = self.material(boundary.owner);
        let hold = Hold::new(ball, boundary, material, &state, self.contacts.len(), self.now_s);
        let with = ContactWith::Surface(boundary.owner);
        self.contacts.push(SteppedContact {
            ball,
            with,
            began_s: self.now_s,
            ended_s: None,
            depth_m: 0.0,
            approach_m_s: hold.approach_m_s,
            restitution: hold.restitution,
            impulse_n_s: 0.0,
            arrival: state,
            departure: state,
            other: None,
        });
        self.holds.push(hold);
        self.samples[ball].keep(self.now_s, state, true);
        self.rests[ball] = false;
    }

    pub(super) fn begin_pair(&mut self, one: usize, other: usize) {
        let (a, b) = (self.states[one], self.states[other]);
        let apart = b.position - a.position;
        let kinds = [&self.balls[one].ball, &self.balls[other].ball];
        let gap_m = apart.norm() - touching_m(kinds[0], kinds[1]);
        let approach_m_s = (a.velocity - b.velocity).dot(apart.unit_or_zero());
        if !touches(gap_m, approach_m_s) {
            return;
        }
        let law = &self.world.equipment().ball_contact;
        let pair = BallPair::new([one, other], law, self.contacts.len(), self.now_s);
        self.contacts.push(SteppedContact {
            ball: one,
            with: ContactWith::Ball(other),
            began_s: self.now_s,
            ended_s: None,
            depth_m: 0.0,
            approach_m_s,
            restitution: law.restitution,
            impulse_n_s: 0.0,
            arrival: a,
            departure: a,
            other: Some([b, b]),
        });
        self.pairs.push(pair);
        for (ball, state) in [(one, a), (other, b)] {
            self.samples[ball].keep(self.now_s, state, true);
            self.rests[ball] = false;
        }
    }
}

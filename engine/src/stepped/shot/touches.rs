//! When in the step to come something is touched first.

use super::ball_kind::FreeMotion;
use super::clearance::{GapReading, SLOW_M_S, clearance, first_touch};
use super::game::SteppedGame;
use super::hold::Hold;
use crate::motion::BallState;
use crate::shot::touching_m;
use crate::vector::{Vec2, Vec3};
use crate::world::Boundary;

impl SteppedGame<'_> {
    pub(super) fn courses(&self, step_s: f64) -> Vec<FreeMotion> {
        let mut courses: Vec<FreeMotion> = (0..self.states.len())
            .map(|ball| {
                let state = self.states[ball];
                let moves = self.on_table[ball] && !self.rests[ball];
                let acceleration = if moves {
                    self.push_of(ball, step_s).velocity * (1.0 / step_s)
                } else {
                    Vec2::ZERO
                };
                FreeMotion { state, acceleration }
            })
            .collect();
        for hold in self.holds.iter().filter(|hold| hold.pushes()) {
            let state = &self.states[hold.ball];
            let push = hold.acceleration(state).max(0.0);
            let into = hold.boundary.normal_at(state.position);
            let course = &mut courses[hold.ball];
            course.acceleration = course.acceleration - into * push;
        }
        courses
    }

    pub(super) fn first_touch_within(&self, courses: &[FreeMotion], until_s: f64) -> Option<f64> {
        let mut until_s = until_s;
        let mut found = None;
        let mut note = |time_s: Option<f64>, until_s: &mut f64| {
            if let Some(time_s) = time_s {
                *until_s = time_s;
                found = Some(time_s);
            }
        };
        for ball in (0..courses.len()).filter(|ball| self.on_table[*ball]) {
            let course = &courses[ball];
            let fastest = course.fastest(until_s);
            let kind = &self.kinds[ball];
            if fastest > 0.0 && !kind.is_free(course.state.position, fastest * until_s) {
                for boundary in &kind.boundaries {
                    let mut back_m = 0.0;
                    if let Some(hold) = self.hold_of(ball, boundary) {
                        if hold.pushes() {
                            continue;
                        }
                        back_m = hold.left_m();
                    }
                    let look = |time_s: f64| {
                        let (centre, velocity) = course.at(time_s);
                        let mut look = clearance(boundary, centre);
                        look.gap_m += back_m;
                        look.counts &= boundary.normal_at(centre).dot(velocity) > SLOW_M_S;
                        look
                    };
                    note(first_touch(look, fastest, until_s), &mut until_s);
                }
                for (_, drop) in &self.drops {
                    let look = |time_s: f64| {
                        let (centre, velocity) = course.at(time_s);
                        GapReading {
                            gap_m: drop.offset_m - drop.normal.dot(centre),
                            counts: drop.normal.dot(velocity) > 0.0,
                        }
                    };
                    note(first_touch(look, fastest, until_s), &mut until_s);
                }
            }
            for other in (ball + 1..courses.len()).filter(|other| self.on_table[*other]) {
                if self.is_pair(ball, other) {
                    continue;
                }
                let with = &courses[other];
                let relative = FreeMotion {
                    state: BallState {
                        position: with.state.position - course.state.position,
                        velocity: with.state.velocity - course.state.velocity,
                        spin: Vec3::ZERO,
                    },
                    acceleration: with.acceleration - course.acceleration,
                };
                let touching_m = touching_m(&self.balls[ball].ball, &self.balls[other].ball);
                let look = |time_s: f64| {
                    let (apart, velocity) = relative.at(time_s);
                    let closing = -apart.unit_or_zero().dot(velocity);
                    GapReading { gap_m: apart.norm() - touching_m, counts: closing > SLOW_M_S }
                };
                note(first_touch(look, relative.fastest(until_s), until_s), &mut until_s);
            }
        }
        found
    }

    pub(super) fn hold_of(&self, ball: usize, boundary: &Boundary) -> Option<&Hold> {
        self.holds.iter().find(|hold| hold.ball == ball && hold.boundary == *boundary)
    }

    pub(super) fn is_pair(&self, one: usize, other: usize) -> bool {
        self.pairs.iter().any(|pair| pair.balls == [one, other])
    }
}

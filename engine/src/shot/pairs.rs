//! Meetings of balls.

use super::game::{ShotGame, TOGETHER_S};
use super::trajectory::LegKind;
use super::{BallTouch, EventKind};
use crate::equipment::BallContact;
use crate::impact::{Body, ball_ball, effective_mass, with_normal_impulse};
use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};

/// Balls that close more slowly than this give back all their speed of approach, m/s. Two that the
/// cloth presses together would else bounce ever smaller and denser without end; so they stay within
/// a micrometre of each other.
pub const SLOW_M_S: f64 = 2e-3;
/// And they part at least at this speed, m/s, even if they did not close at all. What energy that adds
/// is at most (this speed)²/4 per mass.
pub const LEAST_PARTING_M_S: f64 = 5e-4;
/// A slower approach than this is none, m/s.
const LEAST_APPROACH_M_S: f64 = 1e-12;
/// Balls that touch without closing count as pressed together from this acceleration, m/s².
const LEAST_PRESSURE_M_S2: f64 = 1e-9;
/// Approaches that differ by less than this share are equally fast.
const EQUALLY_FAST: f64 = 1e-9;

/// A contact of two balls, due now.
#[derive(Debug, Clone, Copy)]
struct DueContact {
    balls: [usize; 2],
    /// Unit vector from the first centre to the second.
    normal: Vec2,
    approach_m_s: f64,
}

impl ShotGame<'_> {
    /// Resolves the fastest of the contacts of balls that are due.
    pub(super) fn meet_balls(&mut self) {
        let mut due = self.due();
        let fastest = due.iter().fold(0.0, |most: f64, it| it.approach_m_s.max(most));
        if fastest <= LEAST_APPROACH_M_S {
            let Some(first) = due.first().copied() else { return };
            return match due.into_iter().find(|it| self.presses(it)) {
                Some(pressed) => self.resolve(&[pressed], &[]),
                // Nothing closes but for rounding, or what closed was held by a surface.
                None => self.let_pass(first.balls),
            };
        }
        due.retain(|it| it.approach_m_s >= fastest * (1.0 - EQUALLY_FAST));
        match due.as_slice() {
            [one] => self.resolve(&[*one], &[]),
            several => {
                let impulses = together(self, several);
                self.resolve(several, &impulses);
            }
        }
    }

    /// The pairs whose contact is due, with their states now.
    fn due(&self) -> Vec<DueContact> {
        let count = self.players.len();
        let mut due = Vec::new();
        for one in 0..count {
            for other in one + 1..count {
                if self.pair_s[one * count + other] <= self.now_s + TOGETHER_S {
                    let (a, b) = (self.state_of(one), self.state_of(other));
                    let normal = (b.position - a.position).unit_or_zero();
                    let approach_m_s = (a.velocity - b.velocity).dot(normal);
                    due.push(DueContact { balls: [one, other], normal, approach_m_s });
                }
            }
        }
        // The order decides only how sums round; places on the table decide it, not the balls' order.
        due.sort_by(|a, b| self.place_key(a).total_cmp(&self.place_key(b)));
        due
    }

    fn place_key(&self, due: &DueContact) -> f64 {
        let [a, b] = due.balls.map(|index| self.state_of(index).position);
        let middle = a + b;
        middle.x.abs() + 2.0 * middle.y.abs()
    }

    /// True when the cloth presses two balls together that touch.
    fn presses(&self, due: &DueContact) -> bool {
        let [a, b] = due.balls.map(|index| {
            let leg = &self.players[index].leg;
            leg.path.acceleration_at(self.now_s - leg.time_s)
        });
        due.approach_m_s > -LEAST_APPROACH_M_S && (a - b).dot(due.normal) > LEAST_PRESSURE_M_S2
    }

    /// Two balls touch without closing: they go on as they are.
    fn let_pass(&mut self, balls: [usize; 2]) {
        let mut released = false;
        for index in balls {
            if matches!(self.players[index].leg.kind, LegKind::Against { .. }) {
                let state = self.leave(index, self.now_s);
                self.begin(index, state);
                self.stop_at_rest(index, state);
                self.foresee_all(index);
                released = true;
            }
        }
        if !released {
            // Without this the same instant would be asked for ever; what presses them together
            // shows at the next change of either.
            let slot = self.slot(balls[0], balls[1]);
            self.pair_s[slot] = f64::INFINITY;
        }
    }

    /// Applies contacts to the states now, all from the same states, and lets their balls move on.
    /// Several contacts come with their impulses along the lines of centres.
    fn resolve(&mut self, contacts: &[DueContact], impulses: &[f64]) {
        let mut changed: Vec<(usize, BallState, Vec2, Vec3)> =
            Vec::with_capacity(2 * contacts.len());
        let mut hits = Vec::with_capacity(contacts.len());
        for (place, due) in contacts.iter().enumerate() {
            let before = due.balls.map(|index| self.state_of(index));
            let bodies = due.balls.map(|index| Body::from(&self.players[index].ball));
            let motion = before.map(|state| (state.velocity, state.spin));
            let hit = if contacts.len() > 1 {
                let pn = impulses.get(place).copied().unwrap_or(0.0);
                with_normal_impulse(&self.ball_contact, due.normal, bodies, motion, pn)
            } else if due.approach_m_s < SLOW_M_S {
                let pn = effective_mass(bodies) * change_m_s(&self.ball_contact, due.approach_m_s);
                with_normal_impulse(&self.ball_contact, due.normal, bodies, motion, pn)
            } else {
                ball_ball(&self.ball_contact, due.normal, bodies, motion)
            };
            for side in 0..2 {
                let (velocity, spin) = hit.after[side];
                let (dv, dw) = (
                    velocity - motion[side].0,
                    Vec3::new(
                        spin.x - motion[side].1.x,
                        spin.y - motion[side].1.y,
                        spin.z - motion[side].1.z,
                    ),
                );
                let index = due.balls[side];
                match changed.iter_mut().find(|(it, ..)| *it == index) {
                    Some((_, _, velocity, spin)) => {
                        *velocity += dv;
                        *spin = Vec3::new(spin.x + dw.x, spin.y + dw.y, spin.z + dw.z);
                    }
                    None => changed.push((index, before[side], dv, dw)),
                }
            }
            hits.push((before, hit));
        }
        let single = contacts.len() == 1;
        let after_of = |index: usize, hit: &crate::impact::BallHit, side: usize| {
            let found = changed.iter().find(|(it, ..)| *it == index);
            let Some((_, before, dv, dw)) = found.filter(|_| !single) else {
                let (velocity, spin) = hit.after[side];
                return (velocity, spin);
            };
            let (v, w) = (before.velocity + *dv, before.spin);
            (v, Vec3::new(w.x + dw.x, w.y + dw.y, w.z + dw.z))
        };
        let mut moved: Vec<(usize, BallState)> = Vec::with_capacity(changed.len());
        for (due, (before, hit)) in contacts.iter().zip(&hits) {
            let after = [0, 1].map(|side| {
                let (velocity, spin) = after_of(due.balls[side], hit, side);
                BallState { position: before[side].position, velocity, spin }
            });
            for (index, state) in due.balls.into_iter().zip(after) {
                if !moved.iter().any(|(known, _)| *known == index) {
                    moved.push((index, state));
                }
            }
            let touch = BallTouch {
                other: due.balls[1],
                other_before: before[1],
                other_after: after[1],
                approach_m_s: due.approach_m_s,
                slip_m_s: hit.slip_m_s,
                friction: hit.friction,
            };
            self.record(EventKind::Ball(touch), due.balls[0], before[0], after[0]);
        }
        for (index, state) in &moved {
            self.wake(*index);
            self.begin(*index, *state);
            self.stop_at_rest(*index, *state);
        }
        for (index, _) in &moved {
            self.foresee_all(*index);
        }
    }
}

/// The impulses along the lines of centres of contacts that are resolved together: each speed of
/// approach turns into the same share of itself in parting, whatever the others do. Contacts that
/// would have to pull do nothing.
fn together(game: &ShotGame<'_>, contacts: &[DueContact]) -> Vec<f64> {
    let count = contacts.len();
    let mut active: Vec<bool> = vec![true; count];
    loop {
        let members: Vec<usize> = (0..count).filter(|index| active[*index]).collect();
        let size = members.len();
        let mut matrix = vec![vec![0.0; size + 1]; size];
        for (row, k) in members.iter().enumerate() {
            for (column, l) in members.iter().enumerate() {
                matrix[row][column] = coupling(game, &contacts[*k], &contacts[*l]);
            }
            let speed = contacts[*k].approach_m_s;
            matrix[row][size] = change_m_s(&game.ball_contact, speed);
        }
        let solved = solve(matrix);
        let pulls = members.iter().zip(&solved).any(|(_, impulse)| *impulse < 0.0);
        if !pulls || size == 1 {
            let mut impulses = vec![0.0; count];
            for (index, impulse) in members.iter().zip(solved) {
                impulses[*index] = impulse.max(0.0);
            }
            return impulses;
        }
        for (index, impulse) in members.iter().zip(&solved) {
            active[*index] &= *impulse >= 0.0;
        }
    }
}

/// By how much a speed of approach changes, m/s.
fn change_m_s(contact: &BallContact, approach_m_s: f64) -> f64 {
    let parting = if approach_m_s < SLOW_M_S {
        approach_m_s.max(LEAST_PARTING_M_S)
    } else {
        contact.restitution * approach_m_s
    };
    approach_m_s.max(0.0) + parting
}

/// Change of closing speed at contact `k` per impulse at contact `l`, 1/kg.
fn coupling(game: &ShotGame<'_>, k: &DueContact, l: &DueContact) -> f64 {
    let mut sum = 0.0;
    for (side, index) in k.balls.iter().enumerate() {
        for (other, same) in l.balls.iter().enumerate() {
            if index == same {
                let sign = if side == other { 1.0 } else { -1.0 };
                sum += sign * k.normal.dot(l.normal) / game.players[*index].ball.mass_kg;
            }
        }
    }
    sum
}

/// Solves a small linear system given with its right side as the last column; a row that is not
/// independent of the others gets no share.
fn solve(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
    let size = rows.len();
    if let [one, other] = rows.as_slice() {
        // The same operations for both, so that what is symmetric stays so to the bit.
        let determinant = one[0] * other[1] - one[1] * other[0];
        if determinant.abs() > 1e-9 {
            return vec![
                (one[2] * other[1] - other[2] * one[1]) / determinant,
                (other[2] * one[0] - one[2] * other[0]) / determinant,
            ];
        }
    }
    for pivot in 0..size {
        let best =
            (pivot..size).max_by(|a, b| rows[*a][pivot].abs().total_cmp(&rows[*b][pivot].abs()));
        rows.swap(pivot, best.unwrap_or(pivot));
        if rows[pivot][pivot].abs() < 1e-9 {
            continue;
        }
        for row in 0..size {
            if row != pivot {
                let factor = rows[row][pivot] / rows[pivot][pivot];
                let pivoting = rows[pivot].clone();
                for (here, there) in rows[row].iter_mut().zip(pivoting).skip(pivot) {
                    *here -= factor * there;
                }
            }
        }
    }
    (0..size)
        .map(|row| {
            let diagonal = rows[row][row];
            if diagonal.abs() < 1e-9 { 0.0 } else { rows[row][size] / diagonal }
        })
        .collect()
}

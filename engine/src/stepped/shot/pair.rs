//! Two balls in contact: the solver's settings and the numbers kept beside them.

use crate::equipment::{Ball, BallContact};
use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};

/// Less slip than this has no direction, m/s.
const NO_SLIP_M_S: f64 = 1e-12;

/// Two balls in contact.
#[derive(Debug, Clone, Copy)]
pub(super) struct BallPair {
    /// The lower place first.
    pub(super) balls: [usize; 2],
    /// Its place in the list of contacts.
    pub(super) contact: usize,
    pub(super) began_s: f64,
    /// The solver has pushed them apart.
    pub(super) pushed: bool,
    law: BallContact,
    /// Vertical speed that friction has given the first against the second, m/s.
    rise_m_s: f64,
}

/// Slip of the first ball's surface over the second's.
#[derive(Debug, Clone, Copy)]
struct Slip {
    across_m_s: f64,
    up_m_s: f64,
    left: Vec2,
}

impl Slip {
    fn of(states: [&BallState; 2], radii_m: [f64; 2], rise_m_s: f64) -> Self {
        let [a, b] = states;
        let normal = (b.position - a.position).unit_or_zero();
        let left = Vec2::new(-normal.y, normal.x);
        let turning = Vec3::new(
            radii_m[0] * a.spin.x + radii_m[1] * b.spin.x,
            radii_m[0] * a.spin.y + radii_m[1] * b.spin.y,
            radii_m[0] * a.spin.z + radii_m[1] * b.spin.z,
        );
        Self {
            across_m_s: (a.velocity - b.velocity).dot(left) + turning.z,
            up_m_s: rise_m_s - Vec2::new(turning.x, turning.y).dot(left),
            left,
        }
    }

    fn speed(&self) -> f64 {
        (self.across_m_s * self.across_m_s + self.up_m_s * self.up_m_s).sqrt()
    }

    /// The shares of friction in the table's plane and upwards.
    fn shares(&self) -> [f64; 2] {
        let speed = self.speed();
        if speed <= NO_SLIP_M_S {
            return [1.0, 1.0];
        }
        [self.across_m_s.abs() / speed, self.up_m_s.abs() / speed]
    }
}

impl BallPair {
    pub(super) fn new(balls: [usize; 2], law: &BallContact, contact: usize, began_s: f64) -> Self {
        Self { balls, contact, began_s, pushed: false, law: *law, rise_m_s: 0.0 }
    }

    /// The friction that the solver, which knows only the plane, has to use now.
    pub(super) fn plane_friction(&self, kinds: [&Ball; 2], states: [&BallState; 2]) -> f64 {
        let slip = Slip::of(states, kinds.map(Ball::radius_m), self.rise_m_s);
        self.law.friction_at(slip.speed()) * slip.shares()[0]
    }

    /// Applies the vertical part of friction that goes with the solver's normal impulse.
    pub(super) fn roll_over(
        &mut self,
        kinds: [&Ball; 2],
        states: [&BallState; 2],
        normal_n_s: f64,
    ) -> [BallState; 2] {
        let slip = Slip::of(states, kinds.map(Ball::radius_m), self.rise_m_s);
        let by_mass = 1.0 / kinds[0].mass_kg + 1.0 / kinds[1].mass_kg;
        let most = self.law.friction_at(slip.speed()) * slip.shares()[1] * normal_n_s;
        let impulse = most.min(2.0 / 7.0 * slip.up_m_s.abs() / by_mass);
        let impulse = if slip.up_m_s < 0.0 { -impulse } else { impulse };
        self.rise_m_s -= impulse * by_mass;
        [0, 1].map(|side| {
            let turn = 2.5 * impulse / (kinds[side].mass_kg * kinds[side].radius_m());
            let mut state = *states[side];
            state.spin.x += turn * slip.left.x;
            state.spin.y += turn * slip.left.y;
            state
        })
    }
}

//! The place of an impact on its way, and the rest of the way.

#![expect(clippy::needless_bitwise_bool, reason = "a lazy operator is a branch")]

use super::choice::{choose, least, most};
use super::law::{Law, Slips};

/// A rest of the way so short that second order is exact to rounding.
const LAST_BIT: f64 = 2e-7;
/// Number of numbers in a course.
pub(super) const NUMBERS: usize = 12;
/// There is no target for the work yet: the ball is still on its way in.
const NO_TARGET: f64 = f64::INFINITY;

/// Where an impact is on its way. Speeds are scaled so that the incoming state has length 1.
#[derive(Debug, Clone, Copy)]
pub(super) struct Course {
    pub y: Slips,
    /// Integral of the speed into the cushion: from first touch, then from standstill.
    pub distance: f64,
    /// The distance at which the ball leaves; [`NO_TARGET`] before standstill.
    pub target: f64,
    /// Rate of the speed into the cushion before the last step, and that step's length; 0 if there
    /// is none to go by.
    pub slope: f64,
    pub taken: f64,
    /// Share of the reach that the error estimate of the last step allows.
    pub allowed: f64,
    /// Steps tried.
    pub steps: f64,
    /// Restitution, and the speed into the cushion at first touch.
    restitution: f64,
    scale: f64,
}

impl Course {
    /// At first touch.
    pub fn new(law: &Law, y: Slips, restitution: f64) -> Self {
        let scale = law.speed_in(&y);
        Self {
            y,
            distance: 0.0,
            target: NO_TARGET,
            slope: 0.0,
            taken: 0.0,
            allowed: 1.0,
            steps: 0.0,
            restitution,
            scale,
        }
    }

    /// All of it as plain numbers, for a lane.
    #[inline(always)]
    pub fn numbers(&self) -> [f64; NUMBERS] {
        let [nose_x, nose_y, cloth_x, cloth_y] = self.y;
        [
            nose_x,
            nose_y,
            cloth_x,
            cloth_y,
            self.distance,
            self.target,
            self.slope,
            self.taken,
            self.allowed,
            self.steps,
            self.restitution,
            self.scale,
        ]
    }

    /// Back from [`Self::numbers`].
    #[inline(always)]
    pub fn from_numbers(numbers: [f64; NUMBERS]) -> Self {
        let [y0, y1, y2, y3, distance, target, slope, taken, allowed, steps, restitution, scale] =
            numbers;
        let y = [y0, y1, y2, y3];
        Self { y, distance, target, slope, taken, allowed, steps, restitution, scale }
    }

    /// Steps tried, as a count.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
    pub fn steps_u32(&self) -> u32 {
        self.steps as u32
    }

    /// The second derivative of the speed into the cushion, from its rate now and before the last step.
    #[inline(always)]
    fn bend(&self, slope: f64) -> f64 {
        let bend = (slope - self.slope) / self.taken;
        choose(self.taken == 0.0, 0.0, bend)
    }

    /// The way to standstill or, after it, to the end; near to standstill, the work there.
    #[inline(always)]
    pub fn goal(&self, speed: f64, slope: f64, reach: f64) -> Goal {
        let bend = self.bend(slope);
        let rest = to_standstill(speed, slope, bend);
        // The state goes on from here; only the work at standstill is wanted, and it is stationary
        // there.
        let near = choose(self.taken == 0.0, 1e-4, 1e-3);
        let near = self.scale * least(near, 0.02 * self.restitution);
        let near = most(least(near, 0.02 * reach), LAST_BIT * self.scale);
        let now = (self.target == NO_TARGET) & (self.restitution > 0.0) & (rest.abs() <= near);
        let past = -rest * (speed + rest * (0.5 * slope + rest * bend / 6.0));
        let work = -self.restitution * self.restitution * (self.distance - past);
        let (target, distance) = (choose(now, work, self.target), choose(now, past, self.distance));
        let out = to_distance(target - distance, speed, slope, bend, 3.0 * self.taken);
        let ahead = choose(target == NO_TARGET, rest, out);
        Goal { ahead, target, distance }
    }

    /// Notes a goal.
    #[inline(always)]
    pub fn head_for(&mut self, goal: &Goal) {
        (self.target, self.distance) = (goal.target, goal.distance);
    }

    /// Whether so little is left of the way that second order is exact to rounding.
    #[inline(always)]
    pub fn ends(&self, to_goal: f64) -> bool {
        // Not a number ends it, too.
        !(to_goal.abs() > LAST_BIT * self.scale && to_goal.abs() < f64::INFINITY)
    }

    /// Notes a step taken; a length of 0 says that it tells nothing about the next.
    #[inline(always)]
    pub fn took(&mut self, slope: f64, length: f64) {
        (self.slope, self.taken) = (slope, length);
    }
}

/// The end that an impact heads for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Goal {
    /// Impulse until there.
    pub ahead: f64,
    pub target: f64,
    pub distance: f64,
}

/// Where stiffness asks for very many steps, each must be better, so that they add up to no more
/// than a few would.
#[inline(always)]
pub(super) fn crowd(steps: f64) -> f64 {
    1.0 + steps / 200.0
}

/// Impulse until the speed into the cushion vanishes: v + v'·h + ½·v''·h² = 0.
#[inline(always)]
fn to_standstill(speed: f64, slope: f64, bend: f64) -> f64 {
    let first = -speed / slope;
    -speed / bent(slope, 0.5 * bend * first)
}

/// A slope changed by a bend; one measured over a tiny step is noise when it is carried far.
#[inline(always)]
fn bent(slope: f64, change: f64) -> f64 {
    slope + least(most(change, 0.3 * slope), -0.3 * slope)
}

/// Impulse until ∫v dP from here reaches `distance` (≤ 0): v·h + ½·v'·h² + ⅙·v''·h³ = distance.
///
/// Beyond `far` the bend is left out: the way there takes more steps, and so may wait.
#[inline(always)]
fn to_distance(distance: f64, speed: f64, slope: f64, bend: f64, far: f64) -> f64 {
    let once = |slope: f64| {
        // v' < 0: the later root of ½|v'|h² − v·h = |distance|, in its stable form.
        let root = most(speed * speed + 2.0 * slope * distance, 0.0).sqrt();
        // Both vanish together only where an impact so faint that its work is below the smallest
        // number ends.
        let later = (distance < 0.0) & (root > speed);
        let (above, below) =
            (choose(later, -2.0 * distance, distance), choose(later, root - speed, speed));
        choose(later | (speed < 0.0), above / below, 0.0)
    };
    let first = once(slope);
    let second = once(bent(slope, bend * first / 3.0));
    let third = once(bent(slope, bend * second / 3.0));
    let beyond = choose(second > far, second, third);
    choose(first > far, first, beyond)
}

//! The usual step: both contacts slip, the cloth carries the ball, and neither slip is near nothing.
//!
//! Nearly all steps of an impact are of this kind. It is written for one impact, without a branch
//! that depends on another; a loop over several impacts is then one over lanes, which the compiler
//! makes of it, and each impact comes out with the bits that it has alone.

#![expect(clippy::needless_bitwise_bool, reason = "a lazy operator is a branch")]

use super::flow::{BothSlip, Flow, Six, Smooth};
use super::integrate::{LAST_BIT, MANY_STEPS, SHORTEST};
use super::law::{Law, Slips};
use super::pace::{MISS, Pace};
use super::pair::Pair;
use super::runge_kutta;

/// No slip smaller than this is glided on: it may vanish, stick or follow the forces.
const NEAR_NOTHING: f64 = 1e-5;
/// There is no target for the work yet: the ball is still on its way in.
const NO_TARGET: f64 = f64::INFINITY;

/// Where an impact is on its way. Speeds are scaled so that the incoming state has length 1.
#[derive(Debug, Clone, Copy)]
pub(super) struct Course {
    pub y: Slips,
    /// Integral of the speed into the cushion: from first touch, then from standstill.
    pub distance: f64,
    /// The distance at which the ball leaves; [`NO_TARGET`] before standstill.
    target: f64,
    /// Rate of the speed into the cushion before the last step, and that step's length; 0 if there
    /// is none to go by.
    slope: f64,
    taken: f64,
    /// Share of the reach that the error estimate of the last step allows.
    pub allowed: f64,
    /// Steps tried.
    pub steps: f64,
    /// Restitution, and the speed into the cushion at first touch.
    restitution: f64,
    scale: f64,
}

/// What becomes of an impact that has glided.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Next {
    /// It can glide on.
    Glide,
    /// It needs another kind of step.
    Other,
    /// It has ended.
    Ended,
}

/// The same as numbers, for lanes.
pub(super) const GLIDES: f64 = 0.0;
pub(super) const OTHER: f64 = 1.0;
pub(super) const ENDED: f64 = 2.0;

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
    pub fn numbers(&self) -> [f64; 12] {
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
    pub fn from_numbers(numbers: [f64; 12]) -> Self {
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

    /// How the speed into the cushion bends, from its rate now and before the last step.
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

/// What an impact heads for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Goal {
    /// Impulse until there.
    pub ahead: f64,
    target: f64,
    distance: f64,
}

/// What lies ahead of an impact.
struct View {
    start: Six,
    rates: Six,
    reach: f64,
    slope: f64,
    weight: f64,
    goal: Goal,
    /// Length of the step to try.
    h: f64,
    ended: bool,
    glides: bool,
}

impl View {
    fn next(&self) -> Next {
        match (self.ended, self.glides) {
            (true, _) => Next::Ended,
            (false, true) => Next::Glide,
            (false, false) => Next::Other,
        }
    }

    /// Takes the last bit of the way, if that is all that is left.
    #[inline(always)]
    fn leave(&self, course: &mut Course) {
        let end = self.start.slips + self.rates.slips * self.goal.ahead;
        let end = [end.along.0, end.across.0, end.along.1, end.across.1];
        course.y = core::array::from_fn(|i| choose(self.ended, end[i], course.y[i]));
    }
}

/// What gliding needs to know of one cushion.
#[derive(Debug, Clone, Copy)]
pub(super) struct Glide {
    flow: BothSlip,
    pace: Pace,
    nose_turning: f64,
    cloth_turning: f64,
    /// The cloth carries the ball whatever the nose does, so no end of a step need be looked at.
    possible: bool,
}

impl Glide {
    pub fn new(law: &Law, pace: Pace) -> Self {
        Self {
            flow: BothSlip::new(law, true),
            pace,
            nose_turning: law.nose_turning,
            cloth_turning: law.cloth_turning,
            possible: law.never_lifts,
        }
    }

    /// Tries one step, of which what the error estimate refuses is tried again shorter by the next
    /// call.
    #[inline]
    pub fn step(&self, course: &mut Course) -> Next {
        let view = self.look(course);
        if view.glides {
            self.try_step(course, &view);
        } else {
            view.leave(course);
        }
        view.next()
    }

    /// The same without a branch, for lanes.
    #[inline(always)]
    pub fn step_in_lane(&self, course: &Course) -> (Course, f64) {
        let view = self.look(course);
        let (mut stepped, mut left) = (*course, *course);
        self.try_step(&mut stepped, &view);
        view.leave(&mut left);
        let (stepped, left) = (stepped.numbers(), left.numbers());
        let numbers = core::array::from_fn(|i| choose(view.glides, stepped[i], left[i]));
        let next = choose(view.ended, ENDED, choose(view.glides, GLIDES, OTHER));
        (Course::from_numbers(numbers), next)
    }

    /// Looks at what lies ahead.
    #[inline(always)]
    fn look(&self, course: &Course) -> View {
        let flow = Smooth(&self.flow);
        let start = flow.pick(&course.y);
        let rates = flow.rates(&start);
        let (slip, rate) = (start.slips, rates.slips);
        let squared = slip.along * slip.along + slip.across * slip.across;
        let sizes = squared * start.inverse;
        let rate_squared = rate.along * rate.along + rate.across * rate.across;
        let inverse = Pair(1.0 / most(rate_squared.0, 1e-30), 1.0 / most(rate_squared.1, 1e-30));
        let ratio = squared * inverse;
        let radius = Pair(ratio.0.sqrt(), ratio.1.sqrt());
        let across = slip.along * rate.across - slip.across * rate.along;
        let along = slip.along * rate.along + slip.across * rate.across;
        let miss = Pair(across.0.abs(), across.1.abs()) * inverse;
        let reach = least(
            self.pace.glide_share * least(radius.0, radius.1),
            Pace::stable(sizes.1, self.cloth_turning),
        );
        let (speed, slope) = (flow.speed_in(&start), flow.speed_in(&rates));
        let goal = course.goal(speed, slope, reach);
        let to_goal = goal.ahead;
        let longest = reach * course.allowed;
        // Back to a goal that was passed, but no further than a step may go.
        let to_it = most(to_goal, -longest);
        let partly = choose(to_goal < 1.8 * longest, 0.55 * to_goal, longest);
        let h = choose(to_goal <= longest, to_it, partly);
        let straight = |along: f64, across: f64, miss: f64, radius: f64, rate_squared: f64| {
            (along < 0.0)
                & ((miss < 1e-7 * radius) | (across * across <= MISS * MISS * rate_squared))
        };
        let usual = self.possible
            & (least(sizes.0, sizes.1) > NEAR_NOTHING)
            & (h <= Pace::stable(sizes.0, self.nose_turning))
            & (h.abs() > SHORTEST)
            & (course.steps < f64::from(MANY_STEPS))
            & !straight(along.0, across.0, miss.0, radius.0, rate_squared.0)
            & !straight(along.1, across.1, miss.1, radius.1, rate_squared.1);
        let ended = course.ends(to_goal);
        let weight = least(most(start.inverse.0, start.inverse.1), 100.0);
        View { start, rates, reach, slope, weight, goal, h, ended, glides: usual & !ended }
    }

    #[inline(always)]
    fn try_step(&self, course: &mut Course, view: &View) {
        let flow = Smooth(&self.flow);
        let h = view.h;
        let step = runge_kutta::step(&flow, view.start, view.rates, h);
        course.steps += 1.0;
        let factor = self.pace.glide_factor(step.error * view.weight * crowd(course.steps));
        let share = h.abs() * factor / view.reach;
        let taken = factor >= 1.0;
        let end = flow.slips(&step.end);
        course.y = core::array::from_fn(|i| choose(taken, end[i], course.y[i]));
        course.target = view.goal.target;
        course.distance = view.goal.distance + choose(taken, step.distance, 0.0);
        course.slope = choose(taken, view.slope, course.slope);
        course.taken = choose(taken, h, course.taken);
        course.allowed = least(choose(taken, most(share, course.allowed), share), 1.0);
    }
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

/// One or the other without a branch.
#[inline(always)]
pub(super) fn choose(first: bool, a: f64, b: f64) -> f64 {
    let mask = u64::from(first).wrapping_neg();
    f64::from_bits((a.to_bits() & mask) | (b.to_bits() & !mask))
}

/// The lesser, in one instruction.
#[inline(always)]
pub(super) fn least(a: f64, b: f64) -> f64 {
    choose(a < b, a, b)
}

/// The greater, in one instruction.
#[inline(always)]
pub(super) fn most(a: f64, b: f64) -> f64 {
    choose(a > b, a, b)
}

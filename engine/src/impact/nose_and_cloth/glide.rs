//! The usual step: both contacts slip, the cloth carries the ball, and neither slip is near nothing.
//!
//! Nearly all steps of an impact are of this kind. It is written for one impact, without a branch
//! that depends on another; a loop over several impacts is then one over lanes, which the compiler
//! makes of it, and each impact comes out with the bits that it has alone.

#![expect(clippy::needless_bitwise_bool, reason = "a lazy operator is a branch")]

use super::choice::{choose, least, most};
use super::course::{Course, Goal, crowd};
use super::flow::{BothSlip, Flow, Six, Smooth};
use super::law::Law;
use super::pace::{MANY_STEPS, MISS, Pace, SHORTEST};
use super::pair::NoseClothPair;
use super::runge_kutta;

/// No slip smaller than this is glided on: it may vanish, stick or follow the forces.
const NEAR_NOTHING: f64 = 1e-5;
/// The end of a glide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum GlideEnd {
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

/// The end that lies ahead of an impact.
struct View {
    start: Six,
    rates: Six,
    reach: f64,
    slope: f64,
    /// The weight of an error.
    weight: f64,
    goal: Goal,
    /// Length of the step to try.
    h: f64,
    ended: bool,
    glides: bool,
}

impl View {
    fn next(&self) -> GlideEnd {
        match (self.ended, self.glides) {
            (true, _) => GlideEnd::Ended,
            (false, true) => GlideEnd::Glide,
            (false, false) => GlideEnd::Other,
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

/// The numbers of one cushion that gliding reads.
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
    pub fn step(&self, course: &mut Course) -> GlideEnd {
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
        let inverse =
            NoseClothPair(1.0 / most(rate_squared.0, 1e-30), 1.0 / most(rate_squared.1, 1e-30));
        let ratio = squared * inverse;
        let radius = NoseClothPair(ratio.0.sqrt(), ratio.1.sqrt());
        let across = slip.along * rate.across - slip.across * rate.along;
        let along = slip.along * rate.along + slip.across * rate.across;
        let miss = NoseClothPair(across.0.abs(), across.1.abs()) * inverse;
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
        let sound = self.possible & (least(sizes.0, sizes.1) > NEAR_NOTHING);
        let usual = sound
            & (h <= Pace::stable(sizes.0, self.nose_turning))
            & (h.abs() > SHORTEST)
            & (course.steps < f64::from(MANY_STEPS))
            & !straight(along.0, across.0, miss.0, radius.0, rate_squared.0)
            & !straight(along.1, across.1, miss.1, radius.1, rate_squared.1);
        let ended = sound & course.ends(to_goal);
        // An error turns a slip by the more the smaller it is, and what is turned wrong stays wrong.
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

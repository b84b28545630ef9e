//! From first touch to separation: compression, restitution, and the steps between.

use super::contact::{ContactState, Regime};
use super::course::{Course, crowd};
use super::flow::{BothSlip, ClothFollows, ClothSticks, Flow, NoseSticks, Smooth};
use super::glide::{Glide, GlideEnd};
use super::law::{Law, Slips, Traction, unit};
use super::pace::{self, MANY_STEPS, Pace, SHORTEST};
use super::runge_kutta;
use super::slow_slip::leave;

/// The step in which the cloth begins to slip: its direction at early stages is less exact.
const FIRST_STEP: f64 = 0.15;
/// The end of a collocation step is better than its direction at the start tells, at least by this.
const GAIN: f64 = 1e-2;
/// Cloth slip up to this may follow the forces; the nose slip must be far larger.
const FOLLOWS: f64 = 1e-5;

/// Cloth slip follows the forces while this share of the drive, at most, makes it grow; what grows
/// faster is soon large enough to be followed in its direction.
const SLOWLY: f64 = 0.05;

/// Far more changes of regime and short steps than any impact takes before it ends.
const MANY_UNCOUNTED: u32 = 10_000;

/// An impact under way. Speeds are scaled so that the incoming state has length 1.
pub(super) struct Impact<'a> {
    pub(super) law: &'a Law,
    pub(super) course: Course,
    pub(super) regime: Regime,
    /// Direction in which the nose begins to slip, while its slip is nothing.
    pub(super) heading: [f64; 2],
    glide: &'a Glide,
    pressed: BothSlip,
    lifted: BothSlip,
    pace: Pace,
    /// The last step found the nose slip's direction to follow the forces.
    settled: bool,
    pub regime_changes: u32,
    pub hop: bool,
    /// Short steps and changes of regime without a step.
    uncounted: u32,
}

/// A step that may be taken.
struct TrialStep {
    end: Slips,
    /// Integral of the speed into the cushion.
    distance: f64,
    error: f64,
    /// The nose slip's direction follows the forces.
    settled: bool,
}

impl<'a> Impact<'a> {
    /// Goes on with an impact at any point of its course where no contact sticks.
    pub fn new(law: &'a Law, glide: &'a Glide, course: Course, pace: Pace) -> Self {
        let mut impact = Self {
            law,
            course,
            regime: Regime::SLIPPING,
            heading: [0.0, 1.0],
            glide,
            pressed: BothSlip::new(law, true),
            lifted: BothSlip::new(law, false),
            pace,
            settled: false,
            regime_changes: 0,
            hop: false,
            uncounted: 0,
        };
        impact.settle_regime(0.0);
        impact
    }

    /// Runs until the course can glide on, or has ended.
    pub fn run(&mut self) -> GlideEnd {
        loop {
            if self.regime == Regime::SLIPPING && !self.settled {
                let next = self.glide.step(&mut self.course);
                if next != GlideEnd::Other {
                    return next;
                }
            }
            if self.step() {
                return GlideEnd::Ended;
            }
        }
    }

    /// One step of any kind; true when it was the last.
    fn step(&mut self) -> bool {
        let traction = self.traction(&self.course.y);
        self.hop |= traction.cloth_normal < 0.0;
        let rates = self.law.rates(&traction);
        let (speed, slope) = (self.law.speed_in(&self.course.y), self.law.speed_in(&rates));
        let reach = self.reach(&rates);
        let goal = self.course.goal(speed, slope, reach);
        self.course.head_for(&goal);
        let to_goal = goal.ahead;
        // An approach below the rounding of the slips may be headed for without ever coming nearer.
        let enough =
            self.course.steps > f64::from(2 * MANY_STEPS) || self.uncounted > MANY_UNCOUNTED;
        if self.course.ends(to_goal) || enough {
            for (component, rate) in self.course.y.iter_mut().zip(rates) {
                *component += rate * to_goal;
            }
            return true;
        }
        if to_goal.abs() < 0.02 * reach && self.short(&rates, to_goal)
            || self.vanish(&rates, to_goal)
        {
            self.course.took(0.0, 0.0);
            self.uncounted += 1;
            return false;
        }
        let (taken, done) = self.advance(&rates, to_goal);
        self.course.distance += done;
        self.course.took(slope, taken);
        false
    }

    /// Takes one step towards the goal; returns its length (0 when the regime changed) and the
    /// integral of the speed.
    fn advance(&mut self, rates: &Slips, to_goal: f64) -> (f64, f64) {
        let mut reach = self.reach(rates);
        if self.course.steps > f64::from(MANY_STEPS) {
            (reach, self.course.allowed) = (f64::INFINITY, 1.0);
        }
        let mut longest = reach * self.course.allowed;
        let (mut h, mut trial);
        loop {
            h = if to_goal <= longest {
                // Back to a goal that was passed, but no further than a step may go.
                to_goal.max(-longest)
            } else if to_goal < 1.8 * longest {
                0.55 * to_goal
            } else {
                longest
            };
            self.course.steps += 1.0;
            trial = self.attempt(rates, h);
            let factor = self.pace.factor(trial.error * crowd(self.course.steps));
            if factor >= 1.0 || h.abs() <= SHORTEST || self.course.steps > f64::from(MANY_STEPS) {
                self.course.allowed = (h.abs() * factor / reach).max(self.course.allowed).min(1.0);
                break;
            }
            longest = h.abs() * factor;
            self.course.allowed = (longest / reach).min(1.0);
        }
        self.accept(rates, h, trial)
    }

    /// Takes the step, or the part of it up to a change of regime.
    fn accept(&mut self, rates: &Slips, h: f64, trial: TrialStep) -> (f64, f64) {
        let (at_start, at_end) = (self.guard(&self.course.y), self.guard(&trial.end));
        if at_end <= 0.0 {
            self.course.y = trial.end;
            self.settled = trial.settled;
            return (h, trial.distance);
        }
        let trial = if at_start < 0.0 { self.locate(rates, h, at_start, at_end) } else { trial };
        self.course.y = trial.end;
        self.cross_guard();
        (0.0, trial.distance)
    }

    /// Finds where the guard changes sign, by the Illinois rule on whole steps.
    fn locate(&mut self, rates: &Slips, h: f64, at_start: f64, at_end: f64) -> TrialStep {
        let (mut low, mut low_guard) = (0.0, at_start);
        let (mut high, mut high_guard) = (h, at_end);
        let mut best = self.attempt(rates, h);
        let mut kept_low = false;
        let mut kept_high = false;
        for _ in 0..60 {
            if (high - low).abs() <= 1e-13 * h.abs() || high_guard <= 1e-12 {
                break;
            }
            let middle = (low * high_guard - high * low_guard) / (high_guard - low_guard);
            self.course.steps += 1.0;
            let trial = self.attempt(rates, middle);
            let guard = self.guard(&trial.end);
            if guard > 0.0 {
                (high, high_guard, best) = (middle, guard, trial);
                // An end that stays twice is pulled in, or the other would creep up to the root.
                low_guard *= if kept_low { 0.5 } else { 1.0 };
                (kept_low, kept_high) = (true, false);
            } else {
                (low, low_guard) = (middle, guard);
                high_guard *= if kept_high { 0.5 } else { 1.0 };
                (kept_low, kept_high) = (false, true);
            }
        }
        best
    }

    /// Forgets the allowed step: it says nothing about a new regime.
    pub(super) fn forget_pace(&mut self) {
        self.course.allowed = 1.0;
        self.settled = false;
    }

    fn attempt(&self, rates: &Slips, h: f64) -> TrialStep {
        match (self.regime.nose, self.regime.cloth) {
            (ContactState::Slip, ContactState::Slip) => {
                let flow = if self.regime.lifted { self.lifted } else { self.pressed };
                if self.cloth_follows() {
                    self.follow(&flow, h)
                } else if let Some(trial) = self.leave(&flow, h) {
                    trial
                } else if self.is_gentle(rates, h) {
                    self.smooth(&flow, h)
                } else {
                    self.explicit(&flow, rates, h)
                }
            }
            (ContactState::Stick, ContactState::Slip) => {
                self.explicit(&NoseSticks(self.law), rates, h)
            }
            (ContactState::Slip, ContactState::Stick) => {
                self.explicit(&ClothSticks(self.law), rates, h)
            }
            (ContactState::Stick, ContactState::Stick) => {
                let mut end = self.course.y;
                for (component, rate) in end.iter_mut().zip(rates) {
                    *component += rate * h;
                }
                let speeds = self.law.speed_in(&self.course.y) + self.law.speed_in(&end);
                TrialStep { end, distance: 0.5 * h * speeds, error: 0.0, settled: false }
            }
        }
    }

    /// Whether the cloth slip is so small, and grows so slowly, that it goes where the forces say.
    fn cloth_follows(&self) -> bool {
        let (nose, cloth) = (pace::size(&self.course.y, 0), pace::size(&self.course.y, 2));
        if cloth >= FOLLOWS || nose < 1e3 * FOLLOWS {
            return false;
        }
        if (self.regime.nose, self.regime.cloth) != (ContactState::Slip, ContactState::Slip) {
            return false;
        }
        let flow = if self.regime.lifted { self.lifted } else { self.pressed };
        let flow = ClothFollows(&flow);
        let (direction, growth) = flow.direction(&flow.pick(&self.course.y));
        let astray = (self.course.y[2] * direction.1 - self.course.y[3] * direction.0).abs();
        let ahead = self.course.y[2] * direction.0 + self.course.y[3] * direction.1;
        growth > 0.0 && growth < SLOWLY && ahead >= 0.0 && astray <= 1e-11
    }

    /// A step with the cloth slip following the forces; not so far that it outgrows that.
    fn follow(&self, flow: &BothSlip, h: f64) -> TrialStep {
        let flow = ClothFollows(flow);
        let start = flow.pick(&self.course.y);
        let step = runge_kutta::step(&flow, start, flow.rates(&start), h);
        let end = flow.slips(&step.end);
        let outgrown = pace::size(&end, 2) > 4.0 * FOLLOWS;
        let error = if outgrown { f64::INFINITY } else { step.error };
        TrialStep { end, distance: step.distance, error, settled: false }
    }

    /// Takes a short step where one does: away from any change of regime.
    fn short(&mut self, rates: &Slips, h: f64) -> bool {
        let sizes = (pace::size(&self.course.y, 0), pace::size(&self.course.y, 2));
        let slipping =
            (self.regime.nose, self.regime.cloth) == (ContactState::Slip, ContactState::Slip);
        let stable = Pace::stable(sizes.0, self.law.nose_turning);
        if !slipping || sizes.0.min(sizes.1) == 0.0 || h > 0.02 * stable {
            return false;
        }
        let flow = if self.regime.lifted { self.lifted } else { self.pressed };
        let (end, done) =
            runge_kutta::short_step(&flow, flow.pick(&self.course.y), flow.pick(rates), h);
        self.course.y = flow.slips(&end);
        self.course.distance += done;
        true
    }

    /// Whether neither slip comes near to nothing within the step.
    fn is_gentle(&self, rates: &Slips, h: f64) -> bool {
        [0, 2].into_iter().all(|first| {
            let (slip, rate) = (&self.course.y[first..first + 2], &rates[first..first + 2]);
            let size = slip[0] * slip[0] + slip[1] * slip[1];
            h * h * (rate[0] * rate[0] + rate[1] * rate[1]) < 0.12 * size
        })
    }

    fn smooth(&self, flow: &BothSlip, h: f64) -> TrialStep {
        let flow = Smooth(flow);
        let start = flow.pick(&self.course.y);
        let step = runge_kutta::step(&flow, start, flow.rates(&start), h);
        TrialStep {
            end: flow.slips(&step.end),
            distance: step.distance,
            error: step.error,
            settled: false,
        }
    }

    fn explicit<F: Flow>(&self, flow: &F, rates: &Slips, h: f64) -> TrialStep {
        let step = runge_kutta::step(flow, flow.pick(&self.course.y), flow.pick(rates), h);
        TrialStep {
            end: flow.slips(&step.end),
            distance: step.distance,
            error: step.error,
            settled: false,
        }
    }

    /// The collocation step where it is the better one; `None` where it is not.
    fn leave(&self, flow: &BothSlip, h: f64) -> Option<TrialStep> {
        let slip = pace::size(&self.course.y, 0);
        if pace::size(&self.course.y, 2) == 0.0 || h <= 0.0 {
            return None;
        }
        let heading =
            if slip > 0.0 { unit([self.course.y[0], self.course.y[1]]) } else { self.heading };
        if slip > 0.0 && h <= Pace::stable(slip, self.law.nose_turning) {
            return None;
        }
        let Some(step) = leave(flow, &self.course.y, heading, h) else {
            return Some(TrialStep {
                end: self.course.y,
                distance: 0.0,
                error: f64::INFINITY,
                settled: false,
            });
        };
        let layer = if self.settled || slip == 0.0 { 0.0 } else { step.misfit * slip };
        let error = (GAIN * step.misfit * h).max(layer);
        Some(TrialStep { end: step.end, distance: step.distance, error, settled: true })
    }

    /// The distance over which the way is smooth.
    fn reach(&self, rates: &Slips) -> f64 {
        let y = &self.course.y;
        let mut reach = f64::INFINITY;
        // A slip that grows along a settled direction is smooth however small it is.
        let grows = self.settled && y[0] * rates[0] + y[1] * rates[1] >= 0.0;
        if self.regime.nose == ContactState::Slip && pace::size(y, 0) > 0.0 && !grows {
            reach = self.pace.reach([y[0], y[1]], [rates[0], rates[1]]);
        }
        if self.cloth_follows() {
            return reach.min(FIRST_STEP);
        }
        if self.regime.cloth == ContactState::Slip && pace::size(y, 2) > 0.0 {
            reach = reach
                .min(self.pace.reach([y[2], y[3]], [rates[2], rates[3]]))
                .min(Pace::stable(pace::size(y, 2), self.law.cloth_turning));
        } else if self.regime.cloth == ContactState::Slip {
            reach = reach.min(FIRST_STEP);
        }
        reach
    }

    /// Tractions in the present regime.
    pub(super) fn traction(&self, y: &Slips) -> Traction {
        let law = self.law;
        let nose = if pace::size(y, 0) > 0.0 { unit([y[0], y[1]]) } else { self.heading };
        let cloth = unit([y[2], y[3]]);
        let rests = cloth == [0.0, 0.0];
        match (self.regime.nose, self.regime.cloth) {
            (ContactState::Stick, ContactState::Stick) => law.both_stick(),
            (ContactState::Stick, ContactState::Slip) => {
                law.nose_sticks(if rests { self.departure_under_stick() } else { cloth })
            }
            (ContactState::Slip, ContactState::Stick) => law.cloth_sticks(nose),
            (ContactState::Slip, ContactState::Slip) => {
                let cloth = if rests { law.cloth_departure(nose) } else { cloth };
                law.both_slip(nose, cloth, !self.regime.lifted)
            }
        }
    }
}

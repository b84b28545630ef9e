//! From first touch to separation: compression, restitution, and the changes of regime on the way.

use super::law::{Contact, Law, Regime, Traction, unit};
use super::pace;
use super::runge_kutta::{self, Slips};

/// Nose slip below this (with the impact's speed scaled to about 1) has vanished.
const NOSE_STUCK: f64 = 1e-7;
/// Cloth slip below this has vanished.
const CLOTH_STUCK: f64 = 1e-10;
/// Nose slip up to this may creep.
pub(super) const CREEP: f64 = 1e-4;
/// More steps than any impact inside the accepted ranges takes; beyond, steps are no longer held
/// back, so that every impact ends.
const MANY_STEPS: u32 = 20_000;

/// An impact under way.
pub(super) struct Impact<'a> {
    law: &'a Law,
    share: f64,
    creep_limit: f64,
    y: Slips,
    regime: Regime,
    /// Direction of nose slip while it creeps.
    creep: [f64; 2],
    pub steps: u32,
    pub regime_changes: u32,
    pub hop: bool,
}

/// What a stretch of the impact integrates up to.
enum Goal {
    /// The speed into the cushion vanishes.
    Standstill,
    /// The work of the normal force since standstill reaches this (negative) value.
    Work(f64),
}

impl<'a> Impact<'a> {
    pub fn new(law: &'a Law, y: Slips, share: f64, creep_limit: f64) -> Self {
        let regime = Regime { nose: Contact::Slip, cloth: Contact::Slip };
        let mut impact = Self {
            law,
            share,
            creep_limit,
            y,
            regime,
            creep: [0.0, 1.0],
            steps: 0,
            regime_changes: 0,
            hop: false,
        };
        impact.settle_regime();
        impact
    }

    /// Runs to separation under energetic restitution `e` and returns the slips there.
    pub fn run(&mut self, e: f64) -> Slips {
        let compression = self.advance(&Goal::Standstill);
        // With the nose stuck in a square hit the cloth's slip dies exactly at standstill; what
        // rounding leaves of it must not choose the direction in which restitution begins.
        if self.regime.cloth == Contact::Slip && pace::size(&self.y, 2) < CLOTH_STUCK {
            self.regime_changes += 1;
            self.settle_regime();
        }
        if e > 0.0 {
            self.advance(&Goal::Work(-e * e * compression));
        }
        self.y
    }

    /// Integrates to the goal and returns the work of the normal force on the way.
    fn advance(&mut self, goal: &Goal) -> f64 {
        let mut work = 0.0;
        let mut last: Option<(f64, f64)> = None;
        let scale = match goal {
            Goal::Standstill => self.law.speed_in(&self.y).abs(),
            Goal::Work(target) => (-target).sqrt(),
        };
        loop {
            let traction = self.traction(&self.y);
            self.hop |= traction.cloth_normal < 0.0;
            let rates = self.law.rates(&traction);
            let speed = self.law.speed_in(&self.y);
            let slope = self.law.speed_in(&rates);
            let bend = last.map_or(0.0, |(slope_before, h)| (slope - slope_before) / h);
            let to_goal = match goal {
                Goal::Standstill => to_standstill(speed, slope, bend),
                Goal::Work(target) => to_work((target - work) / self.law.cos, speed, slope, bend),
            };
            if to_goal.abs() <= 2e-7 * scale {
                // The rest is so short that second order is exact to rounding.
                work += self.law.cos * to_goal * (speed + 0.5 * slope * to_goal);
                for (component, rate) in self.y.iter_mut().zip(rates) {
                    *component += rate * to_goal;
                }
                return work;
            }
            let longest = self.longest_step(&rates);
            let h = if to_goal <= longest {
                to_goal
            } else if to_goal < 1.8 * longest {
                0.55 * to_goal
            } else {
                longest
            };
            let taken = self.step(&rates, h, &mut work);
            last = (taken == h).then_some((slope, h));
            if taken != h {
                continue;
            }
        }
    }

    /// Takes a step of `h`, or a shorter one up to a change of regime; returns what was taken.
    fn step(&mut self, rates: &Slips, h: f64, work: &mut f64) -> f64 {
        self.steps += 1;
        let (end, done) = self.try_step(rates, h);
        let (start_guard, end_guard) = (self.guard(&self.y), self.guard(&end));
        let (end, done, taken) = if start_guard <= 0.0 && end_guard > 0.0 {
            self.locate(rates, h, start_guard, end_guard)
        } else {
            (end, done, h)
        };
        let crossed = end_guard > 0.0;
        self.y = end;
        *work += done;
        self.change_regime(crossed, work);
        taken
    }

    /// Finds where the guard changes sign, by the Illinois rule on whole steps.
    fn locate(&mut self, rates: &Slips, h: f64, at_start: f64, at_end: f64) -> (Slips, f64, f64) {
        let (mut low, mut low_guard) = (0.0, at_start);
        let (mut high, mut high_guard) = (h, at_end);
        let mut best = self.try_step(rates, h);
        for _ in 0..60 {
            if high - low <= 1e-13 * h.abs() || high_guard <= 1e-13 {
                break;
            }
            let middle = (low * high_guard - high * low_guard) / (high_guard - low_guard);
            self.steps += 1;
            let (end, done) = self.try_step(rates, middle);
            let guard = self.guard(&end);
            if guard > 0.0 {
                high = middle;
                high_guard = guard;
                best = (end, done);
                low_guard *= 0.5;
            } else {
                low = middle;
                low_guard = guard;
                high_guard *= 0.5;
            }
        }
        (best.0, best.1, high)
    }

    fn try_step(&self, rates: &Slips, h: f64) -> (Slips, f64) {
        let law = self.law;
        let speed = |y: &Slips| law.speed_in(y);
        let slipping =
            |y: &Slips| law.rates(&law.both_slip(unit([y[0], y[1]]), unit([y[2], y[3]])));
        let (end, distance) = match (self.regime.nose, self.regime.cloth) {
            (Contact::Slip, Contact::Slip | Contact::Creep) => {
                runge_kutta::step(&self.y, rates, h, slipping, speed)
            }
            (Contact::Stick, Contact::Slip | Contact::Creep) => {
                let stuck = |y: &Slips| law.rates(&law.nose_sticks(unit([y[2], y[3]])));
                runge_kutta::step(&self.y, rates, h, stuck, speed)
            }
            _ => {
                let any = |y: &Slips| law.rates(&self.traction(y));
                runge_kutta::step(&self.y, rates, h, any, speed)
            }
        };
        (self.hold(end), law.cos * distance)
    }

    /// What sticks has no slip; rounding must not say otherwise.
    fn hold(&self, mut y: Slips) -> Slips {
        if self.regime.nose == Contact::Stick {
            (y[0], y[1]) = (0.0, 0.0);
        }
        if self.regime.cloth == Contact::Stick {
            (y[2], y[3]) = (0.0, 0.0);
        }
        y
    }

    /// Tractions in the present regime.
    fn traction(&self, y: &Slips) -> Traction {
        let law = self.law;
        let cloth = unit([y[2], y[3]]);
        match (self.regime.nose, self.regime.cloth) {
            (Contact::Stick, Contact::Stick) => law.both_stick(),
            (Contact::Stick, _) => {
                let cloth = if cloth == [0.0, 0.0] { self.departure_stuck() } else { cloth };
                law.nose_sticks(cloth)
            }
            (Contact::Slip, Contact::Stick) => law.cloth_sticks(unit([y[0], y[1]])),
            (Contact::Creep, Contact::Stick) => law.cloth_sticks(self.creep),
            (Contact::Slip, _) => {
                let nose = unit([y[0], y[1]]);
                let cloth = if cloth == [0.0, 0.0] { self.departure(nose) } else { cloth };
                law.both_slip(nose, cloth)
            }
            (Contact::Creep, _) => {
                let nose = self.creep_direction(y);
                let cloth = if cloth == [0.0, 0.0] { self.departure(nose) } else { cloth };
                law.both_slip(nose, cloth)
            }
        }
    }

    fn creep_direction(&self, y: &Slips) -> [f64; 2] {
        let cloth_speed = pace::size(y, 2);
        let cloth = unit([y[2], y[3]]);
        let cloth = if cloth == [0.0, 0.0] { self.departure(self.creep) } else { cloth };
        self.law.settled_direction(self.creep, cloth, cloth_speed, pace::size(y, 0))
    }

    fn departure(&self, nose: [f64; 2]) -> [f64; 2] {
        let f = self.law.nose_friction;
        self.law.cloth_departure([f * nose[0], f * nose[1]])
    }

    /// Departure of the cloth slip while the nose sticks: straight away from the cushion.
    fn departure_stuck(&self) -> [f64; 2] {
        self.law.cloth_departure([0.0, self.law.both_stick().nose[1]])
    }

    fn longest_step(&self, rates: &Slips) -> f64 {
        if self.steps > MANY_STEPS {
            return f64::INFINITY;
        }
        let y = &self.y;
        let mut longest = f64::INFINITY;
        if self.regime.nose == Contact::Slip {
            let force = 3.5 * self.law.nose_friction;
            longest =
                longest.min(pace::longest(self.share, [y[0], y[1]], [rates[0], rates[1]], force));
        }
        if self.regime.cloth != Contact::Stick {
            if pace::size(y, 2) == 0.0 {
                longest = longest.min(1e-3);
            } else {
                longest = longest.min(pace::longest(
                    self.share,
                    [y[2], y[3]],
                    [rates[2], rates[3]],
                    self.law.cos,
                ));
            }
        }
        longest
    }

    /// Positive where the present regime must end: a stuck contact leaves its cone, the cloth's
    /// normal force changes sign, or creep outgrows its name.
    fn guard(&self, y: &Slips) -> f64 {
        match self.regime {
            Regime { nose: Contact::Slip, cloth: Contact::Slip } => f64::NEG_INFINITY,
            Regime { nose: Contact::Creep, .. } => pace::size(y, 0) - self.creep_limit,
            _ => {
                let traction = self.traction(y);
                let nose = if self.regime.nose == Contact::Stick {
                    self.law.nose_excess(&traction)
                } else {
                    f64::NEG_INFINITY
                };
                let cloth = if self.regime.cloth == Contact::Stick {
                    self.law.cloth_excess(&traction)
                } else {
                    f64::NEG_INFINITY
                };
                nose.max(cloth)
            }
        }
    }

    /// Looks at the state after a step and enters the regime it belongs to.
    fn change_regime(&mut self, guard_crossed: bool, work: &mut f64) {
        let nose_size = pace::size(&self.y, 0);
        let nose_vanished = self.regime.nose == Contact::Slip && nose_size < NOSE_STUCK;
        let cloth_vanished =
            self.regime.cloth == Contact::Slip && pace::size(&self.y, 2) < CLOTH_STUCK;
        if self.regime.nose == Contact::Slip && nose_size < self.creep_limit && !nose_vanished {
            self.try_creep();
        }
        if guard_crossed || nose_vanished || cloth_vanished {
            self.regime_changes += 1;
            if nose_vanished {
                self.finish_vanishing(0, work);
            }
            if cloth_vanished {
                self.finish_vanishing(2, work);
            }
            if self.regime.nose == Contact::Creep && guard_crossed {
                self.regime.nose = Contact::Slip;
                return;
            }
            self.settle_regime();
        } else if self.regime.nose == Contact::Creep {
            self.creep = self.creep_direction(&self.y);
            self.end_creep_if_stuck();
        }
    }

    /// Goes the last bit to where a slip that is nearly gone is gone, in a straight line.
    fn finish_vanishing(&mut self, first: usize, work: &mut f64) {
        let rates = self.law.rates(&self.traction(&self.y));
        let slip = [self.y[first], self.y[first + 1]];
        let rate = [rates[first], rates[first + 1]];
        let approach = -(slip[0] * rate[0] + slip[1] * rate[1]);
        if approach > 0.0 {
            let h = approach / (rate[0] * rate[0] + rate[1] * rate[1]);
            let speed = self.law.speed_in(&self.y);
            *work += self.law.cos * h * (speed + 0.5 * self.law.speed_in(&rates) * h);
            for (component, rate) in self.y.iter_mut().zip(rates) {
                *component += rate * h;
            }
        }
        (self.y[first], self.y[first + 1]) = (0.0, 0.0);
    }

    fn try_creep(&mut self) {
        if self.regime.cloth == Contact::Stick || pace::size(&self.y, 2) < 1e-3 {
            return;
        }
        let direction = unit([self.y[0], self.y[1]]);
        let cloth = unit([self.y[2], self.y[3]]);
        let slip = pace::size(&self.y, 0);
        let settled = self.law.settled_direction(direction, cloth, pace::size(&self.y, 2), slip);
        let away = direction[0] * settled[1] - direction[1] * settled[0];
        let rates = self.law.rates(&self.law.both_slip(settled, cloth));
        let grows = rates[0] * settled[0] + rates[1] * settled[1] >= 0.0;
        if grows
            && away.abs() * slip < 1e-10
            && direction[0] * settled[0] + direction[1] * settled[1] > 0.0
        {
            self.creep = settled;
            self.regime.nose = Contact::Creep;
            self.regime_changes += 1;
        }
    }

    fn end_creep_if_stuck(&mut self) {
        let rates = self.law.rates(&self.traction(&self.y));
        let growing = rates[0] * self.creep[0] + rates[1] * self.creep[1];
        if growing < 0.0 {
            self.regime.nose = Contact::Slip;
            if pace::size(&self.y, 0) < NOSE_STUCK {
                (self.y[0], self.y[1]) = (0.0, 0.0);
                self.settle_regime();
            }
        }
    }

    /// Chooses the regime of a state in which at least one slip may be zero.
    fn settle_regime(&mut self) {
        let nose_moves = pace::size(&self.y, 0) >= NOSE_STUCK;
        let cloth_moves = pace::size(&self.y, 2) >= CLOTH_STUCK;
        let cloth = unit([self.y[2], self.y[3]]);
        let nose = unit([self.y[0], self.y[1]]);
        self.regime = match (nose_moves, cloth_moves) {
            (true, true) => Regime { nose: Contact::Slip, cloth: Contact::Slip },
            (true, false) => {
                let sticks = self.law.cloth_excess(&self.law.cloth_sticks(nose)) <= 0.0;
                Regime {
                    nose: Contact::Slip,
                    cloth: if sticks { Contact::Stick } else { Contact::Slip },
                }
            }
            (false, true) => {
                if self.law.nose_holds(&self.law.nose_sticks(cloth)) {
                    Regime { nose: Contact::Stick, cloth: Contact::Slip }
                } else {
                    let pull = self.law.nose_sticks(cloth).nose;
                    self.creep =
                        self.law.settled_direction(unit(pull), cloth, pace::size(&self.y, 2), 0.0);
                    Regime { nose: Contact::Creep, cloth: Contact::Slip }
                }
            }
            (false, false) => self.regime_from_rest(),
        };
        if !nose_moves {
            (self.y[0], self.y[1]) = (0.0, 0.0);
        }
        if !cloth_moves {
            (self.y[2], self.y[3]) = (0.0, 0.0);
        }
    }

    /// Both slips are zero: the mildest regime that the friction cones allow.
    fn regime_from_rest(&mut self) -> Regime {
        let law = self.law;
        let both = law.both_stick();
        if law.nose_holds(&both) && law.cloth_excess(&both) <= 0.0 {
            return Regime { nose: Contact::Stick, cloth: Contact::Stick };
        }
        let away = self.departure_stuck();
        if law.nose_holds(&law.nose_sticks(away)) {
            return Regime { nose: Contact::Stick, cloth: Contact::Slip };
        }
        let pull = unit(law.nose_sticks(away).nose);
        self.creep = law.settled_direction(pull, away, 0.0, 0.0);
        Regime { nose: Contact::Creep, cloth: Contact::Slip }
    }
}

/// Impulse until the speed into the cushion vanishes: v + v'·h + ½·v''·h² = 0.
fn to_standstill(speed: f64, slope: f64, bend: f64) -> f64 {
    let first = -speed / slope;
    // A bend measured over a tiny step is noise when it is carried far.
    let slope_there = slope + (0.5 * bend * first).clamp(0.3 * slope, -0.3 * slope);
    -speed / slope_there
}

/// Impulse until ∫v dP from here reaches `distance` (≤ 0): v·h + ½·v'·h² + ⅙·v''·h³ = distance.
fn to_work(distance: f64, speed: f64, slope: f64, bend: f64) -> f64 {
    let mut h = 0.0;
    let mut slope_used = slope;
    for _ in 0..3 {
        // v' < 0 and v ≤ 0: the positive root of ½|v'|h² + |v|h = |distance|, in its stable form.
        let root = (speed * speed + 2.0 * slope_used * distance).max(0.0).sqrt();
        h = if distance <= 0.0 { -2.0 * distance / (root - speed) } else { distance / speed };
        slope_used = slope + (bend * h / 3.0).clamp(0.3 * slope, -0.3 * slope);
    }
    h
}

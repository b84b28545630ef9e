//! When the regime changes.

use super::contact::{ContactState, Regime};
use super::integrator::Impact;
use super::law::{Slips, unit};
use super::pace::{self, MISS};

/// Slip below this (with the incoming state scaled to length 1) has vanished.
const NOTHING: f64 = 2e-11;
/// A slip that vanishes within so short a way does so in a straight line.
const AT_ONCE: f64 = 1e-6;
/// Changes of regime after which the regime is left as it is, so that no chatter of rounding can
/// go on for ever.
const MANY_CHANGES: u32 = 200;

/// Inside the cone by less than this counts as outside just after the cone was left.
const LEFT: f64 = 1e-11;

impl Impact<'_> {
    /// Positive where the present regime must end: a stuck contact leaves its cone, or the cloth's
    /// normal force changes sign.
    pub(super) fn guard(&self, y: &Slips) -> f64 {
        let law = self.law;
        if self.regime_changes > MANY_CHANGES {
            return f64::NEG_INFINITY;
        }
        match (self.regime.nose, self.regime.cloth) {
            (ContactState::Slip, ContactState::Slip) => {
                if law.never_lifts {
                    return f64::NEG_INFINITY;
                }
                let normal = self.traction(y).cloth_normal;
                if self.regime.lifted { normal } else { -normal }
            }
            (ContactState::Stick, ContactState::Slip) => law.nose_excess(&self.traction(y)),
            (ContactState::Slip, ContactState::Stick) => law.cloth_excess(&self.traction(y)),
            (ContactState::Stick, ContactState::Stick) => {
                let traction = self.traction(y);
                law.nose_excess(&traction).max(law.cloth_excess(&traction))
            }
        }
    }

    /// Enters the regime beyond the guard.
    pub(super) fn cross_guard(&mut self) {
        self.regime_changes += 1;
        if (self.regime.nose, self.regime.cloth) == (ContactState::Slip, ContactState::Slip) {
            self.regime.lifted = !self.regime.lifted;
        } else {
            // Rounding must not find the contact just inside the cone that it has just left.
            self.settle_regime(LEFT);
        }
        self.forget_pace();
    }

    /// Takes a slip that goes straight to nothing there, if that comes before the goal.
    pub(super) fn vanish(&mut self, rates: &Slips, to_goal: f64) -> bool {
        for (first, contact) in [(0, self.regime.nose), (2, self.regime.cloth)] {
            let slip = [self.course.y[first], self.course.y[first + 1]];
            let rate = [rates[first], rates[first + 1]];
            let size = pace::size(&self.course.y, first);
            if contact == ContactState::Stick || size == 0.0 || size > 1e-3 {
                continue;
            }
            let along = slip[0] * rate[0] + slip[1] * rate[1];
            let across = slip[0] * rate[1] - slip[1] * rate[0];
            let squared = rate[0] * rate[0] + rate[1] * rate[1];
            let near = along < 0.0 && across * across <= MISS * MISS * squared;
            let h = (-along / squared).max(0.0);
            if (size > NOTHING && !(near && h <= AT_ONCE)) || h > to_goal.max(0.0) {
                continue;
            }
            let speed = self.law.speed_in(&self.course.y);
            self.course.distance += h * (speed + 0.5 * self.law.speed_in(rates) * h);
            for (component, rate) in self.course.y.iter_mut().zip(rates) {
                *component += rate * h;
            }
            (self.course.y[first], self.course.y[first + 1]) = (0.0, 0.0);
            self.regime_changes += 1;
            self.settle_regime(0.0);
            self.forget_pace();
            return true;
        }
        false
    }

    /// Chooses the regime of a state in which at least one slip may be nothing. A contact sticks
    /// when its traction is inside the friction cone by `margin`.
    pub(super) fn settle_regime(&mut self, margin: f64) {
        let law = self.law;
        for first in [0, 2] {
            if pace::size(&self.course.y, first) < NOTHING {
                (self.course.y[first], self.course.y[first + 1]) = (0.0, 0.0);
            }
        }
        let nose = unit([self.course.y[0], self.course.y[1]]);
        let cloth = unit([self.course.y[2], self.course.y[3]]);
        let (nose_rests, cloth_rests) = (nose == [0.0, 0.0], cloth == [0.0, 0.0]);
        let (nose, cloth) = match (nose_rests, cloth_rests) {
            (false, false) => (ContactState::Slip, ContactState::Slip),
            (false, true) => {
                let sticks = law.cloth_excess(&law.cloth_sticks(nose)) <= -margin;
                (ContactState::Slip, if sticks { ContactState::Stick } else { ContactState::Slip })
            }
            (true, false) => {
                let stuck = law.nose_sticks(cloth);
                if law.nose_excess(&stuck) <= -margin {
                    (ContactState::Stick, ContactState::Slip)
                } else {
                    self.heading = law.settled_direction(cloth);
                    (ContactState::Slip, ContactState::Slip)
                }
            }
            (true, true) => self.contacts_from_rest(margin),
        };
        self.regime = Regime { nose, cloth, lifted: false };
        self.regime.lifted = (nose, cloth) == (ContactState::Slip, ContactState::Slip)
            && self.traction(&self.course.y).cloth_normal < 0.0;
    }

    /// Both slips are nothing: the mildest regime that the friction cones allow. The forces have
    /// no part along the cushion, so whatever slips goes straight up or down, or in or out.
    fn contacts_from_rest(&mut self, margin: f64) -> (ContactState, ContactState) {
        let law = self.law;
        let both = law.both_stick();
        if law.nose_excess(&both) <= -margin && law.cloth_excess(&both) <= -margin {
            return (ContactState::Stick, ContactState::Stick);
        }
        let away = self.departure_under_stick();
        let stuck = law.nose_sticks(away);
        if law.nose_excess(&stuck) <= -margin {
            return (ContactState::Stick, ContactState::Slip);
        }
        self.heading = [0.0, if stuck.nose[1] < 0.0 { -1.0 } else { 1.0 }];
        let sticks = law.cloth_excess(&law.cloth_sticks(self.heading)) <= -margin;
        (ContactState::Slip, if sticks { ContactState::Stick } else { ContactState::Slip })
    }

    /// Departure of the cloth slip while the nose sticks: straight in or out.
    pub(super) fn departure_under_stick(&self) -> [f64; 2] {
        self.law.cloth_departure_under([0.0, self.law.both_stick().nose[1]])
    }
}

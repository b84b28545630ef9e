//! From the start to the departure from the cushion.

use super::stop::{ActiveStopLines, StopLine};
use super::world::BallWorld;
use super::{CompliantEnd, CompliantSettings};
use crate::equipment::{Cushion, Equipment};
use crate::motion::{BallState, ClothMotion};
use crate::stepped::{Softness, cloth};
use crate::vector::Vec2;

/// A contact that lasts longer than this many contact times is given up.
const HELD: f64 = 20.0;

/// Events while the cushion held the ball.
#[derive(Debug, Clone, PartialEq)]
pub struct CompliantImpact {
    /// State when contact begins.
    pub arrival: BallState,
    /// State when contact ends: when the cushion stops pushing, with the ball still pushed in by
    /// what the cushion has not recovered.
    pub departure: BallState,
    /// When contact began, s from the start.
    pub contact_began_s: f64,
    /// Its duration, s.
    pub contact_time_s: f64,
    /// The greatest distance of the centre past the groove, m.
    pub push_in_m: f64,
    /// The restitution that the spring and damper were set for.
    pub restitution: f64,
    /// Time from the start, s, and centre, m, at each step of the contact.
    pub path: Vec<(f64, Vec2)>,
}

/// Steps a ball on cloth from `start` until it has come off the cushion. In the bank frame: the
/// cushion fills the half-plane whose line the ball touches with its centre at y = `groove_y_m`.
///
/// # Errors
/// [`CompliantEnd`] says why the ball never came off.
pub fn step_to_departure(
    equipment: &Equipment,
    start: BallState,
    groove_y_m: f64,
    settings: &CompliantSettings,
) -> Result<CompliantImpact, CompliantEnd> {
    let mut run = BankRun::new(equipment, start, groove_y_m, &[], settings)?;
    run.free(true)?;
    run.contact()
}

/// A ball on its way.
pub(super) struct BankRun<'a> {
    equipment: &'a Equipment,
    settings: &'a CompliantSettings,
    cloth: ClothMotion,
    groove_y_m: f64,
    world: BallWorld,
    watch: ActiveStopLines<'a>,
    time_s: f64,
    pub(super) path: Vec<(f64, Vec2)>,
}

impl<'a> BankRun<'a> {
    pub(super) fn new(
        equipment: &'a Equipment,
        start: BallState,
        groove_y_m: f64,
        lines: &'a [StopLine],
        settings: &'a CompliantSettings,
    ) -> Result<Self, CompliantEnd> {
        if !(start.is_finite() && groove_y_m.is_finite()) {
            return Err(CompliantEnd::NotFinite);
        }
        let contact_time_s = equipment.cushion.contact_time_s;
        if Cushion::RESOLVED_CONTACT_TIME.check(contact_time_s).is_err() {
            return Err(CompliantEnd::ShortContact { contact_time_s });
        }
        Ok(Self {
            equipment,
            settings,
            cloth: ClothMotion::new(equipment),
            groove_y_m,
            world: BallWorld::new(equipment, &start, groove_y_m),
            watch: ActiveStopLines::new(lines),
            time_s: 0.0,
            path: vec![(0.0, start.position)],
        })
    }

    /// Free motion up to the cushion, or, with `to_cushion` false, for good.
    ///
    /// # Errors
    /// Whatever ends it before the cushion.
    pub(super) fn free(&mut self, to_cushion: bool) -> Result<(), CompliantEnd> {
        loop {
            let state = self.world.state();
            if !state.is_finite() {
                return Err(CompliantEnd::NotFinite);
            }
            if cloth::rests(&state, &self.cloth) {
                self.world.stop();
                let state = self.world.state();
                return Err(CompliantEnd::Rested { time_s: self.time_s, state });
            }
            let left = self.settings.time_limit_s - self.time_s;
            if left <= 0.0 {
                return Err(CompliantEnd::TimeLimit { time_s: self.time_s, state });
            }
            let steady = cloth::steady_time_s(&state, &self.cloth);
            let step = self.settings.free_step_s().min(steady).min(left);
            let touch = if to_cushion { self.touch_within(&state, step) } else { None };
            if touch == Some(0.0) {
                return Ok(());
            }
            self.step(&state, touch.unwrap_or(step))?;
            if touch.is_some() {
                return Ok(());
            }
        }
    }

    /// When in the next `step_s` the ball touches the cushion, s.
    fn touch_within(&self, state: &BallState, step_s: f64) -> Option<f64> {
        let push = cloth::push(state, &self.cloth, step_s);
        let (speed, acceleration) = (state.velocity.y, push.velocity.y / step_s);
        let short_m = self.groove_y_m - state.position.y;
        if short_m <= 1e-12 {
            let presses = speed > 0.0 || (speed == 0.0 && acceleration > 0.0);
            return presses.then_some(0.0);
        }
        crate::motion::first_root_in(0.5 * acceleration, speed, -short_m, 0.0, step_s)
    }

    /// One step, with the stop lines watched; returns the cushion's impulse.
    fn step(&mut self, state: &BallState, step_s: f64) -> Result<f64, CompliantEnd> {
        let push = cloth::push(state, &self.cloth, step_s);
        let impulse = self.world.advance(&push, step_s);
        let after = self.world.state();
        self.watch.check(self.time_s, step_s, state, &after)?;
        self.time_s += step_s;
        self.path.push((self.time_s, after.position));
        Ok(impulse)
    }

    /// The contact, from touch until the cushion stops pushing.
    ///
    /// # Errors
    /// Whatever ends it before that.
    pub(super) fn contact(&mut self) -> Result<CompliantImpact, CompliantEnd> {
        let cushion = &self.equipment.cushion;
        let restitution = cushion.restitution_at(self.world.state().velocity.y.max(0.0));
        let softness = Softness::new(restitution, cushion.contact_time_s);
        let step = self.settings.contact_step_s(cushion.contact_time_s);
        self.world.begin_contact(self.groove_y_m, &softness, step);
        let arrival = self.world.state();
        let (began, first) = (self.time_s, self.path.len() - 1);
        let (mut departure, mut push_in, mut pushed) = (arrival, 0.0_f64, false);
        loop {
            push_in = push_in.max(departure.position.y - self.groove_y_m);
            let ended = self.time_s;
            let impulse = self.step(&departure, step)?;
            if impulse > 0.0 {
                pushed = true;
            } else if pushed {
                self.world.end_contact();
                self.watch.after_contact();
                return Ok(CompliantImpact {
                    arrival,
                    departure,
                    contact_began_s: began,
                    contact_time_s: ended - began,
                    push_in_m: push_in,
                    restitution,
                    path: self.path[first..self.path.len() - 1].to_vec(),
                });
            }
            departure = self.world.state();
            if self.time_s - began > HELD * cushion.contact_time_s {
                return Err(CompliantEnd::Held { time_s: self.time_s, state: departure });
            }
        }
    }
}

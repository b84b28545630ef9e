//! The stepping loop.

use super::ball_kind::SteppedKind;
use super::balls::SolverBalls;
use super::hold::Hold;
use super::pair::BallPair;
use super::samples::Samples;
use super::{SteppedContact, SteppedError, SteppedSettings, SteppedShot};
use crate::equipment::Equipment;
use crate::motion::BallState;
use crate::rail::Pocket;
use crate::shot::{End, Ending, ShotBall, laid_out};
use crate::stepped::Softness;
use crate::stepped::cloth::{self, ClothPush};
use crate::vector::Vec2;
use crate::world::{DropLine, World};

/// A shot is given up after so many contacts.
pub const MOST_CONTACTS: usize = 10_000;
/// A shot is given up after so many steps.
pub const MOST_STEPS: usize = 5_000_000;
/// A contact that lasts more than this many of its times is stepped coarsely: nothing bounces in it.
pub(super) const HELD: f64 = 20.0;
/// Steps in a contact time then.
pub(super) const HELD_STEPS: f64 = 16.0;

/// Plays balls from their start until all rest or are pocketed, or until `until_s`.
///
/// Any rail model is accepted and none is used: see [the module](super).
///
/// # Errors
/// [`SteppedError`] for a layout that no engine plays, a cushion whose contact is too short to be
/// resolved, and settings out of range.
pub fn play(
    world: &World,
    balls: &[ShotBall],
    until_s: Option<f64>,
    settings: &SteppedSettings,
) -> Result<SteppedShot, SteppedError> {
    let Equipment { cushion, table, .. } = world.equipment();
    for (what, contact_time_s) in
        [("cushion holds", cushion.contact_time_s), ("jaws hold", table.jaws.contact_time_s)]
    {
        if !(SteppedSettings::LEAST_CONTACT_TIME_S..).contains(&contact_time_s) {
            return Err(SteppedError::ContactTime { what, contact_time_s });
        }
    }
    let accepted =
        SteppedSettings::LEAST_BALL_CONTACT_TIME_S..=SteppedSettings::MOST_BALL_CONTACT_TIME_S;
    if !accepted.contains(&settings.ball_contact_time_s) {
        return Err(SteppedError::Setting {
            name: "ball_contact_time_s",
            value_s: settings.ball_contact_time_s,
            accepted: "1e-6 to 5e-3",
        });
    }
    if !(settings.time_limit_s > 0.0 && settings.time_limit_s.is_finite()) {
        return Err(SteppedError::Setting {
            name: "time_limit_s",
            value_s: settings.time_limit_s,
            accepted: "positive",
        });
    }
    if !settings.step_s.is_finite() {
        return Err(SteppedError::Setting {
            name: "step_s",
            value_s: settings.step_s,
            accepted: "finite",
        });
    }
    let balls = laid_out(world, balls, until_s)?;
    let mut game = SteppedGame::new(world, &balls, settings);
    let until_s = until_s.filter(|it| it.is_finite()).unwrap_or(settings.time_limit_s);
    let ending = game.run(until_s);
    Ok(game.finished(ending))
}

/// A shot being stepped.
pub(super) struct SteppedGame<'w> {
    pub(super) world: &'w World,
    pub(super) balls: &'w [ShotBall],
    pub(super) kinds: Vec<SteppedKind>,
    pub(super) drops: Vec<(Pocket, DropLine)>,
    pub(super) steps_in_contact: f64,
    pub(super) free_step_s: f64,
    pub(super) ball_contact_time_s: f64,
    pub(super) solver: SolverBalls,
    pub(super) states: Vec<BallState>,
    pub(super) on_table: Vec<bool>,
    pub(super) rests: Vec<bool>,
    pub(super) ends: Vec<Option<End>>,
    pub(super) holds: Vec<Hold>,
    pub(super) pairs: Vec<BallPair>,
    pub(super) contacts: Vec<SteppedContact>,
    pub(super) samples: Vec<Samples>,
    pub(super) now_s: f64,
    pub(super) steps: usize,
}

impl<'w> SteppedGame<'w> {
    pub(super) fn new(world: &'w World, balls: &'w [ShotBall], settings: &SteppedSettings) -> Self {
        let equipment: &Equipment = world.equipment();
        let softness =
            Softness::new(equipment.ball_contact.restitution, settings.ball_contact_time_s);
        let states: Vec<BallState> = balls.iter().map(|it| it.state).collect();
        Self {
            world,
            balls,
            kinds: balls.iter().map(|it| SteppedKind::new(world, it)).collect(),
            drops: world.pockets().iter().map(|it| (it.pocket, it.drop)).collect(),
            steps_in_contact: settings.steps(),
            free_step_s: settings.free_step_s(),
            ball_contact_time_s: settings.ball_contact_time_s,
            solver: SolverBalls::new(balls, softness),
            on_table: vec![true; balls.len()],
            rests: vec![false; balls.len()],
            ends: vec![None; balls.len()],
            holds: Vec::new(),
            pairs: Vec::new(),
            contacts: Vec::new(),
            samples: states.iter().map(|state| Samples::new(*state)).collect(),
            states,
            now_s: 0.0,
            steps: 0,
        }
    }

    pub(super) fn run(&mut self, until_s: f64) -> Ending {
        loop {
            self.take_over();
            self.begin_contacts();
            self.note_rest();
            if self.rests.iter().zip(&self.on_table).all(|(rests, on_table)| *rests || !on_table)
                && self.pairs.is_empty()
            {
                return Ending::AtRest;
            }
            let left_s = until_s - self.now_s;
            if left_s <= 0.0 {
                return Ending::TimeOver;
            }
            if self.steps >= MOST_STEPS || self.contacts.len() >= MOST_CONTACTS {
                return Ending::GivenUp;
            }
            let wanted_s = self.step_length_s();
            if !wanted_s.is_finite() {
                return Ending::Unending;
            }
            let longest_s = wanted_s.min(left_s);
            let courses = self.courses(longest_s);
            let step_s = self.first_touch_within(&courses, longest_s).unwrap_or(longest_s);
            // A touch that is due at once has been begun, or is none.
            let step_s = step_s.max(1e-9_f64.min(longest_s));
            self.step(step_s);
            self.drop_balls();
        }
    }

    /// True while something pushes a ball.
    pub(super) fn is_touched(&self, ball: usize) -> bool {
        self.pairs.iter().any(|pair| pair.balls.contains(&ball))
            || self.holds.iter().any(|hold| hold.ball == ball && hold.pushes())
    }

    /// The time for which forces stay the same and in which contacts are resolved, s.
    pub(super) fn step_length_s(&self) -> f64 {
        let held = |began_s: f64, contact_time_s: f64| {
            let steps = if self.now_s - began_s > HELD * contact_time_s {
                HELD_STEPS
            } else {
                self.steps_in_contact
            };
            contact_time_s / steps
        };
        let mut step_s = f64::INFINITY;
        for hold in &self.holds {
            step_s = step_s.min(held(hold.began_s, hold.contact_time_s()));
        }
        for pair in &self.pairs {
            step_s = step_s.min(held(pair.began_s, self.ball_contact_time_s));
        }
        let centres_rest = (0..self.states.len())
            .filter(|ball| self.on_table[*ball])
            .all(|ball| self.states[ball].velocity == Vec2::ZERO && self.rolls_not(ball));
        if !centres_rest {
            step_s = step_s.min(self.free_step_s);
        }
        for ball in (0..self.states.len()).filter(|ball| self.on_table[*ball]) {
            step_s = step_s.min(self.steady_time_s(ball));
        }
        step_s
    }

    /// True when nothing is left of a ball's spin about level axes.
    pub(super) fn rolls_not(&self, ball: usize) -> bool {
        self.states[ball].spin.x == 0.0 && self.states[ball].spin.y == 0.0
    }

    /// Until when the cloth's push on a ball stays as it is, s.
    pub(super) fn steady_time_s(&self, ball: usize) -> f64 {
        let (state, cloth) = (&self.states[ball], &self.kinds[ball].cloth);
        // In a contact slip comes and goes, and steps are short.
        if self.rests[ball] || self.is_touched(ball) {
            return f64::INFINITY;
        }
        let centre_rests = state.velocity == Vec2::ZERO && self.rolls_not(ball);
        let centre_s =
            if centre_rests { f64::INFINITY } else { cloth::steady_time_s(state, cloth) };
        let pivots = state.spin.z != 0.0 && cloth.pivot_deceleration_rad_s2 > 0.0;
        let pivot_s = if pivots {
            state.spin.z.abs() / cloth.pivot_deceleration_rad_s2
        } else {
            f64::INFINITY
        };
        // Where one is over but for rounding the other counts.
        [centre_s, pivot_s].into_iter().filter(|it| *it > 1e-12).fold(f64::INFINITY, f64::min)
    }

    pub(super) fn push_of(&self, ball: usize, step_s: f64) -> ClothPush {
        cloth::push(&self.states[ball], &self.kinds[ball].cloth, step_s)
    }

    pub(super) fn finished(self, ending: Ending) -> SteppedShot {
        let mut samples = self.samples;
        let mut ends = Vec::with_capacity(self.ends.len());
        for (ball, end) in self.ends.iter().enumerate() {
            let state = self.states[ball];
            samples[ball].keep(end.map_or(self.now_s, |end| end.time_s), state, true);
            ends.push(end.unwrap_or(End { ending, time_s: self.now_s, state }));
        }
        SteppedShot {
            ends,
            contacts: self.contacts,
            steps: self.steps,
            samples: samples.into_iter().map(Samples::finish).collect(),
        }
    }
}

//! The event loop.

use super::cushion::{act, pinned};
use super::held::{HELD_BELOW_M_S, Holder, holding_rail};
use super::meeting::{Meeting, next_meeting};
use super::trajectory::{Leg, tidy};
use super::{End, Ending, Event, EventKind, Shot};
use crate::equipment::{Equipment, RailModel};
use crate::impact::CushionContact;
use crate::motion::{BallState, ClothMotion, Path};
use crate::rail::{GeometryError, Outline, Pocket, Rail};
use crate::vector::{Vec2, Vec3};
use thiserror::Error;

/// A shot ends when it has had so many events.
pub const MAX_EVENTS: usize = 1000;
/// Fastest start that is accepted, m/s.
pub const FASTEST_M_S: f64 = 1000.0;
/// Fastest spin that is accepted, rad/s.
pub const FASTEST_SPIN_RAD_S: f64 = 1e6;
/// A slower touch than this is none, m/s; the impact's own arithmetic needs more than nothing.
const LEAST_IMPACT_M_S: f64 = 1e-30;
/// A ball may be given this far past a groove by rounding and is put on it, m.
const ROUNDING_M: f64 = 1e-9;

/// Why a shot is refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ShotError {
    /// A number of the start is a NaN or an infinity.
    #[error("the ball's position, velocity and spin must be finite numbers")]
    NotFinite,
    /// A start past what the engine computes with.
    #[error(
        "the ball moves at {speed_m_s} m/s and spins at {spin_rad_s} rad/s; at most {FASTEST_M_S} m/s and {FASTEST_SPIN_RAD_S} rad/s are accepted"
    )]
    TooFast {
        /// Its speed.
        speed_m_s: f64,
        /// Its spin.
        spin_rad_s: f64,
    },
    /// The ball is past a groove.
    #[error("the ball's centre is {past_m} m past the groove of the {} rail", rail.name())]
    PastGroove {
        /// Which rail's.
        rail: Rail,
        /// How far.
        past_m: f64,
    },
    /// The ball is past a mouth line.
    #[error("the ball is past the mouth of the {} pocket already", pocket.name())]
    InPocket {
        /// Which pocket's.
        pocket: Pocket,
    },
    /// An end time that is no time.
    #[error("the shot can't run until {until_s} s")]
    Until {
        /// What was asked for.
        until_s: f64,
    },
    /// The rail model lasts in time.
    #[error(
        "the compliant rail model lasts in time and is stepped off one straight rail, so it can't play a shot of many cushions; play a single bank by it, or choose an impulse model"
    )]
    Compliant,
    /// The pockets leave no cushion.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
}

/// Plays one ball from `start` (table frame) until it rests, is pocketed, or `until_s` seconds have
/// passed, by the rail model of the equipment's cushion. The equipment must be validated.
///
/// A ball frozen to a cushion may move into it: its first cushion event is at time 0. A ball that
/// its spin holds against a cushion stays on the groove (see [`HELD_BELOW_M_S`]). After
/// [`MAX_EVENTS`] events the shot is given up, which can only happen where nothing slows the ball.
///
/// # Errors
/// [`ShotError`] for a start that is not on the table or not finite, an end time that is negative or
/// a NaN, the compliant rail model, or a table without cushions.
pub fn play(
    equipment: &Equipment,
    start: BallState,
    until_s: Option<f64>,
) -> Result<Shot, ShotError> {
    let model = equipment.cushion.model;
    if model == RailModel::Compliant {
        return Err(ShotError::Compliant);
    }
    if let Some(until_s) = until_s
        && (until_s.is_nan() || until_s < 0.0)
    {
        return Err(ShotError::Until { until_s });
    }
    let outline = Outline::new(equipment)?;
    let start = placed(&outline, start)?;
    let mut game = Game {
        outline,
        cloth: ClothMotion::new(equipment),
        model,
        contact: CushionContact::new(equipment),
        until_s: until_s.unwrap_or(f64::INFINITY),
        time_s: 0.0,
        state: start,
        events: Vec::new(),
        legs: Vec::new(),
    };
    game.record(0.0, EventKind::Start, start, start);
    let end = loop {
        if let Some(ending) = game.advance() {
            break game.ended(ending);
        }
    };
    Ok(Shot { events: game.events, end, legs: game.legs, outline })
}

/// The start, put on a groove it is past by rounding.
fn placed(outline: &Outline, start: BallState) -> Result<BallState, ShotError> {
    if !start.is_finite() {
        return Err(ShotError::NotFinite);
    }
    let (speed_m_s, spin_rad_s) = (start.velocity.norm(), start.spin.norm());
    if !(speed_m_s <= FASTEST_M_S && spin_rad_s <= FASTEST_SPIN_RAD_S) {
        return Err(ShotError::TooFast { speed_m_s, spin_rad_s });
    }
    let mut placed = tidy(start);
    for rail in Rail::ALL {
        let outward = rail.outward();
        let past_m = outward.dot(placed.position) - outline.groove_offset_m(rail);
        if past_m > ROUNDING_M {
            return Err(ShotError::PastGroove { rail, past_m });
        }
        if past_m > 0.0 {
            placed = pinned(outline, rail, placed, outward.dot(placed.velocity));
        }
    }
    for pocket in Pocket::ALL {
        let (normal, reach) = outline.mouth_line(pocket);
        if normal.dot(placed.position) > reach {
            return Err(ShotError::InPocket { pocket });
        }
    }
    Ok(tidy(placed))
}

/// A shot being played.
struct Game {
    outline: Outline,
    cloth: ClothMotion,
    model: RailModel,
    contact: CushionContact,
    until_s: f64,
    time_s: f64,
    state: BallState,
    events: Vec<Event>,
    legs: Vec<Leg>,
}

impl Game {
    fn record(&mut self, time_s: f64, kind: EventKind, before: BallState, after: BallState) {
        let (before, after) = (tidy(before), tidy(after));
        self.events.push(Event { time_s, kind, ball: 0, before, after });
    }

    /// Plays on to the next change of motion; the ending when there is none.
    fn advance(&mut self) -> Option<Ending> {
        if self.events.len() >= MAX_EVENTS {
            return Some(Ending::TooManyEvents);
        }
        let path = Path::new(self.state, self.cloth);
        if let Some(rail) = holding_rail(&self.outline, &path, &self.state) {
            let holder = Holder {
                outline: &self.outline,
                cloth: self.cloth,
                model: self.model,
                contact: self.contact,
            };
            let (time_s, state) =
                holder.hold(rail, self.state, self.time_s, self.until_s, &mut self.legs);
            (self.time_s, self.state) = (time_s, state);
            return (time_s >= self.until_s).then_some(Ending::Until);
        }
        let leg = Leg { time_s: self.time_s, path, held: None };
        self.legs.push(leg);
        let meeting = next_meeting(&self.outline, &path);
        let free_s = meeting.map_or_else(|| path.rests_from_s(), |(time_s, _)| time_s);
        let roll_s = path.rolls_from_s();
        if roll_s > 0.0 && roll_s < free_s && path.roll().duration_s > 0.0 {
            if self.time_s + roll_s > self.until_s {
                return Some(self.cut_off(&path));
            }
            let state = path.state_at(roll_s);
            self.record(self.time_s + roll_s, EventKind::Roll, state, state);
        }
        if self.time_s + free_s > self.until_s {
            return Some(self.cut_off(&path));
        }
        if free_s == f64::INFINITY {
            return Some(Ending::Unending);
        }
        self.time_s += free_s;
        let before = path.state_at(free_s);
        match meeting {
            None => {
                let state = BallState { velocity: Vec2::ZERO, spin: Vec3::ZERO, ..before };
                self.state = tidy(state);
                self.record(self.time_s, EventKind::Stop, state, state);
                Some(Ending::Stopped)
            }
            Some((_, Meeting::Mouth(pocket))) => {
                self.state = tidy(before);
                self.record(self.time_s, EventKind::Pocket(pocket), before, before);
                Some(Ending::Pocketed(pocket))
            }
            Some((_, Meeting::Cushion(rail))) => {
                self.touch(rail, before);
                None
            }
        }
    }

    fn touch(&mut self, rail: Rail, before: BallState) {
        let into = rail.outward().dot(before.velocity);
        let before = pinned(&self.outline, rail, before, into);
        // Rounding at the very change from slide to roll can take the last of a speed away.
        if into <= LEAST_IMPACT_M_S {
            self.state = tidy(pinned(&self.outline, rail, before, into.min(0.0)));
            return;
        }
        let (mut after, touch) = act(self.model, &self.contact, rail, before);
        let away = -rail.outward().dot(after.velocity);
        if away < HELD_BELOW_M_S {
            let still = pinned(&self.outline, rail, after, 0.0);
            let path = Path::new(still, self.cloth);
            if holding_rail(&self.outline, &path, &still) == Some(rail) {
                after = still;
            }
        }
        self.state = tidy(after);
        self.record(self.time_s, EventKind::Cushion(touch), before, after);
    }

    /// Ends in the middle of a path.
    fn cut_off(&mut self, path: &Path) -> Ending {
        self.state = tidy(path.state_at(self.until_s - self.time_s));
        self.time_s = self.until_s;
        Ending::Until
    }

    fn ended(&self, ending: Ending) -> End {
        End { ending, time_s: self.time_s, state: self.state }
    }
}

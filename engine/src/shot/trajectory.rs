//! A finished shot, and where its balls are at any time.

use super::Event;
use super::spin_hold::Holds;
use crate::motion::{BallState, Path, Phase, Segment};
use crate::rail::Pocket;
use crate::vector::Vec2;

/// The end of a ball's way, or of a whole shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ending {
    /// It came to rest.
    AtRest,
    /// The ball left the table.
    Dropped(Pocket),
    /// The time that was asked for was over first.
    TimeOver,
    /// The shot was given up, after [`MAX_EVENTS`](super::MAX_EVENTS) events or as many turns as its
    /// memory has room for; nothing after the last event is known.
    GivenUp,
    /// Nothing slows a ball any more and nothing is in its way: it goes on like this for ever.
    Unending,
}

impl Ending {
    /// The word used in sentences, scripts and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AtRest => "at-rest",
            Self::Dropped(_) => "dropped",
            Self::TimeOver => "time-over",
            Self::GivenUp => "given-up",
            Self::Unending => "unending",
        }
    }

    /// The pocket into which it dropped.
    pub const fn pocket(self) -> Option<Pocket> {
        match self {
            Self::Dropped(pocket) => Some(pocket),
            Self::AtRest | Self::TimeOver | Self::GivenUp | Self::Unending => None,
        }
    }
}

/// The end of a ball's way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// The way it ended.
    pub ending: Ending,
    /// When, s since the start; of an unending ball, the last change of its motion.
    pub time_s: f64,
    /// Its state then.
    pub state: BallState,
}

/// Everything about one shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Shot {
    /// The events, in order of time.
    pub events: Vec<Event>,
    /// The end of each ball, in the order in which they were given.
    pub ends: Vec<End>,
    pub(super) legs: Vec<Vec<Leg>>,
}

/// A stretch between two changes that the motion itself does not know of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Leg {
    /// When it begins, s.
    pub(super) time_s: f64,
    /// The motion from then on.
    pub(super) path: Path,
    /// The thing that decides it.
    pub(super) kind: LegKind,
}

/// The law of a ball's motion on a leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum LegKind {
    /// The cloth.
    Free,
    /// A surface whose contact lasts until the given time; then the ball has the velocity and spin
    /// of this state.
    Against { until_s: f64, departs: BallState },
    /// The surfaces that its spin holds it against, for one short step.
    Held { by: Holds, until_s: f64 },
}

impl Leg {
    /// The ball's state at a clock time within the leg.
    pub(super) fn state_at(&self, clock_s: f64) -> BallState {
        tidy(self.path.state_at(clock_s - self.time_s))
    }

    /// The same for who looks on: around a corner that holds the ball its centre is on the circle, which
    /// the leg's parabola only meets at both ends.
    fn seen_at(&self, clock_s: f64) -> BallState {
        let state = self.state_at(clock_s);
        match &self.kind {
            LegKind::Held { by: Holds::Along(boundary), .. } if boundary.curvature_1_m() > 0.0 => {
                BallState { position: boundary.pinned(state.position), ..state }
            }
            _ => state,
        }
    }
}

/// The law of a ball's motion on a piece of its way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceKind {
    /// It slides.
    Slide,
    /// It rolls.
    Roll,
    /// A surface holds it: a contact that lasts, or its own spin against a cushion.
    Held,
}

/// A piece of a ball's way, of constant acceleration: a parabola or a straight line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// When it begins, s since the start.
    pub time_s: f64,
    /// The motion of the centre.
    pub motion: Segment,
    /// The thing that decides it.
    pub kind: PieceKind,
}

impl Piece {
    /// Its two ends and the point where its end tangents meet, m: with them it is exactly a quadratic
    /// Bézier curve.
    pub fn curve(&self) -> [Vec2; 3] {
        let Segment { position, velocity, duration_s, .. } = self.motion;
        [position, position + velocity * (0.5 * duration_s), self.motion.position_at(duration_s)]
    }
}

impl Shot {
    /// True when the shot was given up before its balls had come to their ends.
    pub fn gave_up(&self) -> bool {
        self.ends.iter().any(|end| end.ending == Ending::GivenUp)
    }

    /// The state of a ball at a time, s since the start. Before the start it is the given state;
    /// after its end it is the last one, except of an unending ball. At an event it is the state
    /// after. While a cushion's contact lasts, the velocity is that along the cushion. `None` for a
    /// ball that is not in the shot.
    pub fn state_at(&self, ball: usize, time_s: f64) -> Option<BallState> {
        let (end, legs) = (self.ends.get(ball)?, self.legs.get(ball)?);
        if time_s >= end.time_s && end.ending != Ending::Unending {
            return Some(end.state);
        }
        let begun = legs.partition_point(|leg| leg.time_s <= time_s);
        let leg = legs.get(begun.saturating_sub(1))?;
        Some(leg.seen_at(time_s.max(leg.time_s)))
    }

    /// The phase of a ball at a time: `None` for a ball that is not in the shot or has left the table.
    pub fn phase_at(&self, ball: usize, time_s: f64) -> Option<Phase> {
        let (end, legs) = (self.ends.get(ball)?, self.legs.get(ball)?);
        if time_s >= end.time_s {
            match end.ending {
                Ending::AtRest => return Some(Phase::Rest),
                Ending::Dropped(_) => return None,
                Ending::TimeOver | Ending::GivenUp | Ending::Unending => {}
            }
        }
        let begun = legs.partition_point(|leg| leg.time_s <= time_s);
        let leg = legs.get(begun.saturating_sub(1))?;
        Some(match leg.kind {
            LegKind::Free => leg.path.phase_at((time_s - leg.time_s).max(0.0)),
            LegKind::Against { .. } | LegKind::Held { .. } => Phase::Slide,
        })
    }

    /// When the last change of any ball's motion was, s since the start.
    pub fn duration_s(&self) -> f64 {
        self.ends.iter().fold(0.0, |latest, end| end.time_s.max(latest))
    }

    /// A ball's way in pieces of constant acceleration, in order of time; none for a ball that does
    /// not move. An unending piece is left out.
    pub fn pieces(&self, ball: usize) -> Vec<Piece> {
        let (Some(end), Some(legs)) = (self.ends.get(ball), self.legs.get(ball)) else {
            return Vec::new();
        };
        let mut pieces = Vec::new();
        for (index, leg) in legs.iter().enumerate() {
            let until_s = legs.get(index + 1).map_or(end.time_s, |next| next.time_s) - leg.time_s;
            let mut note = |begins_s: f64, stretch: &Segment, kind: PieceKind| {
                let duration_s = (until_s - begins_s).min(stretch.duration_s);
                let moves = stretch.velocity != Vec2::ZERO || stretch.acceleration != Vec2::ZERO;
                if moves && duration_s > 0.0 && duration_s.is_finite() {
                    let motion = Segment { duration_s, ..*stretch };
                    pieces.push(Piece { time_s: leg.time_s + begins_s, motion, kind });
                }
            };
            match leg.kind {
                LegKind::Free => {
                    note(0.0, leg.path.slide(), PieceKind::Slide);
                    note(leg.path.slide().duration_s, leg.path.roll(), PieceKind::Roll);
                }
                LegKind::Against { .. } | LegKind::Held { .. } => {
                    note(0.0, leg.path.slide(), PieceKind::Held);
                }
            }
        }
        pieces
    }

    /// The events of one ball, those of its meetings with other balls included.
    pub fn events_of(&self, ball: usize) -> impl Iterator<Item = &Event> {
        self.events.iter().filter(move |event| {
            event.ball == ball
                || matches!(event.kind, super::EventKind::Ball(touch) if touch.other == ball)
        })
    }
}

/// The same state with no zero that is negative: it equals the other but prints differently.
pub(super) fn tidy(state: BallState) -> BallState {
    let mut tidy = state;
    for number in [
        &mut tidy.position.x,
        &mut tidy.position.y,
        &mut tidy.velocity.x,
        &mut tidy.velocity.y,
        &mut tidy.spin.x,
        &mut tidy.spin.y,
        &mut tidy.spin.z,
    ] {
        *number += 0.0;
    }
    tidy
}

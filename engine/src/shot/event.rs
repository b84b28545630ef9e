//! The things that happen to a ball at one moment.

use crate::motion::BallState;
use crate::rail::{Pocket, Rail};
use crate::world::{JawPart, JawSide};

/// A moment at which a ball's motion changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Event {
    /// Time since the start, s.
    pub time_s: f64,
    /// The kind of thing that happens.
    pub kind: EventKind,
    /// Which ball, by its place in the list that was given.
    pub ball: usize,
    /// Its state as it comes to the event.
    pub before: BallState,
    /// Its state as it leaves the event.
    pub after: BallState,
}

/// Kinds of event.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EventKind {
    /// The shot begins; before and after are the given state.
    Start,
    /// Sliding ends and rolling begins; before and after are the same.
    Roll,
    /// The centre comes to rest while the ball goes on spinning about the vertical.
    Pivot,
    /// A cushion's straight nose acts on the ball, whose centre is on the groove. While the contact
    /// lasts the ball stays in the groove; `after` holds the motion with which it will leave.
    Cushion(CushionTouch),
    /// A jaw acts on the ball; as [`EventKind::Cushion`].
    Jaw {
        /// Whose jaw.
        pocket: Pocket,
        /// Which one.
        side: JawSide,
        /// The part of it.
        part: JawPart,
        /// The effect on the ball.
        touch: Touch,
    },
    /// An obstacle acts on the ball.
    Obstacle {
        /// Its place in the list that was given.
        index: usize,
        /// The effect on the ball.
        touch: Touch,
    },
    /// The cloth would have had to pull during the touch just before: a real ball would have hopped.
    /// It is played on as if it had not; before and after are the same.
    Hop,
    /// A contact that lasted ends and the ball is free; before and after are the same.
    Leave,
    /// Another ball acts on the ball.
    Ball(BallTouch),
    /// The centre crosses a pocket's drop line and the ball leaves the table; before and after are
    /// the same.
    Drop(Pocket),
    /// All motion has ended, spin about the vertical included; before and after are the same.
    Stop,
}

/// The effect of a solid thing on a ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Touch {
    /// The restitution that acted.
    pub restitution: f64,
    /// The speed square to the surface was above the model's checked range.
    pub outside_checked_speed: bool,
    /// The cloth would have had to pull: a real ball would have hopped.
    pub hop: bool,
}

/// The effect of a cushion on a ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CushionTouch {
    /// Which rail.
    pub rail: Rail,
    /// The effect on the ball.
    pub touch: Touch,
}

/// A touch of two balls, seen from the event's ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallTouch {
    /// The other ball.
    pub other: usize,
    /// Its state as it comes to the event.
    pub other_before: BallState,
    /// Its state as it leaves the event.
    pub other_after: BallState,
    /// Their speed of approach along the line of centres, m/s.
    pub approach_m_s: f64,
    /// Slip between their surfaces where they touched, m/s.
    pub slip_m_s: f64,
    /// The friction that acted.
    pub friction: f64,
}

impl Event {
    /// The state of a ball as it leaves the event, which is the event's own or is touched by it.
    pub const fn after_of(&self, ball: usize) -> BallState {
        match self.kind {
            EventKind::Ball(touch) if self.ball != ball => touch.other_after,
            _ => self.after,
        }
    }
}

impl EventKind {
    /// The name used in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Roll => "roll",
            Self::Pivot => "pivot",
            Self::Cushion(_) => "cushion",
            Self::Jaw { .. } => "jaw",
            Self::Obstacle { .. } => "obstacle",
            Self::Hop => "hop",
            Self::Leave => "leave",
            Self::Ball(_) => "ball",
            Self::Drop(_) => "drop",
            Self::Stop => "stop",
        }
    }

    /// The touch of a solid thing, if one acted.
    pub const fn touch(self) -> Option<Touch> {
        match self {
            Self::Cushion(CushionTouch { touch, .. })
            | Self::Jaw { touch, .. }
            | Self::Obstacle { touch, .. } => Some(touch),
            _ => None,
        }
    }
}

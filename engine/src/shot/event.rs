//! What happens to a ball at one moment.

use crate::motion::BallState;
use crate::rail::{Pocket, Rail};

/// A moment at which a ball's motion changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Event {
    /// Time since the start, s.
    pub time_s: f64,
    /// What happens.
    pub kind: EventKind,
    /// Which ball; there is one so far, 0.
    pub ball: usize,
    /// Its state as it comes to the event.
    pub before: BallState,
    /// Its state as it leaves the event.
    pub after: BallState,
}

/// What happens at an event.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EventKind {
    /// The shot begins; before and after are the given state.
    Start,
    /// Sliding ends and rolling begins; before and after are the same.
    Roll,
    /// A cushion acts on the ball, whose centre is exactly on the groove.
    Cushion(CushionTouch),
    /// The centre crosses a pocket's mouth line between its points and the ball leaves the table;
    /// before and after are the same.
    Pocket(Pocket),
    /// All motion has ended, spin about the vertical included; before and after are the same.
    Stop,
}

/// What a cushion did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CushionTouch {
    /// Which rail.
    pub rail: Rail,
    /// The restitution that acted.
    pub restitution: f64,
    /// The speed square to the rail was above the model's checked range.
    pub outside_checked_speed: bool,
    /// The cloth would have had to pull: a real ball would have hopped.
    pub hop: bool,
}

impl EventKind {
    /// The name used in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Roll => "roll",
            Self::Cushion(_) => "cushion",
            Self::Pocket(_) => "pocket",
            Self::Stop => "stop",
        }
    }
}

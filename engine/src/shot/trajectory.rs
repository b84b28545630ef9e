//! A finished shot, and where its ball is at any time.

use super::Event;
use super::cushion::pinned;
use crate::motion::{BallState, Path};
use crate::rail::{Outline, Pocket, Rail};

/// How a shot ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ending {
    /// The ball came to rest.
    Stopped,
    /// The ball left the table.
    Pocketed(Pocket),
    /// The time that was asked for was over first.
    Until,
    /// There were more than [`MAX_EVENTS`](super::MAX_EVENTS) events; nothing after the last one is
    /// known.
    TooManyEvents,
    /// Nothing slows the ball any more and nothing is in its way: it goes on like this for ever.
    Unending,
}

/// The end of a shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// How.
    pub ending: Ending,
    /// When, s since the start; of an unending shot, its last event.
    pub time_s: f64,
    /// The ball's state then.
    pub state: BallState,
}

/// Everything about one shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Shot {
    /// What happened, in order of time.
    pub events: Vec<Event>,
    /// How it ended.
    pub end: End,
    pub(super) legs: Vec<Leg>,
    pub(super) outline: Outline,
}

/// A stretch between two changes that the motion itself does not know of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Leg {
    /// When it begins, s.
    pub(super) time_s: f64,
    /// The motion from then on.
    pub(super) path: Path,
    /// The rail against which its spin holds the ball.
    pub(super) held: Option<Rail>,
}

impl Shot {
    /// The ball's state at a time, s since the start. Before the start it is the given state; after
    /// the end it is the last one, except of an unending shot. At an event it is the state after.
    pub fn state_at(&self, time_s: f64) -> BallState {
        if time_s >= self.end.time_s && self.end.ending != Ending::Unending {
            return self.end.state;
        }
        let begun = self.legs.partition_point(|leg| leg.time_s <= time_s);
        let Some(leg) = begun.checked_sub(1).and_then(|index| self.legs.get(index)) else {
            return self.events.first().map_or(self.end.state, |event| event.after);
        };
        let state = leg.path.state_at(time_s - leg.time_s);
        tidy(match leg.held {
            Some(rail) => pinned(&self.outline, rail, state, 0.0),
            None => state,
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

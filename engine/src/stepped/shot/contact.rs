//! A contact, reported when it is over.

use crate::motion::BallState;
use crate::world::Owner;

/// The thing that a ball was in contact with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ContactWith {
    /// A nose, a jaw or an obstacle; where a ball glides on to the next piece, the first one.
    Surface(Owner),
    /// Another ball, by its place in the list that was given.
    Ball(usize),
}

/// A contact, resolved in time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteppedContact {
    /// Which ball; of two the one given first.
    pub ball: usize,
    /// The thing touched.
    pub with: ContactWith,
    /// When it began, s since the start.
    pub began_s: f64,
    /// When the push ended, s; `None` if the shot ended first.
    pub ended_s: Option<f64>,
    /// The greatest depth to which one was pushed into the other, m.
    pub depth_m: f64,
    /// Fastest approach of the centre along the normal, m/s; the restitution is that at this speed.
    pub approach_m_s: f64,
    /// The restitution that spring and damper are set for.
    pub restitution: f64,
    /// Impulse along the normal, N·s.
    pub impulse_n_s: f64,
    /// The ball's state as the contact begins.
    pub arrival: BallState,
    /// Its state as the push ends, or the last one.
    pub departure: BallState,
    /// The other ball's two states, if it is a ball.
    pub other: Option<[BallState; 2]>,
}

impl SteppedContact {
    /// Duration, s; `None` if the shot ended first.
    pub fn duration_s(&self) -> Option<f64> {
        self.ended_s.map(|ended_s| ended_s - self.began_s)
    }

    /// Whether it was with this ball, on either side.
    pub fn is_of(&self, ball: usize) -> bool {
        self.ball == ball || self.with == ContactWith::Ball(ball)
    }
}

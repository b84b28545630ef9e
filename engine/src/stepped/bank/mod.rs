//! The compliant rail model: a bank stepped in time on a general rigid-body solver, with a soft
//! planar cushion that is resolved while it holds the ball. A second opinion, and labelled so.
//!
//! The ball is a body of rapier2d; every step gets the cloth's force from outside, and
//! the cushion is the solver's own soft contact, a linear spring and damper that can only push.
//! Square to the rail it is set so that the contact lasts the cushion's contact time and gives back
//! the cushion's restitution at the speed of arrival; along the rail it grips by Coulomb's law at
//! the ball's equator.
//!
//! Limits: the nose stands at the height of the centre here, so the ball is not pressed
//! into the cloth, the cloth grips during the contact with the ball's weight alone
//! ([`Cloth::sliding_friction`](crate::equipment::Cloth), never the cushion's own cloth friction),
//! and spin about a horizontal axis does not touch the cushion. Free motion is exact to rounding
//! (its forces are constant in each step, and steps end where sliding turns into roll); the contact
//! is of first order in its step. A bank costs milliseconds, thousands of times a closed form.
//!
//! The solver lets contact forces act half-way into the overlap, which would shorten the lever arm of
//! friction by half the push-in depth; a contact hook puts the point back on the ball's surface.

mod impact;
mod play;
mod stop;
mod world;

#[cfg(test)]
mod tests;

pub use impact::{CompliantImpact, step_to_departure};
pub use play::{CompliantBank, step_bank};
pub use stop::StopLine;

use crate::motion::BallState;
use thiserror::Error;

/// The fineness of the steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompliantSettings {
    /// Longest step of free motion, s; taken inside 1 µs..50 ms. Only the spacing of the path's
    /// points and the interpolation of a crossed line depend on it. Default 2 ms.
    pub step_s: f64,
    /// Steps in one contact time; at least 16. The contact's errors fall as 1/`contact_steps`.
    /// Default 400.
    pub contact_steps: u32,
    /// Give up after this much simulated time, s. Default 60 s.
    pub time_limit_s: f64,
}

impl Default for CompliantSettings {
    fn default() -> Self {
        Self { step_s: 2e-3, contact_steps: 400, time_limit_s: 60.0 }
    }
}

impl CompliantSettings {
    fn free_step_s(&self) -> f64 {
        self.step_s.clamp(1e-6, 50e-3)
    }

    fn contact_step_s(&self, contact_time_s: f64) -> f64 {
        contact_time_s / f64::from(self.contact_steps.max(16))
    }
}

/// Why stepping ended. For [`step_to_departure`] it says why the ball never came off the cushion.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CompliantEnd {
    /// The centre crossed a stop line.
    #[error("the ball crossed stop line {line} after {time_s} s")]
    Crossed {
        /// Its place in the list that was given.
        line: usize,
        /// When, s.
        time_s: f64,
        /// The state there, interpolated within the step.
        state: BallState,
    },
    /// The centre came to rest.
    #[error("the ball came to rest after {time_s} s")]
    Rested {
        /// When, s.
        time_s: f64,
        /// Where.
        state: BallState,
    },
    /// The cushion held the ball for more than 20 contact times: the cloth drives it in as fast as
    /// the cushion pushes it out.
    #[error("the ball was still against the cushion after {time_s} s")]
    Held {
        /// When stepping gave up, s.
        time_s: f64,
        /// The state then.
        state: BallState,
    },
    /// The time limit came first.
    #[error("the ball was still moving at the time limit of {time_s} s")]
    TimeLimit {
        /// The limit, s.
        time_s: f64,
        /// The state then.
        state: BallState,
    },
    /// The cushion's contact time is outside
    /// [`Cushion::RESOLVED_CONTACT_TIME`](crate::equipment::Cushion::RESOLVED_CONTACT_TIME).
    #[error("a contact of {contact_time_s} s cannot be stepped through")]
    ShortContact {
        /// The contact time, s.
        contact_time_s: f64,
    },
    /// The start, or what followed from it, is not a number that can be stepped.
    #[error("the ball's state is not finite")]
    NotFinite,
}

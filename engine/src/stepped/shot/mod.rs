//! The stepped engine: a second opinion on a whole shot. The same layout as [`shot::play`] takes is
//! stepped in time on a general rigid-body solver, with every contact resolved while it lasts; nothing
//! here asks the event engine when anything meets.
//!
//! Share of the work:
//! - **Balls against balls** is the solver's own soft contact: a linear spring and damper that lasts
//!   [`SteppedSettings::ball_contact_time_s`] and gives back the balls' restitution, with Coulomb's
//!   law on each step. Balls of a cluster share their blow over those times, so a cluster has an
//!   answer that does not depend on an order of impacts. The solver works in the table's plane: it
//!   throws balls and carries side over. Follow and draw are spins about level axes, which it does not
//!   have; they are kept beside it, and the vertical part of the same friction is applied to them.
//!   Vertical velocity is forgotten when the contact ends.
//! - **Balls against cushions, jaws and obstacles**: the solver has one softness for all contacts with
//!   fixed things, but restitution depends on each arrival's speed. So these springs and dampers are
//!   applied to the balls from outside, half before and half after each of the solver's steps
//!   (velocity form of Verlet's rule), with Coulomb's law at the ball's equator. A rail or a jaw
//!   holds a lone ball for its own contact time; an obstacle for that of two balls. The cushion has no mass:
//!   when the ball has gone, its surface comes back as its own spring and damper let it.
//! - **The cloth** acts all the time, in closed form for each step, and steps end where sliding turns
//!   into roll.
//!
//! Limits: noses are met at the groove but push at the height of the centre, whatever the
//! rail model of the equipment says, so the ball is not pressed into the cloth and spin about level
//! axes does not touch the cushion. Results are to be compared with the planar model of the event
//! engine; a restitution that was fitted to another rail model means another bounce here. Real
//! balls' contact stiffens as they press (Hertz 1882), and how a cluster shares a blow depends on
//! that; the linear spring is a stand-in. Balls of unlike radii meet in the plane here: the tilt of
//! their line of centres is left out but for the distance at which they touch.
//!
//! Errors: free motion is exact to rounding; a cushion's contact is of second order in its step, a
//! contact of balls of first order.

mod advance;
mod ball_kind;
mod balls;
mod clearance;
mod contact;
mod contact_starts;
mod game;
mod hold;
mod pair;
mod rest;
mod samples;
mod touches;

#[cfg(test)]
mod tests;

pub use contact::{ContactWith, SteppedContact};
pub use game::{MOST_CONTACTS, MOST_STEPS, play};
pub use samples::{BallSample, MOST_SAMPLES};

use crate::motion::BallState;
use crate::shot::{End, Ending, ShotError};
use samples::Samples;
use thiserror::Error;

#[cfg(doc)]
use crate::shot;

/// The fineness of the steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteppedSettings {
    /// Longest step of free motion and spacing of the samples, s; taken inside 10 µs..50 ms. Free
    /// motion does not depend on it. Default 2 ms.
    pub step_s: f64,
    /// Steps in one contact time; at least 16. Default 400.
    pub contact_steps: u32,
    /// Contact time of two balls when nothing else touches them, s: 1 µs to 5 ms. Default 0.25 ms, an order
    /// of magnitude from memory.
    pub ball_contact_time_s: f64,
    /// A shot without an end time ends at this one at the latest, s. Default 60 s.
    pub time_limit_s: f64,
}

impl Default for SteppedSettings {
    fn default() -> Self {
        Self { step_s: 2e-3, contact_steps: 400, ball_contact_time_s: 0.25e-3, time_limit_s: 60.0 }
    }
}

impl SteppedSettings {
    /// Shortest contact time of a cushion that is resolved, s.
    pub const LEAST_CONTACT_TIME_S: f64 = 0.5e-3;
    /// Shortest contact time of two balls, s.
    pub const LEAST_BALL_CONTACT_TIME_S: f64 = 1e-6;
    /// Longest contact time of two balls, s.
    pub const MOST_BALL_CONTACT_TIME_S: f64 = 5e-3;

    fn free_step_s(&self) -> f64 {
        self.step_s.clamp(1e-5, 50e-3)
    }

    fn steps(&self) -> f64 {
        f64::from(self.contact_steps.max(16))
    }
}

/// Why a shot can't be stepped.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SteppedError {
    /// The layout can't be played by any engine.
    #[error(transparent)]
    Layout(#[from] ShotError),
    /// The rails' or the jaws' contact is too short to be resolved.
    #[error(
        "the {what} a ball for {contact_time_s} s; the stepped engine resolves that time and needs at least {least} s",
        least = SteppedSettings::LEAST_CONTACT_TIME_S
    )]
    ContactTime {
        /// Which hold it: `cushion holds` or `jaws hold`.
        what: &'static str,
        /// The equipment's.
        contact_time_s: f64,
    },
    /// A setting that is no number or out of range.
    #[error("{name} is {value_s} s; it must be {accepted}")]
    Setting {
        /// Which.
        name: &'static str,
        /// Its value.
        value_s: f64,
        /// The values accepted.
        accepted: &'static str,
    },
}

/// A stepped shot.
#[derive(Debug, Clone, PartialEq)]
pub struct SteppedShot {
    /// The end of each ball, in the order in which they were given. A shot that nothing but
    /// [`SteppedSettings::time_limit_s`] ended, ended as if that time had been asked for.
    pub ends: Vec<End>,
    /// The contacts, in the order in which they began.
    pub contacts: Vec<SteppedContact>,
    /// Steps that were taken.
    pub steps: usize,
    samples: Vec<Samples>,
}

impl SteppedShot {
    /// True when the shot was given up before its balls had come to their ends.
    pub fn gave_up(&self) -> bool {
        self.ends.iter().any(|end| end.ending == Ending::GivenUp)
    }

    /// The state of a ball at a time, s since the start, interpolated between the steps that were
    /// kept: exactly where the cloth alone acts between two of them. Before the start it is the given
    /// state, after the end the last one. `None` for a ball that is not in the shot.
    pub fn state_at(&self, ball: usize, time_s: f64) -> Option<BallState> {
        let end = self.ends.get(ball)?;
        if time_s >= end.time_s {
            return Some(end.state);
        }
        self.samples.get(ball)?.state_at(time_s)
    }

    /// The steps of a ball's way that were kept, at most about [`MOST_SAMPLES`], in order of time; none
    /// for a ball that is not in the shot.
    pub fn path(&self, ball: usize) -> &[BallSample] {
        self.samples.get(ball).map_or(&[], |samples| samples.all())
    }

    /// When the last ball's motion ended, s since the start.
    pub fn duration_s(&self) -> f64 {
        self.ends.iter().fold(0.0, |latest, end| end.time_s.max(latest))
    }
}

//! A whole shot: up to [`MOST_BALLS`] balls from their start to rest, as events at exact times.
//!
//! Motion between events is in closed form; so are the times of contacts (see
//! [`contact`](crate::contact)). Table frame. The cue, aims and what a script asks are not known here.
//!
//! **Order of events.** Earlier before later. At the same instant (within [`TOGETHER_S`]) contacts of
//! balls come before those with surfaces, and of contacts of balls the one with the fastest approach
//! first; contacts whose approach is equally fast are resolved together. Each answer can bring about
//! new contacts at the same instant, which are then met in the same way: a cluster of touching balls
//! is played as a quick sequence of impacts. What really happens in such a cluster is spread over the
//! contacts' short times, which the stepped engine resolves.
//!
//! **A contact lasts.** A nose or jaw holds a ball for the cushion's contact time; meanwhile it goes
//! along it at the mean of its speeds along it before and after. If another ball or surface meets it
//! before that, the contact ends there and then.

mod ball_in_play;
mod ball_kinds;
mod event;
mod game;
mod pairs;
mod response;
mod spin_hold;
mod start;
mod surfaces;
mod trajectory;

pub use event::{BallTouch, CushionTouch, Event, EventKind, Touch};
pub use game::{MAX_EVENTS, TOGETHER_S, play, play_for};
pub use pairs::{LEAST_PARTING_M_S, SLOW_M_S};
pub use spin_hold::HELD_BELOW_M_S;
pub use start::{
    FASTEST_M_S, FASTEST_SPIN_RAD_S, MOST_BALLS, ROUNDING_M, ShotBall, ShotError, touching_m,
};
pub(crate) use start::{groove_m, laid_out, placed_ball};
pub use trajectory::{End, Ending, Piece, PieceKind, Shot};

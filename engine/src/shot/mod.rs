//! One ball on a table, from an explicit state to rest: free motion in closed form between cushions,
//! events at exact times. Table frame. Other balls, the cue and what a script asks are not known
//! here.
//!
//! What is left out: the mouth points. A cushion is a straight nose; a ball that goes between the
//! points without having met a nose is pocketed, and one that would brush a point on its way
//! sideways out of a mouth bounces in the groove, as if the nose reached that far.

mod cushion;
mod event;
mod held;
mod meeting;
mod play;
mod trajectory;

pub use event::{CushionTouch, Event, EventKind};
pub use held::HELD_BELOW_M_S;
pub use play::{FASTEST_M_S, FASTEST_SPIN_RAD_S, MAX_EVENTS, ShotError, play};
pub use trajectory::{End, Ending, Shot};

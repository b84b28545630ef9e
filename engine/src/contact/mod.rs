//! When moving centres first touch (another centre, a straight edge, a round corner), to rounding, on
//! stretches of constant acceleration. What the touch does to them is not known here.
//!
//! Everywhere here the *gap* is the distance of the centre from touching, m, and a *contact* is the first
//! instant of an approach at which the gap is not positive: either the gap falls to zero, or two that
//! touch or overlap already begin to close. A touch without approach (a graze that only reaches zero,
//! two at rest) is none, and neither is a graze that rounding alone makes overlap. So after a contact
//! has been answered by making the velocities part, the same question gives the next contact, whatever
//! side of zero rounding has left the gap on.
//!
//! Mirrored and exchanged bodies meet at the same bits: only scalar products and squares decide.

mod approach;
mod arc;
mod ball_pair;
mod bracket;
mod distance;
mod line;
#[cfg(test)]
mod tests;

pub use arc::Arc;
pub use ball_pair::first_between;
pub use distance::first_within;
pub use line::StraightEdge;

/// The distance past an edge's end, along the edge, within which a contact still counts, m: where two edges
/// join, rounding must not open a gap between them.
pub const JOIN_SLACK_M: f64 = 1e-12;

/// The greatest depth behind an edge with ends at which a centre still touches it, m. Rounding goes no
/// deeper; a deeper centre is on another side of the thing that the edge belongs to.
pub const DEEPEST_TOUCH_M: f64 = 1e-6;

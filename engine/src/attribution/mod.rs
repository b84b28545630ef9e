//! The causes of a bank's miss, as a sum that adds up: so many millimetres to each cause, and the rest to
//! the line itself.
//!
//! Each cause is something that is another way than the reference has it. The references of a bank
//! are the conditions for which exact start numbers are stated: the ball frozen to the rail on the
//! rule's own line, stun, without side, at [`REFERENCE_SPEED_M_S`]. With every cause at its
//! reference the miss is the **remainder**, that of the line itself; then
//! remainder + sum of all shares = miss.
//!
//! The shares are Shapley values (L. S. Shapley 1953, "A value for n-person games", Contributions to
//! the Theory of Games II): the bank is sent off from the rail again with every set of causes as it
//! is and the others at their references, 2^k times for k causes that differ from their references,
//! and a cause's share is the mean change that it makes over all orders of switching. Causes that
//! act on each other share what they do together. A cause at its reference has the share 0.
//!
//! | cause | as it is | its reference |
//! |---|---|---|
//! | [`Cause::Aim`] | the way the ball is sent | the rule's line |
//! | [`Cause::Squirt`] | the angle by which squirt turned the object ball's way | not at all |
//! | [`Cause::Throw`] | the angle from the line of centres to the object ball's way | 0 |
//! | [`Cause::Line`] | where and at which angle it meets the rail (between two banks) | the other bank's |
//! | [`Cause::Roll`] | level spin at the rail over the speed | none: stun |
//! | [`Cause::Side`] | R·wz/v at the rail | 0 |
//! | [`Cause::Restitution`] | that which acted | that of the reference speed on the rule's line |
//! | [`Cause::Carry`] | contact time × speed: the distance that the rail carries the ball along | the same time at the reference speed |
//! | [`Cause::Bend`] | the distance that the ball slides on after the rail, on which the bend of its path depends | as at the reference speed |
//! | [`Cause::Table`] | friction, nose, mouth and all else of the table (between two banks) | the other bank's |
//!
//! Between two banks ([`of_difference`]) every reference is what the other bank has, and the
//! remainder is that bank's miss.
//!
//! With the restitution set, a cushion and cloth whose decelerations are scaled by the speed's square
//! send a ball the same way at every speed, so carry and bend of another speed are played by scaling
//! the contact time and the cloth. The miss of every set is taken where the way crosses the mouth
//! line, extended past whatever the ball would meet first and past where it would stop; where a set's
//! way leads elsewhere, nothing is attributed ([`NotAttributed`] says why).

mod bank;
mod cause;
mod difference;
mod game;
mod way;

#[cfg(feature = "world")]
mod shot;

pub use bank::of_bank;
pub use cause::{Attribution, Cause, CauseShare, NotAttributed, Part};
pub use difference::of_difference;
pub use game::shapley;
#[cfg(feature = "world")]
pub use shot::{ShotContext, of_shot};

/// The speed of the references, m/s: that for which exact start numbers are stated.
pub const REFERENCE_SPEED_M_S: f64 = 4.0;

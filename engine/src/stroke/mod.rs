//! Tip against ball: where and how hard the cue strikes becomes velocity, spin and squirt.
//!
//! Signs, once: the player stands behind the cue and looks along the aim. The tip's offset to the
//! **right** of the ball's centre is positive and turns the ball against the clock seen from above
//! (wz > 0); the offset **above** the centre is positive and gives follow. Squirt sends the ball to
//! the other side of the tip.

mod blow;
mod strike;

pub use blow::CueBlow;
pub use strike::{Stroke, StrokeError, StruckBall};

#[cfg(test)]
mod tests;

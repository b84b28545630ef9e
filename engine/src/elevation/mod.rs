//! Room for the cue: the least angle downwards at which it stands clear of the cushions, the rails
//! behind them, other balls, obstacles and the cloth.
//!
//! The cue is a cone of the cue's length, from its tip's diameter to its butt's, behind the place where
//! the tip meets the ball. It must clear
//!
//! - the cushions: solid from the cloth up to a line from the nose to the rail's upper edge
//!   ([`RailTop`](crate::equipment::RailTop)); jaws as high as noses. The rails' upper edges go on behind
//!   the pockets, where castings stand as high in most tables (common practice). The butt's rim counts
//!   too, where the cue ends over a cushion;
//! - obstacles, upright up to their own height, however far they stand above the butt;
//! - balls, as spheres;
//! - the cloth.
//!
//! The hand that bridges, the player's body, and walls are not looked at. Lengths here are from the
//! struck ball's centre, with s along the cue's plan backwards, y to the player's right of the cue, z up.
//!
//! Raising the cue takes it away from whatever stands under it, so each thing is cleared from some
//! elevation on; beside a ball a low cue can also pass. The least elevation is exact to rounding for
//! balls and cloth; for an edge that runs nearly along the cue the cone is taken as a cylinder as thick
//! as it is there, which is exact to 0.1 mm. A cue that comes in over a pocket's opening is not held
//! against the slope beside it.

mod ball;
mod cue;
mod edge;
mod line;
mod slope;

pub use line::{NoRoom, Obstruction, Room, StandingBall, least_elevation};

#[cfg(test)]
mod tests;

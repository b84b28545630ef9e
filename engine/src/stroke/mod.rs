//! Tip against ball: the place and strength of the cue's stroke become velocity, spin and squirt.
//!
//! Signs, once: the player stands behind the cue and looks along the aim. The tip's offset to the
//! **right** of the ball's centre is positive and turns the ball against the clock seen from above
//! (wz > 0); the offset **above** the centre is positive and gives follow. Squirt sends the ball to
//! the other side of the tip.
//!
//! **One impulse** makes velocity, spin and squirt (derived; the end mass is Shepard's, 2001). Axes of
//! the cue: e along it, l to the left, u up and square to it. Lengths in ball radii: the tip meets a
//! uniform ball (I = (2/5)·m·R²) at r = −c·e + d, with d = −b·l + a·u for a tip b to the right and a
//! above, and c² = 1 − a² − b². It does not slip. The shaft's end, of mass mₑ, gives way square to the
//! cue: it leaves at −J⊥/mₑ, as fast as the ball's surface there, which an impulse J moves at
//! J/m + (5/2m)·(J − r·(r·J)). Square to the cue this asks for J = J_e·(e − k·d), with
//!
//! k = (5/2)·c/(1 + (5/2)·c² + m/mₑ),
//!
//! so J leans away from the tip by α with tanα = k·√(a² + b²): squirt, of follow and draw too. Then
//!
//! - velocity J/m: v along the cue (the stroke's speed), k·b·v to the left, −k·a·v along u;
//! - spin (5/2)·(v/R)·(1 − c·k)·(d × e), where 1 − c·k = (1 + m/mₑ)/(1 + m/mₑ + (5/2)·c²): the arm of
//!   J about the centre is R·sin(asin(√(a² + b²)) − α), shorter than the offset, which counts from the
//!   cue's axis;
//! - a cue raised by ε turns e and u: e = cosε·forward − sinε·up, u = sinε·forward + cosε·up. Side so
//!   gets a part along the travel, from which the cloth makes swerve, and a follow stroke presses the
//!   ball down a little more;
//! - energy: the surface leaves along e at v·(1 + (5/2)·(a² + b²)·(1 − c·k)), which is what a
//!   restitution along the cue asks for ([`CueBlow`]); at restitution 1 the energy of cue, shaft's end
//!   and ball is kept.

mod blow;
mod jump;
mod strike;

pub use blow::CueBlow;
pub use jump::{CLOTH_RESTITUTION, NOTED_HOP_M};
pub use strike::{Stroke, StrokeError, StruckBall};

#[cfg(test)]
mod tests;

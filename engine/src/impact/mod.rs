//! Ball against cushion, the rail models, and ball against ball.
//!
//! Axes of an impact at a cushion: x along the cushion, y into the cushion, z up, right-handed. A model takes
//! the ball's velocity and spin when contact begins and returns them when it ends; the place does
//! not change (a contact that lasts belongs to the compliant model).

mod ball_ball;
mod bounce;
mod falling_friction;
mod model;
mod nose_and_cloth;
mod nose_only;
mod planar;

pub use ball_ball::{
    BallHit, Body, approach_speed, ball_ball, effective_mass, with_normal_impulse,
};
pub use bounce::{Bounce, CushionContact, Rebound};
pub use model::{bounce, bounce_many};
pub use nose_and_cloth::{ImpactTrace, nose_and_cloth, nose_and_cloth_many, nose_and_cloth_traced};
pub use nose_only::nose_only;
pub use planar::planar;

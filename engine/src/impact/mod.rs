//! Ball against cushion: the rail models.
//!
//! Axes of an impact: x along the cushion, y into the cushion, z up, right-handed. A model takes
//! the ball's velocity and spin when contact begins and returns them when it ends; the place does
//! not change (a contact that lasts belongs to the compliant model).

mod bounce;
mod nose_and_cloth;
mod nose_only;
mod planar;

pub use bounce::{Bounce, CushionContact, Rebound, bounce};
pub use nose_and_cloth::{ImpactTrace, nose_and_cloth, nose_and_cloth_traced};
pub use nose_only::nose_only;
pub use planar::planar;

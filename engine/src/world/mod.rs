//! The table as a world of solid surfaces: noses between the pockets, jaws with rounded points, drop
//! lines, and obstacles. One builder makes it, and it is the only source of geometry for shots,
//! placements and pictures. Balls' motion and impacts are not known here.
//!
//! [`World`] holds each surface once, as plain shapes and as colliders of rapier2d ([`Solid`]);
//! [`CentreBoundaries`] is the same world for the centre of a ball, every surface moved towards the table by
//! the ball's reach, which turns a touch into a crossing of lines and circles.

mod boundary;
mod build;
mod centre_boundaries;
mod error;
mod jaws;
mod obstacle;
mod placement;
mod solid;
mod surface;

pub use boundary::{Boundary, BoundaryShape};
pub use build::World;
pub use centre_boundaries::{CentreBoundaries, Meeting, PocketBoundaries};
pub use error::WorldError;
pub use jaws::{DropLine, PocketWorld};
pub use obstacle::Obstacle;
pub use solid::{Solid, SolidShape};
pub use surface::{JawPart, JawSide, Owner, Shape, Surface};

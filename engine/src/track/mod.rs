//! A bank off a phone's film: the motion of a ball before and after the rail, with its uncertainty.
//!
//! *Image to table.* Marks whose places on the table are known give the plane map of the image (normalised direct
//! linear transform: R. Hartley and A. Zisserman 2004, Multiple View Geometry, algorithm 4.2, from memory). A lens
//! that bends straight lines is not undone.
//!
//! *Motion.* A ball that slides, and one that rolls, has a constant acceleration, so its place is p + v·t + a·t²/2
//! exactly (Coriolis 1835). The film is split in two where two such fits leave the least squares; a side that two
//! fits tell better than one (slide, then roll) is read on the stretch next to the rail. Points between the ball's
//! coming to the groove and its leaving are left out.
//!
//! *Uncertainty.* The scatter about the fits, with n − 3 degrees of freedom for each coordinate of each side, gives
//! the covariance σ²(XᵀX)⁻¹. What is told is linear in it to first order, and so in the marks, which are clicked as
//! well as the ball or as they fit. An interval is Student's (Student 1908, Biometrika 6).

mod amounts;
mod error;
mod homography;
mod legs;
mod parabola;
mod stretch;
mod students_t;
mod tracked;

pub use amounts::{AMOUNTS, TrackAmount};
pub use error::TrackError;
pub use homography::{Homography, Mark};
pub use students_t::students_t;
pub use tracked::{RollAtRail, TrackPoint, TrackedBank};

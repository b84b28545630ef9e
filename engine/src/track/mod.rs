//! A bank off a phone's film: the motion of a ball before and after the rail, with its uncertainty.
//!
//! *Image to table.* Marks whose places on the table are known give the plane map of the image (normalised direct
//! linear transform: R. Hartley and A. Zisserman 2004, Multiple View Geometry, algorithm 4.2, from memory). A lens
//! that bends straight lines is undone before by one radial coefficient ([`Lens`]), where that is given or six marks or
//! more are to tell it: the one with which the marks fit best, by the squares in the picture.
//!
//! *Motion.* A ball that slides, and one that rolls, has a constant acceleration, so its place is p + v·t + a·t²/2
//! exactly (Coriolis 1835). The rail is the one that the ball comes furthest out to; near it the film is split in two
//! where two such fits leave the least squares. A side that two fits tell better than one (slide, then roll) is read
//! on the stretch next to the rail. Points between the ball's
//! coming to the groove and its leaving are left out.
//!
//! *Uncertainty.* Every click is off by the same σ in the picture, the marks' as well as the ball's (or as the marks
//! fit, if that is worse). σ² is the sum of squares that the fits leave there, over n − 3 for each coordinate of each
//! side. The amounts are linear in all clicks to first order, which gives their variances; an interval is Student's
//! (Student 1908, Biometrika 6). A change from sliding to rolling that hides in the scatter is not in them: over films
//! that go on into the roll, 84 in 100 hold the speed after the rail where 90 should.

mod amounts;
mod error;
mod homography;
mod legs;
mod lens;
mod parabola;
mod picture_map;
mod stretch;
mod students_t;
mod tracked;

pub use amounts::{AMOUNTS, TrackAmount};
pub use error::TrackError;
pub use homography::{Homography, TableMark};
pub use lens::{Lens, LensKnown, PictureSize};
pub use students_t::students_t;
pub use tracked::{RollAtRail, TrackPoint, TrackedBank};

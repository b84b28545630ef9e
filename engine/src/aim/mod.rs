//! Questions asked of a whole bank, from the tip to the pocket: the aim that sends the object ball along
//! a line, the side that gears, the overcut, the aims and speeds that still make it, the kisses, and the
//! place from which a ball goes round several rails. Each answer plays shots and solves; a question without
//! an answer gives the reason.

mod compensation;
mod error;
mod hit;
mod kick;
mod kiss;
mod line;
mod round;
mod route;
mod sending;
mod setup;
mod ways;
mod window;

pub use compensation::{Comparison, Compensation, StrokeStudy, compare, gear, overcut};
pub use error::NoAim;
pub use hit::{FirstHit, first_hit};
pub use kick::kick;
pub use kiss::{KissStudy, least_angle, least_gap};
pub use line::{Aim, aim_again, aim_along};
pub use route::{Route, RouteStart, SendOff, route_start};
pub use sending::Sending;
pub use setup::{CUE, LineSetup, OBJECT, Setup};
pub use ways::{NoWay, Way, ways};
pub use window::{AimWindow, aims_that_make, intervals, speeds_that_make};

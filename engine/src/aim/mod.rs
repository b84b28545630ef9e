//! Questions asked of a whole bank, from the tip to the pocket: which aim sends the object ball along a
//! line, what side gears, how much to overcut, which aims and speeds still make it, what kisses, and
//! where a ball must start to go round several rails. Each answer plays shots and solves; each says
//! when there is none, and why.

mod compensation;
mod error;
mod hit;
mod kick;
mod kiss;
mod line;
mod round;
mod route;
mod setup;
mod ways;
mod window;

pub use compensation::{Comparison, Compensation, StrokeStudy, compare, gear, overcut};
pub use error::NoAim;
pub use hit::{FirstHit, first_hit};
pub use kick::kick;
pub use kiss::{KissStudy, least_angle, least_gap};
pub use line::{Aim, aim_along};
pub use route::{Route, RouteStart, SendOff, route_start};
pub use setup::{CUE, LineSetup, OBJECT, Setup};
pub use ways::{NoWay, Way, ways};
pub use window::{AimWindow, aims_that_make, intervals, speeds_that_make};

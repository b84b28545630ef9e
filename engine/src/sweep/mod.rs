//! Many banks: axes, points, outcomes, and the verdict that they give on a rule.

mod aiming;
mod compare;
mod cursor;
mod error;
mod fit_line;
mod input;
mod lags;
mod order_free_sum;
mod plan;
mod player;
mod point;
mod ranking;
mod starts;
mod tables;
mod tally;

pub(crate) use aiming::ruled_line;
pub use compare::{Row, compare};
pub use cursor::PlanCursor;
pub use error::PlanError;
pub use fit_line::{LineFit, fit_through_origin, fit_with_offset};
pub use input::Input;
pub use lags::LagSpeeds;
pub use order_free_sum::OrderFreeSum;
pub use plan::{Axis, MAX_ROWS, Plan, Span, Values};
pub use player::{AxisColumn, Failure, PlayedRows, Player};
pub use point::PointValues;
pub use ranking::{RuleStanding, rank};
pub use starts::{StartRow, exact_starts};
pub use tables::Tables;
pub use tally::{MOST_VERDICTS, Tally};

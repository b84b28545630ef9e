//! Many banks: axes, points, outcomes, and what they show about a rule.

mod compare;
mod error;
mod fit_line;
mod input;
mod plan;
mod summary;

pub use compare::{Row, StartRow, compare, exact_starts, point_label};
pub use error::PlanError;
pub use fit_line::{LineFit, fit_through_origin, fit_with_offset};
pub use input::Input;
pub use plan::{Axis, MAX_ROWS, Plan, Values};
pub use summary::{RuleStanding, Summary, rank};

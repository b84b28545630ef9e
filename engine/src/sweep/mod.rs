//! Many banks: axes, points, outcomes, and what they show about a rule.

mod compare;
mod cursor;
mod error;
mod fit_line;
mod input;
mod plan;
mod player;
mod summary;
mod tally;

pub use compare::{Row, StartRow, compare, exact_starts, point_label};
pub use cursor::{PlanCursor, PointValues};
pub use error::PlanError;
pub use fit_line::{LineFit, fit_through_origin, fit_with_offset};
pub use input::Input;
pub use plan::{Axis, MAX_ROWS, Plan, Span, Values};
pub use player::{AxisColumn, Failure, PlayedRows, Player};
pub use summary::{RuleStanding, Summary, rank};
pub use tally::{MOST_VERDICTS, Tally};

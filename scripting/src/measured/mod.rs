//! Measured banks, as people write them down: a CSV file, a bank a row.
//!
//! Every refusal names the row and the column. Nothing here decides what a bank says about a table.

mod column;
mod file;
mod row;

pub use column::MeasuredColumn;
pub use file::{MOST_BANKS, Measurements, parse_measurements, read_measurements, template};

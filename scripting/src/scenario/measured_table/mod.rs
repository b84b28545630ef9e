//! `fit { banks, on }`, `measured_table "table.json"`, `unmeasured_table(hall)` and `practice_table(hall)`: all
//! the tables that one could be, as banks, published ranges or common practice let it be known.

mod answers;
mod made;
pub mod object;
mod planned;

pub use made::install;

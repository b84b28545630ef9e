//! A table's ensemble: narrowed by measured banks, kept as a file, read again.

mod ensemble_file;
mod findings;
mod known_table;
mod number_text;

pub use ensemble_file::{FEWEST_MEMBERS, read_table, table_text};
pub use findings::{FitFindings, FitQuestion, NumberFindings, PredictedBank};
pub use known_table::KnownEnsemble;
pub use number_text::NumberUnit;

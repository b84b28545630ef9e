//! The output folder of a run: pictures, rows and the record of how they came about.
//!
//! Every file is either whole or not there, and `run.json` is written last: where it stands, the
//! rest is complete.

mod columns;
mod hash;
mod whole_file;

pub use columns::column_name;
pub use hash::plan_sha256;
pub use whole_file::{make_folder, write_whole};

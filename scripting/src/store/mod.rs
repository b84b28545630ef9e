//! The output folder of a run: pictures, rows and the record of their origin.
//!
//! Every file is either whole or not there, and `run.json` is written last: where it stands, the
//! rest is complete. No file holds a time or a path of the machine, so the same scenario gives the
//! same bytes.

mod columns;
mod folder;
mod frontier_csv;
mod hash;
mod names;
mod provenance;
mod rows_csv;
mod shots_csv;
mod spreadsheet;
mod starts_csv;
#[cfg(test)]
mod tests;

pub use folder::{RUN_FILE, RunFiles, TableCells, default_folder, earlier_pictures, write_folder};
pub use hash::question_sha256;
pub use names::safe as safe_name;

use std::path::Path;

/// A path's last part: the rest belongs to the machine.
fn pretty_file_name(path: &Path) -> String {
    path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned())
}

//! A sweep played in shards: one Parquet file each, whole or not there, the same bytes however it
//! came about.
//!
//! `plan.json` holds the plan; `shards/` holds the files, each named by its number and its
//! content's digest; `manifest.json` is written last, when all are there. What a bank does is
//! decided in the engine; what is asked for on the command line, in [`crate::command`].

mod cells;
mod cells_file;
mod column_file;
mod columns;
mod count;
mod details;
mod encode;
mod estimate;
mod field_notes;
mod finish;
mod folder;
mod measure_columns;
mod names;
mod notes;
mod play;
mod row_choice;
mod rows;
mod run;
mod share;
mod shot_rows;
mod text;
mod verify;

pub use count::Reasons;
pub use estimate::{Estimate, estimate};
pub use finish::{SweepTotals, finish, missing};
pub use folder::{
    FAILED, Folder, Inventory, MANIFEST_FILE, MAP_FILE, PLAN_FILE, SHARDS, ShardFile,
};
pub use notes::ShardNote;
pub use play::{PlayOptions, SweepWatch, play_shards};
pub use share::Share;
pub use text::{TextForm, check_text, write_text};
pub use verify::{FolderDefects, verify};

//! Things that these tests share: invented plans, folders with their digests, the program, rows read back.

mod folders;
mod plans;
mod program;
mod rows;

pub use folders::{Digests, change, digests, files, same_but_for, unfinished};
pub use plans::{Planned, Recipe, play, play_all, quiet};
pub use program::{Place, ProgramRun};
pub use rows::{Fields, json_of, rows_of, rows_of_file, text_of_file, words};

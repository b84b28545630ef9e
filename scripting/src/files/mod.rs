//! Files as they are read and written everywhere: only ordinary ones are read, and one that is written is
//! whole or not there.

mod disk;
mod made;
mod near;
pub(crate) mod ordinary;
pub(crate) mod reach;
mod results;
pub(crate) mod told_path;
mod whole;

pub(crate) use disk::hurry;
use std::path::{Path, PathBuf};

pub use disk::{Disk, Fill, RealDisk, UNFINISHED, publish};
pub(crate) use made::MadeFolders;
pub(crate) use near::near_name;
pub(crate) use results::{check_no_link, folder_named_for};
pub use whole::{apart_from, check_free_for_file, free_for_folder, make_folder, write_whole};
pub(crate) use whole::{cannot_read, remove, remove_unfinished};

/// The folder in which a file lies.
pub(crate) fn folder_of(file: &Path) -> PathBuf {
    match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    }
}

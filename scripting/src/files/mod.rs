//! Files as they are read and written everywhere: only ordinary ones are read, and one that is written is
//! whole or not there.

mod disk;
mod made;
mod near;
pub(crate) mod ordinary;
pub(crate) mod reach;
pub(crate) mod told_path;
mod whole;

pub use disk::{Disk, Fill, RealDisk, UNFINISHED, publish};
pub(crate) use disk::hurry;
pub(crate) use made::MadeFolders;
pub(crate) use near::near_name;
pub use whole::{apart_from, free_for_folder, make_folder, write_whole};
pub(crate) use whole::{cannot_read, remove, remove_unfinished};

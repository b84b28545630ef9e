//! Files as they are read and written everywhere: only ordinary ones are read, and one that is written is
//! whole or not there.

mod disk;
pub(crate) mod ordinary;
mod whole;

pub use disk::{Disk, Fill, RealDisk, UNFINISHED, publish};
pub(crate) use whole::{cannot_read, remove, remove_unfinished};
pub use whole::{make_folder, write_whole};

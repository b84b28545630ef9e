//! Files that are read: ordinary ones only. Opening a pipe would wait for its other end, and a device
//! may never end.

use super::reach;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

/// Opens an ordinary file to be read, without ever waiting for another program.
///
/// # Errors
/// A folder, anything else that is no ordinary file, or what the system says.
pub(crate) fn open(path: &Path) -> io::Result<File> {
    // Asked before opening, which would wait.
    reach::check(path)?;
    let about = fs::metadata(path)?;
    if about.is_dir() {
        return Err(io::Error::new(
            ErrorKind::IsADirectory,
            "it is a folder, not an ordinary file",
        ));
    }
    if !about.is_file() {
        return Err(io::Error::new(ErrorKind::Unsupported, "it is not an ordinary file"));
    }
    File::open(path)
}

/// The bytes of an ordinary file.
///
/// # Errors
/// As [`open`].
pub(crate) fn read(path: &Path) -> io::Result<Vec<u8>> {
    read_at_most(path, u64::MAX)
}

/// The first bytes of an ordinary file.
///
/// # Errors
/// As [`open`].
pub(crate) fn read_at_most(path: &Path, most: u64) -> io::Result<Vec<u8>> {
    let file = open(path)?;
    let size = file.metadata().map_or(0, |about| about.len().min(most));
    let mut bytes = Vec::new();
    // What can't be kept in memory is an error, and no panic.
    bytes.try_reserve_exact(usize::try_from(size).unwrap_or(usize::MAX))?;
    file.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// True for the errors of [`open`] that say that something else than a file is there.
pub(crate) fn is_misplaced(error: &io::Error) -> bool {
    matches!(error.kind(), ErrorKind::IsADirectory | ErrorKind::Unsupported)
}

/// The link on the way to a path that leads to nothing, or round in a circle.
pub(crate) fn broken_link(path: &Path) -> Option<PathBuf> {
    let broken = |path: &&Path| path.is_symlink() && fs::metadata(path).is_err();
    path.ancestors().filter(|_| reach::reaches(path)).find(broken).map(Path::to_owned)
}

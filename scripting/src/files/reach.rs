//! The folders from which this process reads. Without any set, it reads what the system lets it.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

static FOLDERS: OnceLock<Vec<PathBuf>> = OnceLock::new();

/// Keeps this process from then on to files in or under these folders, wherever links to them lie, and to these
/// files. The first call stays.
pub(crate) fn keep_to(folders: &[PathBuf]) {
    let real = folders.iter().filter_map(|folder| fs::canonicalize(folder).ok()).collect();
    let _ = FOLDERS.set(real);
}

/// Whether a path lies inside, by the nearest of its folders that is there.
pub(super) fn reaches(path: &Path) -> bool {
    let Some(folders) = FOLDERS.get() else { return true };
    let here = Path::new(".");
    let there = path.ancestors().map(|it| if it.as_os_str().is_empty() { here } else { it });
    let real = there.chain([here]).find_map(|it| fs::canonicalize(it).ok());
    real.is_some_and(|real| folders.iter().any(|folder| real.starts_with(folder)))
}

/// Refuses a file that lies outside, or to which a link leads out, whether it is there or not.
///
/// # Errors
/// In words that name no more than the way in.
pub(super) fn check(path: &Path) -> io::Result<()> {
    if reaches(path) {
        return Ok(());
    }
    Err(io::Error::new(ErrorKind::PermissionDenied, OUTSIDE))
}

/// Said of what lies outside.
const OUTSIDE: &str =
    "it lies outside the folders that may be read here; --read FOLDER allows one more";

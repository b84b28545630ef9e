//! The folders from which this process reads. Without any set, it reads what the system lets it.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Component, Path, PathBuf};
use std::sync::OnceLock;

static FOLDERS: OnceLock<Vec<PathBuf>> = OnceLock::new();

/// Keeps this process from then on to files in or under these folders, wherever links to them lie, and to these
/// files. The first call stays.
pub(crate) fn keep_to(folders: &[PathBuf]) {
    let _ = FOLDERS.set(folders.iter().filter_map(|folder| real(folder)).collect());
}

/// Where a path leads: by the nearest of its folders that is there, and its own words from there on.
fn real(path: &Path) -> Option<PathBuf> {
    let here = Path::new(".");
    let path = if path.as_os_str().is_empty() { here } else { path };
    let path = std::path::absolute(path).ok()?;
    let (there, found) = path.ancestors().find_map(|it| Some((it, fs::canonicalize(it).ok()?)))?;
    let rest = path.strip_prefix(there).ok()?;
    let plain = rest.components().all(|part| matches!(part, Component::Normal(_)));
    plain.then(|| found.join(rest))
}

/// Whether a path lies in or under a folder, wherever links on the way lead.
pub(crate) fn lies_in(folder: &Path, path: &Path) -> bool {
    match (real(folder), real(path)) {
        (Some(folder), Some(path)) => path.starts_with(folder),
        _ => false,
    }
}

/// Whether a path lies inside.
pub(super) fn reaches(path: &Path) -> bool {
    let Some(folders) = FOLDERS.get() else { return true };
    real(path).is_some_and(|real| folders.iter().any(|folder| real.starts_with(folder)))
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

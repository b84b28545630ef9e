//! A file that is either whole or not there: written under another name, then renamed.

use crate::exit::Exit;
use crate::fault::Fault;
use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::Path;

/// How names of files begin that are not finished.
const UNFINISHED_PREFIX: &str = ".unfinished-";

/// Writes a file through `fill` to a temporary name in the same folder and renames it when all of
/// it is on the disk. Whatever stood under the name stays until then. A link is followed, and what
/// is no ordinary file (a device, a pipe) is written into: renaming over it would take it away.
///
/// # Errors
/// [`Exit::CouldNotFinish`] with the path, when the disk is full or the folder can't be written.
pub fn write_whole(
    path: &Path,
    fill: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), Fault> {
    try_write(path, fill).map_err(|error| cannot_write(path, &error))
}

fn try_write(path: &Path, fill: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> io::Result<()> {
    if fs::metadata(path).is_ok_and(|there| !there.is_file() && !there.is_dir()) {
        let mut writer = BufWriter::new(File::options().write(true).open(path)?);
        fill(&mut writer)?;
        return writer.flush();
    }
    let target = if path.is_symlink() { fs::canonicalize(path)? } else { path.to_owned() };
    let path = target.as_path();
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if path.is_dir() {
        return Err(io::Error::other("there is a folder of that name"));
    }
    let mut builder = tempfile::Builder::new();
    builder.prefix(UNFINISHED_PREFIX);
    readable_by_all(&mut builder);
    let unfinished = builder.tempfile_in(folder)?;
    let mut writer = BufWriter::with_capacity(1 << 16, unfinished);
    fill(&mut writer)?;
    let unfinished = writer.into_inner().map_err(io::IntoInnerError::into_error)?;
    unfinished.as_file().sync_data()?;
    unfinished.persist(path).map(|_: File| ()).map_err(|refused| refused.error)
}

/// Results are shared like any other file; temporary files usually are not. The user's mask still
/// applies.
#[cfg(unix)]
fn readable_by_all(builder: &mut tempfile::Builder<'_, '_>) {
    use std::os::unix::fs::PermissionsExt;
    builder.permissions(fs::Permissions::from_mode(0o666));
}

#[cfg(not(unix))]
fn readable_by_all(_: &mut tempfile::Builder<'_, '_>) {}

/// Makes a folder and those above it.
///
/// # Errors
/// [`Exit::CouldNotFinish`] with the path.
pub fn make_folder(path: &Path) -> Result<(), Fault> {
    match fs::create_dir_all(path) {
        Ok(()) => Ok(()),
        Err(error) => {
            let fault = cannot_write(path, &error);
            Err(if path.is_file() {
                fault.with_hint("there is a file of that name where the folder should be")
            } else {
                fault
            })
        }
    }
}

/// Removes a file; one that is not there is fine.
///
/// # Errors
/// [`Exit::CouldNotFinish`] with the path.
pub(super) fn remove(path: &Path) -> Result<(), Fault> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(cannot_write(path, &error)),
        _ => Ok(()),
    }
}

/// Removes what an interrupted run left unfinished in a folder.
pub(super) fn remove_unfinished(folder: &Path) -> Result<(), Fault> {
    let entries = fs::read_dir(folder).map_err(|error| cannot_write(folder, &error))?;
    for entry in entries.flatten() {
        if entry.file_name().to_string_lossy().starts_with(UNFINISHED_PREFIX) {
            remove(&entry.path())?;
        }
    }
    Ok(())
}

/// A file that stands there but can't be read.
pub(super) fn cannot_read(path: &Path, error: &io::Error) -> Fault {
    Fault::new(Exit::CouldNotFinish, format!("`{}` can't be read: {error}", path.display()))
}

fn cannot_write(path: &Path, error: &io::Error) -> Fault {
    // The temporary name says nothing to a person, so only the reason is kept.
    let reason = error.get_ref().map_or_else(|| error.to_string(), |_| plain_reason(error));
    Fault::new(Exit::CouldNotFinish, format!("`{}` can't be written: {reason}", path.display()))
}

/// The reason without the temporary path that is wrapped around it.
fn plain_reason(error: &io::Error) -> String {
    let text = error.to_string();
    match text.rfind(" at path ") {
        Some(at) => text[..at].to_owned(),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn a_failure_half_way_leaves_the_old_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("rows.csv");
        write_whole(&path, |file| file.write_all(b"old")).unwrap();
        let failed = write_whole(&path, |file| {
            file.write_all(&vec![b'x'; 1 << 18])?;
            Err(io::ErrorKind::StorageFull.into())
        });
        let fault = failed.unwrap_err();
        assert_eq!(fault.exit, Exit::CouldNotFinish);
        assert!(fault.message.contains("rows.csv"), "{fault}");
        assert_eq!(fs::read(&path).unwrap(), b"old");
        assert_eq!(names(folder.path()), ["rows.csv"]);
    }

    #[test]
    fn what_stands_in_the_way_is_named() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("taken");
        fs::write(&file, "").unwrap();
        let fault = make_folder(&file).unwrap_err();
        assert_eq!(fault.exit, Exit::CouldNotFinish);
        assert!(fault.hint.unwrap().contains("file of that name"));
        assert!(write_whole(&file.join("x"), |_| Ok(())).is_err());
        let sub = folder.path().join("sub");
        fs::create_dir(&sub).unwrap();
        let fault = write_whole(&sub, |_| Ok(())).unwrap_err();
        assert!(fault.message.contains("folder of that name"), "{fault}");
        assert_eq!(names(folder.path()), ["sub", "taken"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_or_a_device_is_written_through_and_stays() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().unwrap();
        let (file, link) = (folder.path().join("file"), folder.path().join("link"));
        fs::write(&file, "old").unwrap();
        symlink(&file, &link).unwrap();
        write_whole(&link, |out| out.write_all(b"new")).unwrap();
        assert!(link.is_symlink());
        assert_eq!(fs::read(&file).unwrap(), b"new");
        // Through a link, so that a mistake costs the link and not the machine's device.
        let nowhere = folder.path().join("nowhere");
        symlink("/dev/null", &nowhere).unwrap();
        write_whole(&nowhere, |out| out.write_all(b"lost")).unwrap();
        assert!(nowhere.is_symlink());
        let full = folder.path().join("full");
        symlink("/dev/full", &full).unwrap();
        let fault = write_whole(&full, |out| out.write_all(b"lost")).unwrap_err();
        assert_eq!(fault.exit, Exit::CouldNotFinish);
        assert!(full.is_symlink());
    }

    #[test]
    fn what_an_interrupted_run_left_is_swept_away() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join(".unfinished-abc"), "half").unwrap();
        fs::write(folder.path().join("notes.txt"), "mine").unwrap();
        remove_unfinished(folder.path()).unwrap();
        assert_eq!(names(folder.path()), ["notes.txt"]);
    }
}

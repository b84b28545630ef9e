//! Files that a user names, and their folders.

use super::disk::{Fill, RealDisk, UNFINISHED, publish};
use crate::exit::Exit;
use crate::fault::Fault;
use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// Puts a whole file on the disk under its name, written by `fill`. Whatever stood under the name stays
/// until then. A link to a file is replaced, so that nothing elsewhere is changed.
///
/// # Errors
/// [`Exit::CouldNotFinish`] with the path, when the disk is full or the folder can't be written; as of
/// [`check_free_for_file`].
pub fn write_whole(
    path: &Path,
    mut fill: impl FnMut(&mut dyn Write) -> io::Result<()>,
) -> Result<(), Fault> {
    check_free_for_file(path)?;
    try_write(path, &mut fill).map_err(|error| cannot_write(path, &error))
}

/// Refuses a place where no file can be put: a folder stands there, or a pipe, whose other end would be waited for, or a
/// device. Asked before work whose results go there.
///
/// # Errors
/// Bad input with the path.
pub fn check_free_for_file(path: &Path) -> Result<(), Fault> {
    let Ok(about) = fs::metadata(path) else { return Ok(()) };
    let shown = path.display();
    let message = if about.is_dir() {
        format!("`{shown}` is a folder, where a file should be written")
    } else if about.is_file() {
        return Ok(());
    } else {
        format!("`{shown}` is not an ordinary file, and nothing is written to it")
    };
    Err(Fault::bad_input(message).with_hint("give the name of a file"))
}

/// Refuses to write where one of the files that are read stands.
///
/// # Errors
/// Bad input with the path.
pub fn apart_from<'a>(
    path: &Path,
    inputs: impl IntoIterator<Item = &'a Path>,
) -> Result<(), Fault> {
    let Ok(target) = fs::canonicalize(path) else { return Ok(()) };
    for input in inputs {
        if fs::canonicalize(input).is_ok_and(|input| input == target) {
            let message = format!("`{}` is read here and can't be written over", path.display());
            return Err(Fault::bad_input(message).with_hint("give another file to write"));
        }
    }
    Ok(())
}

fn try_write(path: &Path, fill: Fill<'_>) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let name = path.file_name().ok_or(io::ErrorKind::InvalidFilename)?;
    publish(&RealDisk, folder, name, fill)
}

/// Makes a folder and those above it.
///
/// # Errors
/// [`Exit::CouldNotFinish`] with the path; bad input when a file stands there.
pub fn make_folder(path: &Path) -> Result<(), Fault> {
    free_for_folder(path)?;
    fs::create_dir_all(path).map_err(|error| cannot_write(path, &error))
}

/// Refuses a folder in whose place, or above it, something else stands.
///
/// # Errors
/// Bad input with the path of that.
pub fn free_for_folder(path: &Path) -> Result<(), Fault> {
    match path.ancestors().find(|above| above.exists() && !above.is_dir()) {
        Some(file) => {
            let message = format!("`{}` is a file, where a folder should be", file.display());
            Err(Fault::bad_input(message)
                .with_hint("give another folder, or another name to the file"))
        }
        None => Ok(()),
    }
}

/// Removes a file; one that is not there is fine.
///
/// # Errors
/// [`Exit::CouldNotFinish`] with the path.
pub fn remove(path: &Path) -> Result<(), Fault> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(cannot_write(path, &error)),
        _ => Ok(()),
    }
}

/// Removes what an interrupted run left unfinished in a folder.
pub fn remove_unfinished(folder: &Path) -> Result<(), Fault> {
    let entries = fs::read_dir(folder).map_err(|error| cannot_write(folder, &error))?;
    for entry in entries.flatten() {
        if entry.file_name().to_string_lossy().starts_with(UNFINISHED) {
            remove(&entry.path())?;
        }
    }
    Ok(())
}

/// A file that stands there but can't be read.
pub fn cannot_read(path: &Path, error: &io::Error) -> Fault {
    Fault::new(Exit::CouldNotFinish, format!("`{}` can't be read: {error}", path.display()))
}

fn cannot_write(path: &Path, error: &io::Error) -> Fault {
    let shown = path.display();
    let fault = Fault::new(Exit::CouldNotFinish, format!("`{shown}` can't be written: {error}"));
    match error.kind() {
        io::ErrorKind::FileTooLarge => {
            fault.with_hint("that is the system's limit for a file (ulimit -f), or its disk's")
        }
        _ => fault,
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
        for inside in [file.clone(), file.join("in/side")] {
            let fault = make_folder(&inside).unwrap_err();
            assert_eq!(fault.exit, Exit::BadInput);
            assert!(fault.message.contains("taken` is a file, where a folder"), "{fault}");
        }
        assert!(write_whole(&file.join("x"), |out| out.write_all(b"")).is_err());
        let sub = folder.path().join("sub");
        fs::create_dir(&sub).unwrap();
        let fault = write_whole(&sub, |out| out.write_all(b"")).unwrap_err();
        assert!(fault.message.contains("sub` is a folder, where a file"), "{fault}");
        assert_eq!(fault.exit, Exit::BadInput);
        assert_eq!(names(folder.path()), ["sub", "taken"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_replaced_and_what_is_no_file_is_refused_at_once() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().unwrap();
        let (file, link) = (folder.path().join("file"), folder.path().join("link"));
        fs::write(&file, "old").unwrap();
        symlink(&file, &link).unwrap();
        write_whole(&link, |out| out.write_all(b"new")).unwrap();
        assert!(!link.is_symlink());
        assert_eq!(
            (fs::read(&file).unwrap(), fs::read(&link).unwrap()),
            (b"old".into(), b"new".into())
        );
        // Through a link, so that a mistake costs the link and not the machine's device.
        for (name, device) in [("nowhere", "/dev/null"), ("full", "/dev/full")] {
            let place = folder.path().join(name);
            symlink(device, &place).unwrap();
            let fault = write_whole(&place, |out| out.write_all(b"lost")).unwrap_err();
            assert_eq!(fault.exit, Exit::BadInput);
            assert!(fault.message.contains("is not an ordinary file"), "{fault}");
            assert!(place.is_symlink());
        }
        // Opening a pipe would wait for somebody who reads it.
        let pipe = folder.path().join("pipe");
        assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
        assert!(write_whole(&pipe, |out| out.write_all(b"lost")).is_err());
        assert!(make_folder(&pipe.join("in")).is_err_and(|fault| fault.exit == Exit::BadInput));
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

//! Putting a file on the disk so that it is whole or not there, whatever happens meanwhile.

use std::ffi::{OsStr, OsString};
use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

/// The beginning of the names of unfinished files.
pub const UNFINISHED: &str = ".unfinished-";

/// Writes all of a file; asked again when the file was taken away meanwhile.
pub type Fill<'a> = &'a mut dyn FnMut(&mut dyn Write) -> io::Result<()>;

/// The steps of putting a file on the disk; a test makes them fail one by one.
pub trait Disk: Sync {
    /// Writes a new file whole, without waiting for the disk.
    ///
    /// # Errors
    /// The system's own error.
    fn write(&self, path: &Path, fill: Fill<'_>) -> io::Result<()>;
    /// Waits until a file is on the disk.
    ///
    /// # Errors
    /// The system's own error.
    fn sync(&self, path: &Path) -> io::Result<()>;
    /// Gives a file its name; whatever stood under it is gone.
    ///
    /// # Errors
    /// The system's own error.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Waits until a folder's names are on the disk.
    ///
    /// # Errors
    /// The system's own error.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;
}

/// Whether nothing waits for the disk any more.
static HURRIED: AtomicBool = AtomicBool::new(false);

/// From now on files are whole under their names, but nobody waits until they are on the disk: a process that is about
/// to be ended has no time for it.
pub(crate) fn hurry() {
    HURRIED.store(true, Ordering::Relaxed);
}

fn hurried() -> bool {
    HURRIED.load(Ordering::Relaxed)
}

/// The disk itself.
#[derive(Debug, Clone, Copy, Default)]
pub struct RealDisk;

impl Disk for RealDisk {
    fn write(&self, path: &Path, fill: Fill<'_>) -> io::Result<()> {
        let mut file = BufWriter::with_capacity(1 << 16, File::create_new(path)?);
        fill(&mut file)?;
        file.flush()
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        if hurried() { Ok(()) } else { File::options().write(true).open(path)?.sync_all() }
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        if cfg!(unix) && !hurried() { File::open(path)?.sync_all() } else { Ok(()) }
    }
}

/// Times that a file is written at most, when another process takes it away unfinished.
const TRIES: usize = 4;

/// Writes a file under another name in its folder, waits for the disk, gives it its name and waits
/// again. When a step fails the unfinished file is taken away.
///
/// Another process that begins on the same folder may take it for a leftover and remove it; then it
/// is written again.
///
/// # Errors
/// The step that failed; the file is then either as it was before or, when only the last wait
/// failed, the new one.
pub fn publish(
    disk: &dyn Disk,
    folder: &Path,
    name: impl AsRef<OsStr>,
    fill: Fill<'_>,
) -> io::Result<()> {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |time| time.as_nanos());
    let name = name.as_ref();
    let mut unfinished = OsString::from(UNFINISHED);
    unfinished.push(name);
    unfinished.push(format!("-{}-{now}", std::process::id()));
    let unfinished = folder.join(unfinished);
    let mut put = || {
        disk.write(&unfinished, &mut *fill)
            .and_then(|()| disk.sync(&unfinished))
            .and_then(|()| disk.rename(&unfinished, &folder.join(name)))
    };
    let mut done = put();
    for _ in 1..TRIES {
        match &done {
            Err(error) if error.kind() == io::ErrorKind::NotFound => done = put(),
            _ => break,
        }
    }
    if done.is_err() {
        let _ = fs::remove_file(&unfinished);
    }
    done?;
    disk.sync_folder(folder)
}

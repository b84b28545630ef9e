//! One run at a time in a folder: two would take each other's files away.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::MadeFolders;
use std::fs::{File, TryLockError};
use std::path::Path;

/// Held while a run writes to a folder. It is the system's own lock on the folder, and leaves no file behind.
#[derive(Debug)]
pub(super) struct FolderLock {
    _open: Option<File>,
    // Let go after the lock.
    _made: MadeFolders,
}

impl FolderLock {
    /// Takes it, and makes the folder when it is not there. One that can't be made or locked here needs none: whoever
    /// writes there says why.
    ///
    /// # Errors
    /// Another run has it.
    pub(super) fn take(folder: &Path) -> Result<Self, Fault> {
        Self::by(folder, File::try_lock)
    }

    /// Takes a share of it: others may write their shares, and nobody the whole.
    ///
    /// # Errors
    /// Another run has the whole.
    pub(super) fn take_share(folder: &Path) -> Result<Self, Fault> {
        Self::by(folder, File::try_lock_shared)
    }

    fn by(folder: &Path, lock: fn(&File) -> Result<(), TryLockError>) -> Result<Self, Fault> {
        let made = MadeFolders::make(&[folder.to_owned()]);
        // Opening a folder for a lock is Unix's way, and opening anything else may wait.
        let open = folder.is_dir().then(|| File::open(folder).ok()).flatten();
        match open.as_ref().map(lock) {
            Some(Err(TryLockError::WouldBlock)) => Err(Fault::new(
                Exit::CouldNotFinish,
                format!("another run is writing to `{}`", folder.display()),
            )
            .with_hint("wait until it ends, or give another folder with --into")),
            _ => Ok(Self { _open: open, _made: made }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn a_folder_is_for_one_at_a_time() {
        let folder = tempfile::tempdir().unwrap();
        let first = FolderLock::take(folder.path()).unwrap();
        let fault = FolderLock::take(folder.path()).unwrap_err();
        assert!(fault.message.contains("another run"), "{fault}");
        assert!(FolderLock::take_share(folder.path()).is_err());
        drop(first);
        let shares = [(); 2].map(|()| FolderLock::take_share(folder.path()).unwrap());
        assert!(FolderLock::take(folder.path()).is_err());
        drop(shares);
        assert!(FolderLock::take(folder.path()).is_ok());
        let new = folder.path().join("not yet");
        let lock = FolderLock::take(&new).unwrap();
        assert!(FolderLock::take(&new).is_err());
        drop(lock);
        assert!(!new.exists());
    }
}

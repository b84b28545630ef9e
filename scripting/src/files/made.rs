//! Folders that are made in advance: for a lock, or before walls go up around them.

use std::fs;
use std::path::{Path, PathBuf};

/// Folders that were made; those that are still empty at the end go again.
#[derive(Debug)]
pub(crate) struct MadeFolders(Vec<PathBuf>);

impl MadeFolders {
    /// Makes what is missing of these folders. One that can't be made is left to whoever writes there, who says why.
    pub(crate) fn make(folders: &[PathBuf]) -> Self {
        let mut made = Vec::new();
        for folder in folders {
            let mut missing: Vec<&Path> = folder
                .ancestors()
                .take_while(|it| !it.as_os_str().is_empty() && fs::symlink_metadata(it).is_err())
                .collect();
            while let Some(next) = missing.pop() {
                if fs::create_dir(next).is_err() {
                    break;
                }
                made.push(next.to_owned());
            }
        }
        Self(made)
    }
}

impl Drop for MadeFolders {
    fn drop(&mut self) {
        for folder in self.0.iter().rev() {
            // One that holds something stays.
            let _ = fs::remove_dir(folder);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_stays_empty_goes_again() {
        let place = tempfile::tempdir().unwrap();
        let (used, unused) = (place.path().join("a/b"), place.path().join("a/c/d"));
        let made = MadeFolders::make(&[used.clone(), unused.clone()]);
        assert!(used.is_dir() && unused.is_dir());
        fs::write(used.join("kept"), "").unwrap();
        drop(made);
        assert!(used.is_dir());
        assert!(!place.path().join("a/c").exists());
        drop(MadeFolders::make(std::slice::from_ref(&used)));
        assert!(used.join("kept").exists());
    }
}

//! A folder as names and digests.

use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

/// SHA-256 of every file under a folder, by its path from there.
pub type Digests = BTreeMap<String, String>;

/// Looks at every file under a folder; nothing when it is not there.
pub fn digests(folder: &Path) -> Digests {
    let mut found = Digests::new();
    add(folder, "", &mut found);
    found
}

fn add(folder: &Path, before: &str, found: &mut Digests) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries {
        let path = entry.unwrap().path();
        let name = format!("{before}{}", path.file_name().unwrap().to_string_lossy());
        if path.is_dir() {
            add(&path, &format!("{name}/"), found);
        } else if let Ok(bytes) = fs::read(&path) {
            let mut text = String::new();
            for byte in Sha256::digest(&bytes) {
                write!(text, "{byte:02x}").unwrap();
            }
            found.insert(name, text);
        }
    }
}

/// The files that bear an unfinished name.
pub fn unfinished(found: &Digests) -> Vec<&String> {
    found.keys().filter(|name| name.contains("unfinished")).collect()
}

/// Checks that every file of `before` is in `after` and is what it was, but for the named ones.
#[track_caller]
pub fn same_but_for(before: &Digests, after: &Digests, but: &[&str]) {
    for (name, digest) in before {
        if !but.contains(&name.as_str()) {
            assert_eq!(after.get(name), Some(digest), "{name}");
        }
    }
}

/// The files of a folder, sorted.
pub fn files(folder: &Path) -> Vec<PathBuf> {
    let mut paths: Vec<_> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

/// Changes a file's bytes.
pub fn change(path: &Path, how: impl Fn(&mut Vec<u8>)) {
    let mut bytes = fs::read(path).unwrap();
    how(&mut bytes);
    fs::write(path, bytes).unwrap();
}

//! The scenarios under a folder.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::near_name;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Scenarios and stored maps that were found, and folders that could not be looked into.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) files: Vec<PathBuf>,
    /// Stored maps beside them.
    pub(super) baselines: Vec<PathBuf>,
    pub(super) faults: Vec<Fault>,
}

/// Every `*.lua` under these folders, in order of path; a file is taken as it is. Links are followed,
/// and a folder is looked into once however many links lead to it. A folder below one that is named and that
/// can't be looked into is told, and the others are.
///
/// # Errors
/// A path that is not there, or nothing found: a test of nothing is no test.
pub(super) fn scenarios(paths: &[PathBuf]) -> Result<Found, Fault> {
    let mut found = Found::default();
    let mut seen = BTreeSet::new();
    for under in paths {
        let about = fs::metadata(under).map_err(|error| {
            let fault =
                Fault::bad_input(format!("`{}` can't be searched: {error}", under.display()));
            match near_name(under) {
                Some(near) => {
                    fault.with_hint(format!("that folder has `{near}`; did you mean that?"))
                }
                None => fault.with_hint("give the path of a folder with scenarios"),
            }
        })?;
        if about.is_dir() {
            look_into(under, &mut seen, &mut found);
        } else {
            found.files.push(under.clone());
        }
    }
    if found.files.is_empty() {
        if !found.faults.is_empty() {
            return Err(found.faults.swap_remove(0));
        }
        let told: Vec<String> =
            paths.iter().map(|under| format!("`{}`", under.display())).collect();
        return Err(Fault::bad_input(format!("there is no scenario under {}", told.join(" or ")))
            .with_hint("a scenario is a file whose name ends with .lua"));
    }
    found.files.sort();
    // By whatever paths it was found, a file is one.
    let mut known = BTreeSet::new();
    found.files.retain(|file| known.insert(file.canonicalize().unwrap_or_else(|_| file.clone())));
    Ok(found)
}

/// Whether a file is named like a scenario, in letters of whatever case; `.lua` alone is a name too.
pub(super) fn is_scenario(path: &Path) -> bool {
    const ENDING: &[u8] = b".lua";
    let name = path.file_name().unwrap_or_default().as_encoded_bytes();
    let from = name.len().saturating_sub(ENDING.len());
    name[from..].eq_ignore_ascii_case(ENDING)
}

fn look_into(folder: &Path, seen: &mut BTreeSet<PathBuf>, found: &mut Found) {
    let listed = folder.canonicalize().and_then(|real| {
        if !seen.insert(real) {
            return Ok(Vec::new());
        }
        fs::read_dir(folder)?.map(|entry| entry.map(|entry| entry.path())).collect()
    });
    let mut paths = match listed {
        Ok(paths) => paths,
        Err(error) => {
            found.faults.push(Fault::new(
                Exit::CouldNotFinish,
                format!("`{}` can't be searched: {error}", folder.display()),
            ));
            return;
        }
    };
    // In order, so that of several links to one folder the same is taken everywhere.
    paths.sort();
    for path in paths {
        // A link to nowhere is no folder; if it is named like a scenario, running it says so.
        if path.is_dir() {
            look_into(&path, seen, found);
        } else if is_scenario(&path) {
            found.files.push(path);
        } else if path.extension().is_some_and(|ending| ending == "baseline") {
            found.baselines.push(path);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scenarios_come_in_order_and_nothing_is_an_error() {
        let folder = tempfile::tempdir().unwrap();
        let under = |path: &Path| scenarios(&[path.to_owned()]);
        let fault = under(folder.path()).unwrap_err();
        assert_eq!(fault.exit, Exit::BadInput);
        for name in [
            "b.lua",
            "a/z.lua",
            "a/deep/y.lua",
            "notes.txt",
            "a.lua",
            "UP.LUA",
            ".lua",
            "lua",
            "a.luac",
        ] {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, "").unwrap();
        }
        let found: Vec<String> = under(folder.path())
            .unwrap()
            .files
            .iter()
            .map(|path| path.strip_prefix(folder.path()).unwrap().display().to_string())
            .collect();
        assert_eq!(found, [".lua", "UP.LUA", "a/deep/y.lua", "a/z.lua", "a.lua", "b.lua"]);
        assert!(under(&folder.path().join("missing")).is_err());
    }

    #[cfg(unix)]
    #[test]
    fn links_in_a_circle_end() {
        let folder = tempfile::tempdir().unwrap();
        let inner = folder.path().join("inner");
        fs::create_dir(&inner).unwrap();
        fs::write(inner.join("a.lua"), "").unwrap();
        std::os::unix::fs::symlink(folder.path(), inner.join("up")).unwrap();
        std::os::unix::fs::symlink("nowhere", inner.join("lost.lua")).unwrap();
        assert_eq!(scenarios(&[folder.path().to_owned()]).unwrap().files.len(), 2);
    }
}

//! The scenarios under a folder.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::near_name;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Every `*.lua` under a folder, in order of path; a file is taken as it is. Links are followed,
/// and a folder is looked into once however many links lead to it.
///
/// # Errors
/// A path that is not there, a folder that can't be read, or nothing found: a test of nothing is no
/// test.
pub(super) fn scenarios(under: &Path) -> Result<Vec<PathBuf>, Fault> {
    let about = fs::metadata(under).map_err(|error| {
        let fault =
            Fault::bad_input(format!("`{}` can't be looked into: {error}", under.display()));
        match near_name(under) {
            Some(near) => fault.with_hint(format!("that folder has `{near}`; did you mean that?")),
            None => fault.with_hint("give the path of a folder with scenarios"),
        }
    })?;
    if !about.is_dir() {
        return Ok(vec![under.to_owned()]);
    }
    let mut found = Vec::new();
    let mut seen = BTreeSet::new();
    look_into(under, &mut seen, &mut found)?;
    if found.is_empty() {
        return Err(Fault::bad_input(format!("there is no scenario under `{}`", under.display()))
            .with_hint("a scenario is a file whose name ends with .lua"));
    }
    found.sort();
    Ok(found)
}

fn look_into(
    folder: &Path,
    seen: &mut BTreeSet<PathBuf>,
    found: &mut Vec<PathBuf>,
) -> Result<(), Fault> {
    let cannot = |error: std::io::Error| {
        Fault::new(
            Exit::CouldNotFinish,
            format!("`{}` can't be looked into: {error}", folder.display()),
        )
    };
    if !seen.insert(folder.canonicalize().map_err(cannot)?) {
        return Ok(());
    }
    let mut paths = Vec::new();
    for entry in fs::read_dir(folder).map_err(cannot)? {
        paths.push(entry.map_err(cannot)?.path());
    }
    // In order, so that of several links to one folder the same is taken everywhere.
    paths.sort();
    for path in paths {
        // A link to nowhere is no folder; if it is named like a scenario, running it says so.
        if path.is_dir() {
            look_into(&path, seen, found)?;
        } else if path.extension().is_some_and(|ending| ending == "lua") {
            found.push(path);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scenarios_come_in_order_and_nothing_is_an_error() {
        let folder = tempfile::tempdir().unwrap();
        let fault = scenarios(folder.path()).unwrap_err();
        assert_eq!(fault.exit, Exit::BadInput);
        for name in ["b.lua", "a/z.lua", "a/deep/y.lua", "notes.txt", "a.lua"] {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, "").unwrap();
        }
        let found: Vec<String> = scenarios(folder.path())
            .unwrap()
            .iter()
            .map(|path| path.strip_prefix(folder.path()).unwrap().display().to_string())
            .collect();
        assert_eq!(found, ["a/deep/y.lua", "a/z.lua", "a.lua", "b.lua"]);
        assert!(scenarios(&folder.path().join("missing")).is_err());
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
        assert_eq!(scenarios(folder.path()).unwrap().len(), 2);
    }
}

//! The scenarios under a folder.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::near_name;
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Scenarios and stored maps that were found, and folders that could not be looked into.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) files: Vec<PathBuf>,
    /// Stored maps beside them.
    pub(super) baselines: Vec<PathBuf>,
    /// Folders that can't be looked into, and scenarios that lie elsewhere.
    pub(super) faults: Vec<Fault>,
    /// Links to folders elsewhere, which may hold scenarios or not.
    pub(super) notes: Vec<String>,
}

/// Every `*.lua` under these folders, in order of path; a file is taken as it is. Links are followed where they lead into
/// these folders or into those that may be read, and a folder is looked into once however many links lead to it. A folder
/// below one that is named and that can't be looked into is told, and the others are.
///
/// # Errors
/// A path that is not there, or nothing found: a test of nothing is no test.
pub(super) fn scenarios(paths: &[PathBuf], reads: &[PathBuf]) -> Result<Found, Fault> {
    let mut found = Found::default();
    let roots = paths.iter().chain(reads).filter_map(|path| path.canonicalize().ok());
    let mut search = ScenarioSearch { roots: roots.collect(), seen: BTreeSet::new() };
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
            search.look_into(under, &mut found);
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

/// A search, and where it has been.
struct ScenarioSearch {
    /// The folders, and what is in them, to which links may lead.
    roots: Vec<PathBuf>,
    seen: BTreeSet<FolderIdentity>,
}

/// A folder by whatever path: its numbers, or where there are none its real path.
type FolderIdentity = (u64, u64, PathBuf);

#[cfg(unix)]
fn identity(folder: &Path) -> io::Result<FolderIdentity> {
    use std::os::unix::fs::MetadataExt;
    // The real path of a folder that lies deep takes long to find.
    fs::metadata(folder).map(|about| (about.dev(), about.ino(), PathBuf::new()))
}

#[cfg(not(unix))]
fn identity(folder: &Path) -> io::Result<FolderIdentity> {
    folder.canonicalize().map(|real| (0, 0, real))
}

impl ScenarioSearch {
    fn look_into(&mut self, folder: &Path, found: &mut Found) {
        let listed = identity(folder).and_then(|folder_id| {
            if !self.seen.insert(folder_id) {
                return Ok(Vec::new());
            }
            fs::read_dir(folder)?.map(|entry| entry.map(|entry| entry.path())).collect()
        });
        let mut paths = match listed {
            Ok(paths) => paths,
            Err(error) => {
                let shown = folder.display();
                let why = format!("`{shown}` can't be searched: {error}");
                let hint = "what it holds was not run; allow it to be read, or name other folders";
                found.faults.push(Fault::new(Exit::CouldNotFinish, why).with_hint(hint));
                return;
            }
        };
        // In order, so that of several links to one folder the same is taken everywhere.
        paths.sort();
        for path in paths {
            let leads_out = path.is_symlink() && self.leads_out(&path);
            // A link to nowhere is no folder; if it is named like a scenario, running it says so.
            if path.is_dir() {
                if leads_out {
                    found.notes.push(format!(
                        "`{}` is a link to a folder elsewhere and was not searched; --read FOLDER allows that folder",
                        path.display()
                    ));
                } else {
                    self.look_into(&path, found);
                }
            } else if is_scenario(&path) {
                if leads_out {
                    let message = format!(
                        "`{}` is a link to a file elsewhere and was left out",
                        path.display()
                    );
                    let hint =
                        "name it on the command line, or allow its folder with --read FOLDER";
                    found.faults.push(Fault::bad_input(message).with_hint(hint));
                } else {
                    found.files.push(path);
                }
            } else if path.extension().is_some_and(|ending| ending == "baseline") {
                found.baselines.push(path);
            }
        }
    }

    /// Whether a link leads to something outside the folders to which it may.
    fn leads_out(&self, link: &Path) -> bool {
        let Ok(real) = link.canonicalize() else { return false };
        !self.roots.iter().any(|root| real.starts_with(root))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scenarios_come_in_order_and_nothing_is_an_error() {
        let folder = tempfile::tempdir().unwrap();
        let under = |path: &Path| scenarios(&[path.to_owned()], &[]);
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
        assert_eq!(scenarios(&[folder.path().to_owned()], &[]).unwrap().files.len(), 2);
    }

    #[cfg(unix)]
    #[test]
    fn links_that_lead_out_are_left_out_and_told() {
        use std::os::unix::fs::symlink;
        let place = tempfile::tempdir().unwrap();
        let at = |name: &str| place.path().join(name);
        for name in ["own/a.lua", "own/inner/b.lua", "else/c.lua"] {
            fs::create_dir_all(at(name).parent().unwrap()).unwrap();
            fs::write(at(name), "").unwrap();
        }
        symlink("../else/c.lua", at("own/linked.lua")).unwrap();
        symlink("../else", at("own/folder")).unwrap();
        symlink("inner/b.lua", at("own/inside.lua")).unwrap();
        let found = scenarios(&[at("own")], &[]).unwrap();
        // `inside.lua` is `inner/b.lua` by another name.
        assert_eq!(found.files.len(), 2, "{found:?}");
        assert_eq!((found.faults.len(), found.notes.len()), (1, 1), "{found:?}");
        assert_eq!(found.faults[0].exit, Exit::BadInput);
        let allowed = scenarios(&[at("own")], &[at("else")]).unwrap();
        assert_eq!((allowed.files.len(), allowed.faults.len()), (3, 0), "{allowed:?}");
        // What the user names is theirs.
        assert_eq!(scenarios(&[at("own/folder")], &[]).unwrap().files.len(), 1);
        assert_eq!(scenarios(&[at("own/linked.lua")], &[]).unwrap().files.len(), 1);
    }

    #[test]
    fn a_deep_folder_is_searched_to_its_end() {
        let folder = tempfile::tempdir().unwrap();
        let mut deep = folder.path().to_owned();
        for _ in 0..900 {
            deep.push("d");
        }
        fs::create_dir_all(&deep).unwrap();
        fs::write(deep.join("a.lua"), "").unwrap();
        assert_eq!(scenarios(&[folder.path().to_owned()], &[]).unwrap().files.len(), 1);
    }
}

//! Folders for results, which the program names itself: inside the one that the user gave, wherever links lead.

use crate::fault::{Fault, visible_line};
use std::path::{Component, Path, PathBuf};

/// The folder for a file's results, called by the file's own name without its ending.
///
/// # Errors
/// Bad input when that is no name but a way elsewhere, as of `...lua`.
pub(crate) fn folder_named_for(file: &Path) -> Result<PathBuf, Fault> {
    let name = PathBuf::from(file.file_stem().unwrap_or(file.as_os_str()));
    let mut parts = name.components();
    match (parts.next(), parts.next()) {
        (Some(Component::Normal(_)), None) => Ok(name),
        _ => {
            let message = format!(
                "`{}` gives no name to a folder for its results",
                visible_line(&file.display().to_string())
            );
            Err(Fault::bad_input(message).with_hint("give the file another name"))
        }
    }
}

/// Refuses a folder that the program names below one that is given, where a link stands on the way: what is written
/// there would be written elsewhere. The given one may be a link.
///
/// # Errors
/// Bad input with the link.
pub(crate) fn check_no_link(given: &Path, folder: &Path) -> Result<(), Fault> {
    let below = folder.ancestors().take_while(|it| *it != given && !it.as_os_str().is_empty());
    match below.filter(|it| it.is_symlink()).last() {
        None => Ok(()),
        Some(link) => {
            let message = format!(
                "`{}` is a link, and results are written to no folder by a link",
                visible_line(&link.display().to_string())
            );
            Err(Fault::bad_input(message)
                .with_hint("remove the link, or give the folder itself with --into"))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_no_way_elsewhere() {
        for wrong in ["...lua", "a/...lua", "..", "/"] {
            assert!(folder_named_for(Path::new(wrong)).is_err(), "{wrong}");
        }
        for (file, name) in [("a/b.lua", "b"), (".lua", ".lua"), ("....lua", "..."), ("x", "x")] {
            assert_eq!(folder_named_for(Path::new(file)), Ok(PathBuf::from(name)), "{file}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn only_the_given_folder_may_be_a_link() {
        let place = tempfile::tempdir().unwrap();
        let at = |name: &str| place.path().join(name);
        std::fs::create_dir_all(at("victim/in")).unwrap();
        std::os::unix::fs::symlink("victim", at("out")).unwrap();
        std::os::unix::fs::symlink("../victim", at("victim/s")).unwrap();
        assert_eq!(check_no_link(&at("out"), &at("out/in")), Ok(()));
        assert_eq!(check_no_link(&at("out"), &at("out/new/deep")), Ok(()));
        for through in ["out/s", "out/s/deep"] {
            assert!(check_no_link(&at("out"), &at(through)).is_err(), "{through}");
        }
        assert!(check_no_link(&at(""), &at("out/in")).is_err());
    }
}

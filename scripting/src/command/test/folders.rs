//! The folder of each scenario's results, inside the one that is given.

use crate::command::taken_folders::TakenFolders;
use crate::fault::Fault;
use crate::files::{check_no_link, folder_named_for};
use std::path::{Component, Path, PathBuf};

/// A folder for each file, by its path; none where none is asked for.
///
/// # Errors
/// Two scenarios that would write to one folder; a name that is a way elsewhere, and a link on the way.
pub(super) fn of(into: Option<&Path>, files: &[PathBuf]) -> Result<Vec<Option<PathBuf>>, Fault> {
    let Some(into) = into else { return Ok(vec![None; files.len()]) };
    let mut taken = TakenFolders::default();
    let mut folders = Vec::with_capacity(files.len());
    for file in files {
        let above = file.parent().into_iter().flat_map(Path::components);
        let inside = above.filter(|part| matches!(part, Component::Normal(_)));
        let folder = into.join(inside.collect::<PathBuf>()).join(folder_named_for(file)?);
        check_no_link(into, &folder)?;
        taken.take(&folder, file, "test")?;
        folders.push(Some(folder));
    }
    Ok(folders)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_scenario_has_a_folder_inside_the_one_that_is_given() {
        let of = |files: &[&str]| {
            let files: Vec<PathBuf> = files.iter().map(PathBuf::from).collect();
            of(Some(Path::new("kept")), &files)
        };
        let folders = of(&["a/one.lua", "../b/one.lua", "/c/one.lua"]).unwrap();
        let folders: Vec<String> =
            folders.into_iter().map(|it| it.unwrap().display().to_string()).collect();
        assert_eq!(folders, ["kept/a/one", "kept/b/one", "kept/c/one"]);
        assert!(of(&["a/one.lua", "../a/one.lua"]).is_err());
        assert!(of(&["a/One.lua", "a/one.lua"]).is_err(), "some systems tell no case");
        assert!(of(&["a/...lua"]).is_err(), "a name, and no way elsewhere");
    }
}

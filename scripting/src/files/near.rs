//! The file that was most likely meant by a name that is not there.

use crate::fault::nearest;
use std::path::Path;

/// The most names of a folder that are looked through.
const MOST_NAMES: usize = 2000;

/// The name in a path's folder, or in a folder there, that is nearest to the path's own.
pub(crate) fn near_name(path: &Path) -> Option<String> {
    let wanted = path.file_name()?.to_str()?;
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if !super::reach::reaches(folder) {
        return None;
    }
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .ok()?
        .take(MOST_NAMES)
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        // A link to nothing is there, and is not what was meant.
        .filter(|name| name != wanted)
        .collect();
    names.sort();
    let stem = |name: &str| name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_owned();
    let below = |name: &&String| folder.join(name).join(wanted).is_file();
    // The same name in a folder there, then the same with another or no extension, are the commonest slips.
    let deeper = names.iter().find(below).map(|name| format!("{name}/{wanted}"));
    deeper
        .or_else(|| names.iter().find(|name| stem(name) == stem(wanted)).cloned())
        .or_else(|| nearest(wanted, names.iter().map(String::as_str)).map(str::to_owned))
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;

    #[test]
    fn a_link_to_nothing_is_not_what_was_meant() {
        let folder = tempfile::tempdir().unwrap();
        std::os::unix::fs::symlink("nothing", folder.path().join("own.lua")).unwrap();
        assert_eq!(near_name(&folder.path().join("own.lua")), None);
        std::fs::write(folder.path().join("owns.lua"), "").unwrap();
        assert_eq!(near_name(&folder.path().join("own.lua")).as_deref(), Some("owns.lua"));
    }
}

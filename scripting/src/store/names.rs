//! Names of files that a scenario chose: they stay inside the folder and fit every file system.

use crate::fault::Fault;
use crate::record::Record;
use std::collections::BTreeMap;

/// Longest name, bytes; with the ending it stays below what common file systems hold.
const LONGEST: usize = 120;
/// Names that some systems keep for devices, whatever their ending.
const RESERVED: [&str; 4] = ["con", "prn", "aux", "nul"];

/// Refuses names that would leave the folder or fall on one another.
pub(super) fn check(record: &Record) -> Result<(), Fault> {
    let mut tables: BTreeMap<String, &str> = BTreeMap::new();
    let mut pictures: BTreeMap<String, &str> = BTreeMap::new();
    let maps = record.maps.iter().map(|map| map.name.as_str());
    let starts = record.starts.iter().map(|starts| starts.name.as_str());
    let shots = record.shots.iter().map(|shots| shots.name.as_str());
    let frontiers = record.frontiers.iter().map(|front| front.name.as_str());
    let answers = record.tables.iter().map(|table| table.name.as_str());
    for name in maps.chain(starts).chain(shots).chain(frontiers).chain(answers) {
        unique(&mut tables, name)?;
    }
    for drawing in &record.drawings {
        unique(&mut pictures, &drawing.name)?;
    }
    Ok(())
}

fn unique<'a>(seen: &mut BTreeMap<String, &'a str>, name: &'a str) -> Result<(), Fault> {
    safe(name)?;
    // Some file systems do not tell capitals apart.
    match seen.insert(name.to_lowercase(), name) {
        Some(other) => Err(Fault::bad_input(format!(
            "`{other}` and `{name}` would be written to the same file"
        ))
        .with_hint("give each map and picture a name of its own")),
        None => Ok(()),
    }
}

/// A name that is one plain component of a path everywhere.
///
/// # Errors
/// Another name, in words.
pub fn safe(name: &str) -> Result<(), Fault> {
    let forbidden = |letter: char| {
        letter.is_control()
            || matches!(letter, '/' | '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|')
    };
    let bad = name.is_empty()
        || name.len() > LONGEST
        || name.starts_with('.')
        || name.ends_with(['.', ' '])
        || name.contains(forbidden)
        || RESERVED.contains(&name.to_lowercase().as_str());
    if bad {
        let shown: String = name.chars().take(60).collect();
        return Err(Fault::bad_input(format!("`{shown}` can't be the name of a file"))
            .with_hint("use letters, digits, `-` and `_`"));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_name_leaves_the_folder() {
        for name in [
            "", ".", "..", "../x", "/etc/x", "a/b", "a\\b", "c:x", "a\0b", "a\nb", ".hidden", "x.",
            "con", "NUL",
        ] {
            assert!(safe(name).is_err(), "{name:?}");
        }
        assert!(safe(&"x".repeat(200)).is_err());
        for name in ["map", "speed-by-contact_2", "Überbande", "two words", "..x".trim_matches('.')]
        {
            assert!(safe(name).is_ok(), "{name:?}");
        }
    }
}

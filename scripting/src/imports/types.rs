//! The types that a file defines, and the names that stand for more than one.

use super::tokens::tokens;
use std::collections::BTreeMap;
use std::path::Path;

/// Each name of a type in some source folders, with the files that define one of that name.
#[derive(Default)]
pub(super) struct Types(BTreeMap<String, Vec<String>>);

impl Types {
    /// Reads the types of a folder's files; modules compiled for tests only are left out.
    pub(super) fn read(&mut self, folder: &Path) {
        let entries = std::fs::read_dir(folder).expect("the sources can be read");
        for path in entries.map(|entry| entry.expect("the sources can be read").path()) {
            let stem = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
            if matches!(stem, "testing" | "imports") || stem.ends_with("tests") {
                continue;
            }
            if path.is_dir() {
                self.read(&path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let source = std::fs::read_to_string(&path).expect("the sources can be read");
                for name in defined(&tokens(&source)) {
                    self.0.entry(name.to_owned()).or_default().push(path.display().to_string());
                }
            }
        }
    }

    /// The names of more than one type, a line each.
    pub(super) fn shared(&self) -> Vec<String> {
        let shared = self.0.iter().filter(|(_, files)| files.len() > 1);
        shared.map(|(name, files)| format!("`{name}`: {}", files.join(", "))).collect()
    }
}

/// The names of the types that a file's words define. A `type` in braces belongs to its trait.
pub(super) fn defined<'a>(tokens: &[&'a str]) -> Vec<&'a str> {
    let mut depth = 0;
    let mut names = Vec::new();
    for pair in tokens.windows(2) {
        match pair[0] {
            "{" => depth += 1,
            "}" => depth -= 1,
            "type" if depth > 0 => {}
            "struct" | "enum" | "trait" | "union" | "type"
                if pair[1].starts_with(|first: char| first.is_ascii_uppercase()) =>
            {
                names.push(pair[1]);
            }
            _ => {}
        }
    }
    names
}

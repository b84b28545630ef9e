//! The program's name as its user typed it, so that a command in a hint works when it is copied.

use std::ffi::OsStr;
use std::path::Path;
use std::sync::OnceLock;

static NAME: OnceLock<String> = OnceLock::new();

/// Its name where a shell finds it.
const NAMED: &str = "railproof";
/// Run by Cargo, it has a longer one.
const BY_CARGO: &str = "cargo run --release --";

/// Keeps the name by which the program was called; the first one stays.
pub fn keep(name: Option<&OsStr>, by_cargo: bool) {
    NAME.get_or_init(|| typed(name, by_cargo));
}

/// The name as it was typed, or else the usual one.
pub(crate) fn name() -> &'static str {
    NAME.get().map_or(NAMED, String::as_str)
}

/// A command as it is typed: `railproof words`.
pub(crate) fn command(rest: &str) -> String {
    format!("{} {rest}", name())
}

fn typed(name: Option<&OsStr>, by_cargo: bool) -> String {
    if by_cargo {
        return BY_CARGO.to_owned();
    }
    let plain = |letter: char| letter.is_alphanumeric() || "/\\:._-".contains(letter);
    let text = name.and_then(OsStr::to_str).filter(|text| text.chars().all(plain));
    // A name alone is found by the shell; a path is typed as a path.
    match text {
        Some(text) if Path::new(text).components().count() > 1 || text.starts_with('.') => {
            text.to_owned()
        }
        _ => NAMED.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_command_is_told_as_it_was_called() {
        let told = |name: &str, by_cargo| typed(Some(OsStr::new(name)), by_cargo);
        assert_eq!(told("target/release/railproof", true), "cargo run --release --");
        assert_eq!(told("target/release/railproof", false), "target/release/railproof");
        assert_eq!(told("./railproof", false), "./railproof");
        assert_eq!(told("railproof", false), "railproof");
        // A path that a shell would take apart.
        assert_eq!(told("my files/railproof", false), "railproof");
        assert_eq!(
            (typed(None, false), command("words")),
            ("railproof".into(), "railproof words".into())
        );
    }
}

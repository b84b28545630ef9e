//! Text that a shell takes literally.

use crate::fault::{Fault, visible_line};
use std::path::Path;

/// Text as one word for a POSIX shell, whatever it holds.
///
/// # Errors
/// For control characters, line breaks among them: no shell would go wrong, but lines of a batch
/// script and of its logs would.
pub fn quoted(text: &str, what: &str) -> Result<String, Fault> {
    if visible_line(text) != text {
        return Err(Fault::bad_input(format!(
            "{what} holds a line break or another character that is not seen: {}",
            visible_line(text)
        )));
    }
    // Inside single quotes everything stands for itself but the quote.
    Ok(format!("'{}'", text.replace('\'', r"'\''")))
}

/// A path as one word for a POSIX shell.
///
/// # Errors
/// For control characters and for paths that are not UTF-8.
pub fn quoted_path(path: &Path, what: &str) -> Result<String, Fault> {
    match path.to_str() {
        Some(text) => quoted(text, what),
        None => Err(Fault::bad_input(format!("{what} is not UTF-8: {}", path.display()))),
    }
}

//! Whether messages may carry colour codes.

use std::ffi::OsStr;
use std::io::IsTerminal;

/// The style in which a fault is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Style {
    /// Colour codes are written only when this is set.
    pub color: bool,
}

impl Style {
    /// Without colour codes.
    pub const PLAIN: Self = Self { color: false };

    /// Colour when the stream is a terminal that can show it and `NO_COLOR` is unset or empty.
    pub fn for_stream(stream: &impl IsTerminal) -> Self {
        let variable = |name: &str| std::env::var_os(name);
        Self::decide(
            stream.is_terminal(),
            variable("NO_COLOR").as_deref(),
            variable("TERM").as_deref(),
        )
    }

    fn decide(terminal: bool, no_color: Option<&OsStr>, term: Option<&OsStr>) -> Self {
        let forbidden = no_color.is_some_and(|value| !value.is_empty());
        let dumb = term.is_some_and(|term| term == "dumb");
        Self { color: terminal && !forbidden && !dumb }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colour_needs_a_willing_terminal() {
        let color = |terminal, no_color: Option<&str>, term: Option<&str>| {
            Style::decide(terminal, no_color.map(OsStr::new), term.map(OsStr::new)).color
        };
        assert!(color(true, None, Some("xterm")));
        assert!(color(true, Some(""), None));
        assert!(!color(true, Some("1"), Some("xterm")));
        assert!(!color(true, None, Some("dumb")));
        assert!(!color(false, None, Some("xterm")));
    }
}

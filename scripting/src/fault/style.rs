//! Whether messages may carry colour codes.

use std::io::IsTerminal;

/// How a fault is drawn.
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
        let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        Self { color: stream.is_terminal() && !dumb && !set("NO_COLOR") }
    }
}

//! Text that keeps to a width.

use crate::fault::{parted, visible, visible_coloured};
use crate::telling::unbroken;
use serde::{Deserialize, Serialize};

/// The look of text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct PageStyle {
    /// Characters in a line.
    pub width: usize,
    /// Whether colour codes may be written.
    pub color: bool,
}

impl PageStyle {
    /// Eighty characters, no colour: the style of a file.
    pub const PLAIN: Self = Self { width: 80, color: false };

    /// A word with colour when there may be some.
    pub(super) fn marked(self, word: &str, rendition: &str) -> String {
        if self.color { format!("\u{1b}[{rendition}m{word}\u{1b}[0m") } else { word.to_owned() }
    }
}

/// Lines as they come together.
#[derive(Debug)]
pub(super) struct Page {
    pub(super) look: PageStyle,
    text: String,
}

impl Page {
    pub(super) fn new(look: PageStyle) -> Self {
        Self { look, text: String::new() }
    }

    /// An empty line, unless there is one already.
    pub(super) fn gap(&mut self) {
        if !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// A line that stands out where it can.
    pub(super) fn heading(&mut self, text: &str) {
        let marked = self.look.marked(&visible(text), "1");
        self.text.push_str(&marked);
        self.text.push('\n');
    }

    /// Words set in, broken at the width; the lines after a break are set in by two more.
    pub(super) fn line(&mut self, indent: usize, text: &str) {
        let mut used = 0;
        // Names in it come from files of others.
        let text = if self.look.color { visible_coloured(text) } else { visible(text) };
        let text = parted(text.replace(['\n', '\t'], " "));
        for word in unbroken(&text) {
            let long = room(word);
            if used > 0 && used + 1 + long > self.look.width {
                self.text.push('\n');
                used = 0;
                self.text.push_str(&" ".repeat(indent + 2));
                used += indent + 2;
            } else if used > 0 {
                self.text.push(' ');
                used += 1;
            } else {
                self.text.push_str(&" ".repeat(indent));
                used += indent;
            }
            self.text.push_str(word);
            used += long;
        }
        self.text.push('\n');
    }

    /// A line as it is.
    pub(super) fn verbatim(&mut self, text: &str) {
        self.text.push_str(visible(text).trim_end());
        self.text.push('\n');
    }

    /// Finished text.
    pub(super) fn raw(&mut self, text: &str) {
        let text = if self.look.color { visible_coloured(text) } else { visible(text) };
        self.text.push_str(&text);
    }

    pub(super) fn into_text(self) -> String {
        self.text
    }
}

/// Characters that take room: colour codes do not.
fn room(word: &str) -> usize {
    let mut in_code = false;
    word.chars()
        .filter(|letter| {
            let counts = !in_code && *letter != '\u{1b}';
            in_code = *letter == '\u{1b}' || (in_code && *letter != 'm');
            counts
        })
        .count()
}

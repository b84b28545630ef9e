//! A scenario's text: its lines, and offsets turned into lines and columns.

use super::tokens::{Token, tokens};
use crate::fault::Place;
use std::cell::OnceCell;
use std::sync::Arc;

/// One source text with its name.
#[derive(Debug)]
pub struct Source {
    name: Arc<str>,
    text: Arc<str>,
    line_starts: Vec<usize>,
    tokens: OnceCell<Vec<Token>>,
}

impl Source {
    /// A text under the name that messages show.
    pub fn new(name: impl Into<Arc<str>>, text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let after_breaks = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n');
        let line_starts = std::iter::once(0).chain(after_breaks.map(|(at, _)| at + 1)).collect();
        Self { name: name.into(), text, line_starts, tokens: OnceCell::new() }
    }

    /// The name that messages show.
    pub fn name(&self) -> &Arc<str> {
        &self.name
    }

    /// The whole text.
    pub fn text(&self) -> &Arc<str> {
        &self.text
    }

    /// Its tokens; cut at the first use, since only messages need them.
    pub fn tokens(&self) -> &[Token] {
        self.tokens.get_or_init(|| tokens(&self.text))
    }

    /// The line, counted from 1, that a byte offset stands on.
    pub fn line_of(&self, offset: usize) -> usize {
        self.line_starts.partition_point(|start| *start <= offset)
    }

    /// The bytes of a line counted from 1, without its break; empty past the end.
    pub fn line_range(&self, line: usize) -> (usize, usize) {
        let end_of_text = self.text.len();
        let start = self.line_starts.get(line.wrapping_sub(1)).copied().unwrap_or(end_of_text);
        let next = self.line_starts.get(line).map_or(end_of_text, |next| next - 1);
        (start, next.max(start))
    }

    /// The place of a stretch of bytes.
    pub fn place(&self, start: usize, end: usize) -> Place {
        Place::new(Arc::clone(&self.name), Arc::clone(&self.text), start..end)
    }

    /// The place of a whole line, white space and a comment around it left out.
    pub fn place_of_line(&self, line: usize) -> Place {
        let (start, end) = self.line_range(line);
        let mut on_line =
            self.tokens().iter().filter(|token| token.start >= start && token.end <= end);
        let first = on_line.clone().next().map_or(start, |token| token.start);
        let last = on_line.next_back().map_or(end, |token| token.end);
        self.place(first, last)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offsets_become_lines_and_columns_in_characters() {
        let source = Source::new("a.lua", "é = 1\n\n  b = 2 -- c\n");
        let at = source.text().find('=').unwrap_or_default();
        let place = source.place(at, at + 1);
        assert_eq!(place.line_column(), (1, 3));
        let line = source.place_of_line(3);
        assert_eq!((line.line_column(), &source.text()[line.span()]), ((3, 3), "b = 2"));
        assert_eq!(source.line_range(99), (source.text().len(), source.text().len()));
    }
}

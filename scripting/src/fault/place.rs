//! A stretch of a user's file.

use std::ops::Range;
use std::sync::Arc;

/// A stretch of a file, with the file's text so that the line can be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    label: Arc<str>,
    source: Arc<str>,
    span: Range<usize>,
}

impl Place {
    /// A stretch given by byte offsets; offsets outside the text or inside a character are moved
    /// to the nearest character before.
    pub fn new(label: impl Into<Arc<str>>, source: Arc<str>, span: Range<usize>) -> Self {
        let start = source.floor_char_boundary(span.start);
        let end = source.floor_char_boundary(span.end).max(start);
        Self { label: label.into(), source, span: start..end }
    }

    /// A whole line without its indentation, counted from 1; a line past the end is the last one.
    pub fn line(label: impl Into<Arc<str>>, source: Arc<str>, line: usize) -> Self {
        let mut start = 0;
        for _ in 1..line.max(1) {
            match source[start..].find('\n') {
                Some(length) => start += length + 1,
                None => break,
            }
        }
        let text = source[start..].split('\n').next().unwrap_or_default();
        let begin = start + (text.len() - text.trim_start().len());
        let end = start + text.trim_end().len();
        Self::new(label, source, begin..end)
    }

    /// Another stretch of the same file.
    #[must_use]
    pub fn moved(&self, span: Range<usize>) -> Self {
        Self::new(self.label.clone(), self.source.clone(), span)
    }

    /// The file's name for people: its path as they gave it.
    pub fn label(&self) -> &str {
        &self.label
    }

    /// The file's text.
    pub fn source(&self) -> &str {
        &self.source
    }

    /// The stretch in bytes.
    pub fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// Line and column where the stretch begins, both from 1; columns count characters.
    pub fn line_column(&self) -> (usize, usize) {
        let before = &self.source[..self.span.start];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let line = 1 + before.bytes().filter(|&byte| byte == b'\n').count();
        (line, 1 + before[line_start..].chars().count())
    }

    /// The line where the stretch begins, without its line break, and the part of the stretch in
    /// it, in bytes of that line.
    pub(super) fn first_line(&self) -> (&str, Range<usize>) {
        let start = self.source[..self.span.start].rfind('\n').map_or(0, |at| at + 1);
        let line = self.source[start..].split('\n').next().unwrap_or_default();
        let line = line.strip_suffix('\r').unwrap_or(line);
        let from = (self.span.start - start).min(line.len());
        let to = (self.span.end - start).clamp(from, line.len());
        (line, from..to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        let source: Arc<str> = "a: é\nβ: x\r\n".into();
        let at = source.find('x').unwrap_or_default();
        let place = Place::new("f", source.clone(), at..at + 1);
        assert_eq!(place.line_column(), (2, 4));
        assert_eq!(place.first_line(), ("β: x", 4..5));
        // Inside the two bytes of é.
        assert_eq!(Place::new("f", source, 4..4).line_column(), (1, 4));
    }

    #[test]
    fn a_line_is_taken_without_its_indentation() {
        let source: Arc<str> = "one\n  two \nthree".into();
        assert_eq!(Place::line("f", source.clone(), 2).span(), 6..9);
        assert_eq!(Place::line("f", source, 99).line_column(), (3, 1));
    }
}

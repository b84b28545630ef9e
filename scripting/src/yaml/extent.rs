//! The extent of the word at a place, so that it can be underlined whole.

use std::ops::Range;

/// The stretch of the key or value that begins at a byte index. An index past the end gives the
/// last character that is not blank.
pub(crate) fn extent(text: &str, index: usize) -> Range<usize> {
    let start = text.floor_char_boundary(index);
    if start == text.len() {
        let end = text.trim_end().len();
        let last = text[..end].chars().next_back().map_or(0, char::len_utf8);
        return end - last..end;
    }
    let rest = text[start..].lines().next().unwrap_or_default();
    let length = match rest.chars().next() {
        Some(quote @ ('"' | '\'')) => {
            rest[1..].find(quote).map_or(rest.trim_end().len(), |length| length + 2)
        }
        Some('[' | '{') => 1,
        Some(_) => plain_length(rest),
        None => 0,
    };
    start..start + length
}

/// An unquoted word ends where YAML would end it; commas and brackets end it too, which is right
/// inside brackets and harmless outside.
fn plain_length(rest: &str) -> usize {
    let bytes = rest.as_bytes();
    let ends = |at: usize| match bytes[at] {
        b',' | b']' | b'}' => true,
        b':' => bytes.get(at + 1).is_none_or(u8::is_ascii_whitespace),
        b'#' => at > 0 && bytes[at - 1].is_ascii_whitespace(),
        _ => false,
    };
    let end = (0..bytes.len()).find(|&at| ends(at)).unwrap_or(bytes.len());
    let word = rest[..end].trim_end().len();
    // At least one character, whatever it is.
    word.max(rest.chars().next().map_or(0, char::len_utf8))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_taken_whole() {
        let text = "ключ: 2 in # why\n'a b': \"c\"\nq: [1 m,2 m]\n";
        let word = |index| &text[extent(text, index)];
        assert_eq!(word(0), "ключ");
        assert_eq!(word(10), "2 in");
        assert_eq!(word(21), "'a b'");
        assert_eq!(word(28), "\"c\"");
        assert_eq!(word(35), "[");
        assert_eq!(word(36), "1 m");
        assert_eq!(word(40), "2 m");
        assert_eq!(word(999), "]");
        assert_eq!(extent("", 0), 0..0);
    }
}

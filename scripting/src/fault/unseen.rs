//! Characters that are not seen, and texts in which they are: a terminal obeys some of them, some make a line read as
//! something else, and XML has no place for some.

use std::fmt::Write;

/// Breaks of a line, and tabs.
pub(super) const fn is_break(letter: char) -> bool {
    matches!(letter, '\t' | '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}')
}

/// Control characters; those that turn the direction of writing, or take no room, and so make a line read as
/// something else; and those that are no characters.
pub(super) fn is_unseen(letter: char) -> bool {
    letter.is_control()
        || matches!(letter,
            '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{fdd0}'..='\u{fdef}'
            | '\u{e0000}'..='\u{e007f}')
        || letter as u32 & 0xfffe == 0xfffe
}

/// Whether a letter may stand in a name: it is seen, or joins letters as some scripts need it.
pub(crate) fn is_plain(letter: char) -> bool {
    matches!(letter, '\u{200c}' | '\u{200d}') || !(is_break(letter) || is_unseen(letter))
}

/// Whether a letter is written as an escape where lines stay lines.
fn is_escaped(letter: char) -> bool {
    !matches!(letter, '\n' | '\t') && (is_break(letter) || is_unseen(letter))
}

/// The text of any length with its lines; what is not seen in it is written as escapes.
pub(crate) fn visible(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        if is_escaped(letter) { out.extend(letter.escape_unicode()) } else { out.push(letter) }
    }
    out
}

/// As [`visible`], in one line that tells the text from any other.
pub(crate) fn visible_line(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        if is_break(letter) {
            out.extend(letter.escape_default());
        } else if is_unseen(letter) {
            out.extend(letter.escape_unicode());
        } else {
            out.push(letter);
        }
    }
    out
}

/// As [`visible`], but codes for colour stay: the last wall before a terminal.
pub(crate) fn visible_coloured(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let length = colour_code(rest).unwrap_or(0);
        if length > 0 {
            out.push_str(&rest[..length]);
            rest = &rest[length..];
            continue;
        }
        if is_escaped(letter) {
            out.extend(letter.escape_unicode());
        } else {
            out.push(letter);
        }
        rest = &rest[letter.len_utf8()..];
    }
    out
}

/// The bytes of a code for colour at the start of a text: ECMA-48's "select graphic rendition", and no other.
fn colour_code(text: &str) -> Option<usize> {
    let inside = text.strip_prefix("\u{1b}[")?;
    let end = inside.find(|letter: char| !letter.is_ascii_digit() && letter != ';')?;
    inside[end..].starts_with('m').then_some(2 + end + 1)
}

/// JSON with what is not seen in its texts written as JSON escapes it: the same value.
pub(crate) fn visible_json(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    for letter in json.chars() {
        if is_escaped(letter) {
            let mut units = [0; 2];
            for unit in letter.encode_utf16(&mut units) {
                let _ = write!(out, "\\u{unit:04x}");
            }
        } else {
            out.push(letter);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_stay_and_what_is_not_seen_is_seen() {
        let hostile = "a\u{1b}]0;t\u{7}\r\n\tb\u{202e}\u{ffff}\u{9b}\u{2028}é";
        let told = "a\\u{1b}]0;t\\u{7}\\u{d}\n\tb\\u{202e}\\u{ffff}\\u{9b}\\u{2028}é";
        assert_eq!(visible(hostile), told);
        assert_eq!(visible_coloured(hostile), told);
        assert!(!visible_line("a\nb\u{2028}\r").contains(['\n', '\r', '\u{2028}']));
        assert_ne!(visible_line("a\nb"), visible_line("a b"));
    }

    #[test]
    fn only_colours_are_let_through() {
        assert_eq!(visible_coloured("\u{1b}[1;31mred\u{1b}[0m"), "\u{1b}[1;31mred\u{1b}[0m");
        for hostile in ["\u{1b}[2J", "\u{1b}[31", "\u{1b}]0;x\u{7}", "\u{1b}c", "\u{9b}31m"] {
            assert!(
                !visible_coloured(hostile).contains(['\u{1b}', '\u{9b}', '\u{7}']),
                "{hostile:?}"
            );
        }
    }

    #[test]
    fn json_is_the_same_value() {
        let text = "a\u{7f}\u{202e}\u{fffe}\u{1fffe}\u{e0041}\n";
        let json = serde_json::to_string_pretty(&[text]).unwrap();
        let shown = visible_json(&json);
        assert!(
            !shown.contains(['\u{7f}', '\u{202e}', '\u{fffe}', '\u{1fffe}', '\u{e0041}']),
            "{shown}"
        );
        assert_eq!(serde_json::from_str::<Vec<String>>(&shown).unwrap(), [text]);
    }

    #[test]
    fn names_are_plain_in_every_script() {
        assert!("Zoë's table, موسى می\u{200c}خواهم 台".chars().all(is_plain));
        for hostile in
            ['\u{1b}', '\u{0}', '\n', '\t', '\u{2028}', '\u{202e}', '\u{200b}', '\u{ffff}']
        {
            assert!(!is_plain(hostile), "{hostile:?}");
        }
    }
}

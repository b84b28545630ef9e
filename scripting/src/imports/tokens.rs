//! Rust source as words, marks and texts, without comments and tests: as much as imports and sentences need.

/// The words and marks of a file up to its tests. A path's `::` is one mark.
pub(super) fn tokens(source: &str) -> Vec<&str> {
    pieces(source).into_iter().filter(|piece| !is_text(piece)).collect()
}

/// The texts of a file up to its tests, in their quotes; those of documentation are none.
pub(super) fn texts(source: &str) -> Vec<&str> {
    pieces(source).into_iter().filter(|piece| is_text(piece)).collect()
}

fn is_text(piece: &str) -> bool {
    piece.len() > 1 && piece.ends_with(['"', '#']) && piece.contains('"')
}

fn pieces(source: &str) -> Vec<&str> {
    let source = source.find("#[cfg(test)]\nmod tests {").map_or(source, |end| &source[..end]);
    let mut tokens = Vec::new();
    let mut rest = source;
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '/' if rest.starts_with("//") => line(rest),
            '"' => {
                let end = text(rest, false);
                tokens.push(&rest[..end]);
                end
            }
            'r' if rest.starts_with("r\"") || rest.starts_with("r#") => {
                let end = raw(rest);
                if end > 1 {
                    tokens.push(&rest[..end]);
                }
                end
            }
            'b' if rest.starts_with("b\"") => 1 + text(&rest[1..], false),
            '\'' => letter(rest),
            ':' if rest.starts_with("::") => {
                tokens.push("::");
                2
            }
            _ if is_of_word(first) => {
                let end = rest.find(|next| !is_of_word(next)).unwrap_or(rest.len());
                tokens.push(&rest[..end]);
                end
            }
            _ => {
                let end = first.len_utf8();
                if !first.is_whitespace() {
                    tokens.push(&rest[..end]);
                }
                end
            }
        };
        rest = &rest[length..];
    }
    tokens
}

const fn is_of_word(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || letter == '_'
}

fn line(rest: &str) -> usize {
    rest.find('\n').unwrap_or(rest.len())
}

/// Length of a text with its quotes; a raw one has no escapes.
fn text(rest: &str, raw: bool) -> usize {
    let mut escaped = false;
    for (at, letter) in rest.char_indices().skip(1) {
        match letter {
            _ if escaped => escaped = false,
            '\\' if !raw => escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    rest.len()
}

/// Length of a raw text, or of the letter that only looked like the beginning of one.
fn raw(rest: &str) -> usize {
    let hashes = rest[1..].len() - rest[1..].trim_start_matches('#').len();
    if !rest[1 + hashes..].starts_with('"') {
        return 1;
    }
    let end = format!("\"{}", "#".repeat(hashes));
    let begun = 2 + hashes;
    rest[begun..].find(&end).map_or(rest.len(), |at| begun + at + end.len())
}

/// Length of a letter in quotes, or of a lifetime's mark.
fn letter(rest: &str) -> usize {
    let mut letters = rest.char_indices().skip(1);
    match (letters.next(), letters.next()) {
        (Some((_, '\\')), _) => rest[2..].find('\'').map_or(1, |at| at.max(1) + 3),
        (Some(_), Some((at, '\''))) => at + 1,
        _ => 1,
    }
}

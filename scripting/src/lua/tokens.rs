//! Lua text cut into tokens: just enough to find a call, an option or a function in it.
//!
//! Text that Lua itself would refuse still gives tokens: an unfinished string or comment ends with
//! the text.

/// The kind of a token.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TokenKind {
    /// A name or a keyword.
    Name,
    /// A number.
    Number,
    /// A string in any of its forms, its quotes included.
    Text,
    /// An operator or bracket.
    Symbol,
}

/// A token and the bytes it covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// Its kind.
    pub kind: TokenKind,
    /// Byte offset of its first character.
    pub start: usize,
    /// Byte offset one past its last character.
    pub end: usize,
}

impl Token {
    /// The token's own text.
    pub fn text<'a>(&self, source: &'a str) -> &'a str {
        &source[self.start..self.end]
    }

    /// Whether it is this name, keyword or symbol.
    pub fn is(&self, source: &str, text: &str) -> bool {
        matches!(self.kind, TokenKind::Name | TokenKind::Symbol) && self.text(source) == text
    }

    /// Whether it opens a bracket that has a closing partner.
    pub fn opens(&self, source: &str) -> bool {
        self.kind == TokenKind::Symbol && matches!(self.text(source), "(" | "{" | "[")
    }

    /// Whether it closes a bracket.
    pub fn closes(&self, source: &str) -> bool {
        self.kind == TokenKind::Symbol && matches!(self.text(source), ")" | "}" | "]")
    }

    /// A string's contents when it is written with plain quotes and without escapes.
    pub fn plain_text<'a>(&self, source: &'a str) -> Option<&'a str> {
        let text = self.text(source);
        let quoted = self.kind == TokenKind::Text
            && text.len() >= 2
            && text.starts_with(['"', '\''])
            && !text.contains('\\');
        quoted.then(|| &text[1..text.len() - 1])
    }
}

/// The words of Lua that can't name anything.
pub const KEYWORDS: &[&str] = &[
    "and", "break", "do", "else", "elseif", "end", "false", "for", "function", "if", "in", "local",
    "nil", "not", "or", "repeat", "return", "then", "true", "until", "while", "continue",
];

/// Cuts a text into tokens, comments and white space left out.
pub fn tokens(source: &str) -> Vec<Token> {
    let bytes = source.as_bytes();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(&byte) = bytes.get(at) {
        if byte.is_ascii_whitespace() {
            at += 1;
            continue;
        }
        if bytes[at..].starts_with(b"--") {
            at = comment_end(bytes, at);
            continue;
        }
        let (kind, end) = match byte {
            b'"' | b'\'' | b'`' => (TokenKind::Text, quoted_end(bytes, at)),
            b'[' if long_bracket_end(bytes, at).is_some() => {
                (TokenKind::Text, long_bracket_end(bytes, at).unwrap_or(bytes.len()))
            }
            b'0'..=b'9' => (TokenKind::Number, number_end(bytes, at)),
            b'.' if bytes.get(at + 1).is_some_and(u8::is_ascii_digit) => {
                (TokenKind::Number, number_end(bytes, at))
            }
            _ if is_name(byte) => {
                let length = bytes[at..].iter().take_while(|byte| is_name(**byte)).count();
                (TokenKind::Name, at + length)
            }
            _ => (TokenKind::Symbol, symbol_end(bytes, at)),
        };
        found.push(Token { kind, start: at, end });
        at = end;
    }
    found
}

/// Bytes beyond ASCII count as part of a name: that keeps every cut between whole characters.
fn is_name(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte == b'_' || byte >= 0x80
}

fn comment_end(bytes: &[u8], at: usize) -> usize {
    if let Some(end) = long_bracket_end(bytes, at + 2) {
        return end;
    }
    bytes[at..].iter().position(|byte| *byte == b'\n').map_or(bytes.len(), |length| at + length)
}

/// The end of `[[…]]` or `[=[…]=]` that begins at `at`, or nothing when none begins there.
fn long_bracket_end(bytes: &[u8], at: usize) -> Option<usize> {
    if bytes.get(at) != Some(&b'[') {
        return None;
    }
    let level = bytes[at + 1..].iter().take_while(|byte| **byte == b'=').count();
    if bytes.get(at + 1 + level) != Some(&b'[') {
        return None;
    }
    let mut close = vec![b']'];
    close.resize(level + 1, b'=');
    close.push(b']');
    let body = at + level + 2;
    let found = bytes[body..].windows(close.len()).position(|window| window == close);
    Some(found.map_or(bytes.len(), |length| body + length + close.len()))
}

/// The end of a quoted string; one with plain quotes ends with its line at the latest.
fn quoted_end(bytes: &[u8], at: usize) -> usize {
    let quote = bytes[at];
    let mut end = at + 1;
    while let Some(&byte) = bytes.get(end) {
        match byte {
            b'\\' => end += 1,
            b'\n' if quote != b'`' => return end,
            _ if byte == quote => return end + 1,
            _ => {}
        }
        end += 1;
    }
    bytes.len()
}

fn number_end(bytes: &[u8], at: usize) -> usize {
    let hexadecimal = matches!(bytes.get(at + 1), Some(b'x' | b'X'));
    let mut end = at;
    while let Some(&byte) = bytes.get(end) {
        let exponent_sign = matches!(byte, b'+' | b'-')
            && !hexadecimal
            && end > at
            && matches!(bytes[end - 1], b'e' | b'E');
        // Two dots join strings: `1..2` is not a number.
        let dot = byte == b'.' && bytes.get(end + 1) != Some(&b'.');
        if !(byte.is_ascii_alphanumeric() || byte == b'_' || dot || exponent_sign) {
            break;
        }
        end += 1;
    }
    end
}

fn symbol_end(bytes: &[u8], at: usize) -> usize {
    const LONG: [&[u8]; 16] = [
        b"...", b"..=", b"//=", b"==", b"~=", b"<=", b">=", b"..", b"::", b"->", b"+=", b"-=",
        b"*=", b"/=", b"//", b"^=",
    ];
    let length =
        LONG.iter().find(|symbol| bytes[at..].starts_with(symbol)).map_or(1, |symbol| symbol.len());
    at + length
}

/// A text without its comments and with single spaces: two texts that mean the same to Lua but for
/// the layout become one.
pub fn plain_source(text: &str) -> String {
    let words: Vec<&str> = tokens(text).iter().map(|token| token.text(text)).collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(source: &str) -> Vec<&str> {
        tokens(source).iter().map(|token| token.text(source)).collect()
    }

    #[test]
    fn comments_and_strings_hide_what_is_inside() {
        let source = "a --[==[ b ]] ]==] = [[ c \n d ]] -- e\n .. 'f\\'g' .. \"h\" .. `i{j}`";
        assert_eq!(
            texts(source),
            ["a", "=", "[[ c \n d ]]", "..", "'f\\'g'", "..", "\"h\"", "..", "`i{j}`"]
        );
    }

    #[test]
    fn numbers_keep_their_exponent_and_leave_the_joining_dots() {
        assert_eq!(
            texts("1e-3+0x1F..2.5 ..x[1]"),
            ["1e-3", "+", "0x1F", "..", "2.5", "..", "x", "[", "1", "]"]
        );
    }

    #[test]
    fn unfinished_text_ends_with_the_source() {
        assert_eq!(texts("x = [[ never"), ["x", "=", "[[ never"]);
        assert_eq!(texts("x = 'never\ny"), ["x", "=", "'never", "y"]);
        assert_eq!(texts("'\\"), ["'\\"]);
        assert_eq!(texts("ä = 'é'"), ["ä", "=", "'é'"]);
    }
}

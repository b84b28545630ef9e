//! Slips that keep a text from being Lua, told by what to write instead: a quote, bracket, comma or `end` that
//! is missing. Lua itself tells only the line on which it noticed.

use super::amount_slips;
use super::lost_opening;
use super::source::Source;
use super::tokens::{KEYWORDS, Token, TokenKind};
use crate::fault::Fault;

/// What to write before a note.
const NOTE: &str = "a note begins with two dashes: --";
/// Curly quotes, as word processors write them.
const CURLY: [char; 6] = ['“', '”', '„', '‘', '’', '‚'];

/// The fault for a complaint about the grammar at a line, where the slip behind it is known.
pub fn told(source: &Source, line: usize, message: &str) -> Option<Fault> {
    let text = Text(source);
    text.curly_quote(line)
        .or_else(|| text.open_quote(line))
        .or_else(|| text.note(line))
        .or_else(|| text.end(line, message))
        .or_else(|| lost_opening::told(source))
        .or_else(|| text.bracket(line))
        .or_else(|| text.comma(line))
}

/// A text in which something is missing.
#[derive(Debug, Clone, Copy)]
struct Text<'a>(&'a Source);

impl<'a> Text<'a> {
    fn all(self) -> &'a [Token] {
        self.0.tokens()
    }

    fn word(self, at: usize) -> &'a str {
        self.all().get(at).map_or("", |token| token.text(self.0.text()))
    }

    fn line(self, at: usize) -> usize {
        self.all().get(at).map_or(0, |token| self.0.line_of(token.start))
    }

    /// The spaces before the first word of a token's line.
    fn indent(self, at: usize) -> usize {
        let (start, end) = self.0.line_range(self.line(at));
        let line = &self.0.text()[start..end];
        line.len() - line.trim_start().len()
    }

    fn starts_line(self, at: usize) -> bool {
        at == 0 || self.line(at - 1) < self.line(at)
    }

    /// Whether nothing stands between two tokens.
    fn touches(self, at: usize) -> bool {
        at > 0 && self.all()[at - 1].end == self.all()[at].start
    }

    fn fault(self, at: usize, message: impl Into<String>, hint: impl Into<String>) -> Fault {
        let token = self.all()[at];
        let mut fault = Fault::bad_input(message).with_hint(hint);
        fault.place = Some(self.0.place(token.start, token.end));
        fault
    }

    fn up_to(self, line: usize) -> impl Iterator<Item = usize> + Clone {
        (0..self.all().len()).take_while(move |at| self.line(*at) <= line)
    }

    fn curly_quote(self, line: usize) -> Option<Fault> {
        let at = self.up_to(line).find(|at| {
            let plain = self.all()[*at].kind == TokenKind::Name || self.is_open(*at);
            plain && self.word(*at).contains(CURLY)
        })?;
        let start = self.all()[at].start;
        let rest = self.0.text()[start..].lines().next().unwrap_or_default();
        let mark = |letter: char| CURLY.contains(&letter) || matches!(letter, '"' | '\'');
        let inside = rest.trim_start_matches(mark).split(CURLY).next().unwrap_or_default();
        let inside = inside.trim_end_matches([',', ' ', ')', '}', '"', '\'']);
        let hint = format!("write straight ones: \"{inside}\"");
        Some(self.fault(at, "curly quotes do not count as quotes here", hint))
    }

    /// Whether a token is a text in plain quotes whose last quote is missing.
    fn is_open(self, at: usize) -> bool {
        let word = self.word(at);
        let Some(quote) = word.chars().next().filter(|quote| matches!(quote, '"' | '\'')) else {
            return false;
        };
        self.all()[at].kind == TokenKind::Text && (word.len() < 2 || !word.ends_with(quote))
    }

    fn open_quote(self, line: usize) -> Option<Fault> {
        let at = self.up_to(line).find(|at| self.is_open(*at))?;
        let quote = &self.word(at)[..1];
        if self.touches(at) && self.all()[at - 1].kind == TokenKind::Number {
            return amount_slips::told(self.0, self.line(at));
        }
        if self.touches(at) && self.all()[at - 1].kind == TokenKind::Name {
            // A word with dashes is several tokens.
            let mut first = at - 1;
            while first > 0 && self.touches(first) && self.line(first - 1) == self.line(at) {
                first -= 1;
            }
            if self.all()[first].kind == TokenKind::Text {
                // It ran on to a quote further along the line, such as one in a note.
                return Some(self.never_closed(first));
            }
            let word = &self.0.text()[self.all()[first].start..self.all()[at].start];
            let hint = format!("write {quote}{word}{quote}");
            return Some(self.fault(first, "the quote before this text is missing", hint));
        }
        Some(self.never_closed(at))
    }

    /// A text whose closing quote is missing.
    fn never_closed(self, at: usize) -> Fault {
        let quote = &self.word(at)[..1];
        let inside = self.word(at)[1..].split("--").next().unwrap_or_default();
        let inside = inside.trim_end_matches([',', ';', ' ', ')', '}', ':', '\r', '"', '\'']);
        let hint = format!("write {quote}{inside}{quote}");
        self.fault(at, "the quote that opens here is not closed", hint)
    }

    /// A line of words that is most likely a note.
    fn note(self, line: usize) -> Option<Fault> {
        let at = self.up_to(line).find(|at| self.line(*at) == line && self.starts_line(*at))?;
        let word = |offset: usize| (self.line(at + offset) == line).then(|| self.word(at + offset));
        let plain = |offset: usize| {
            let is_name =
                self.all().get(at + offset).is_some_and(|next| next.kind == TokenKind::Name);
            is_name && word(offset).is_some_and(|word| !KEYWORDS.contains(&word))
        };
        // Words as in a sentence, which may have a mark behind the second.
        let marked = matches!(word(2), Some(":" | "," | ".")) && plain(3);
        if word(0) == Some("-") || (plain(0) && plain(1) && (plain(2) || marked)) {
            return Some(self.fault(at, "this is not a line of Lua", NOTE));
        }
        let lower = word(0)?.to_lowercase();
        if lower == word(0)? || !plain(0) {
            return None;
        }
        if KEYWORDS.contains(&lower.as_str()) {
            let message = format!("`{}` begins with a small letter in Lua", self.word(at));
            return Some(self.fault(at, message, format!("write {lower}")));
        }
        // One or two words, of which the first is written large.
        let ends = word(1).is_none() || (plain(1) && word(2).is_none());
        ends.then(|| self.fault(at, "this is not a line of Lua", NOTE))
    }

    /// A missing or needless `end`, `do` or `then`.
    fn end(self, line: usize, message: &str) -> Option<Fault> {
        let begun = |line: usize, words: &[&str]| {
            let on_line = self.up_to(line).filter(|at| self.line(*at) == line);
            on_line
                .clone()
                .find(|at| words.contains(&self.word(*at)))
                .or_else(|| on_line.clone().next())
        };
        if message.starts_with("Expected 'end'") {
            let opened: String = message
                .rsplit("at line ")
                .next()?
                .chars()
                .take_while(char::is_ascii_digit)
                .collect();
            let at =
                begun(opened.parse().unwrap_or(line), &["function", "for", "if", "while", "do"])?;
            let word = self.word(at);
            let hint = "write end on a line of its own below its last line";
            return Some(self.fault(at, format!("this `{word}` has no `end`"), hint));
        }
        if message.starts_with("Expected <eof>, got 'end'") {
            let at = begun(line, &["end"])?;
            return Some(self.fault(at, "this `end` ends nothing", "delete it"));
        }
        let (word, missing) = [("for", "do"), ("while", "do"), ("if", "then"), ("elseif", "then")]
            .into_iter()
            .find(|(word, missing)| {
                let kind = match *word {
                    "for" => "for loop",
                    "while" => "while loop",
                    _ => "if statement",
                };
                message.starts_with(&format!("Expected '{missing}' when parsing {kind}"))
                    && self.up_to(line).any(|at| self.word(at) == *word)
            })?;
        let at = self.up_to(line).filter(|at| self.word(*at) == word).last()?;
        let hint = format!("write {missing} at the end of its line");
        Some(self.fault(at, format!("this `{word}` has no `{missing}`"), hint))
    }

    /// A bracket without its partner. A line that begins further left than the line of an open bracket ends
    /// what is inside.
    fn bracket(self, line: usize) -> Option<Fault> {
        let mut open: Vec<usize> = Vec::new();
        for at in 0..self.all().len() {
            let token = self.all()[at];
            let word = self.word(at);
            let first = self.starts_line(at);
            if let Some(&last) = open.last()
                && first
                && self.line(at) > self.line(last)
                && (self.indent(at) < self.indent(last)
                    || (self.indent(at) == self.indent(last) && self.begins_statement(at)))
            {
                return Some(self.not_closed(last));
            }
            if token.opens(self.0.text()) {
                open.push(at);
            } else if token.closes(self.0.text()) {
                match open.last() {
                    Some(last) if closing(self.word(*last)) == word => {
                        open.pop();
                    }
                    Some(last) if open.iter().any(|one| closing(self.word(*one)) == word) => {
                        return Some(self.not_closed(*last));
                    }
                    _ if self.line(at) > line => return None,
                    _ => {
                        let hint =
                            format!("delete it, or write the {} that it closes", opening(word));
                        return Some(self.fault(at, format!("this {word} closes nothing"), hint));
                    }
                }
            }
        }
        open.last().map(|last| self.not_closed(*last))
    }

    /// Whether a line's first word begins a statement, which no list goes on with: `local`, or a name that is
    /// called or asked.
    fn begins_statement(self, at: usize) -> bool {
        let word = self.word(at);
        let goes_on =
            matches!(word, "end" | "else" | "elseif" | "and" | "or" | "not" | "then" | "do");
        let name = self.all()[at].kind == TokenKind::Name && !goes_on;
        name && self.word(at + 1) != "="
    }

    fn not_closed(self, at: usize) -> Fault {
        let (open, close) = (self.word(at), closing(self.word(at)));
        let last_on_line = (at..self.all().len())
            .take_while(|next| self.line(*next) == self.line(at))
            .last()
            .unwrap_or(at);
        let hint = if last_on_line == at {
            format!("write {close} on a line of its own below its last line")
        } else {
            format!("write {close} where it ends, on this line most likely")
        };
        self.fault(at, format!("this {open} is not closed"), hint)
    }

    /// Two values in a bracket with nothing between them.
    fn comma(self, line: usize) -> Option<Fault> {
        let mut depth = 0_usize;
        let mut found = None;
        for at in self.up_to(line) {
            let token = self.all()[at];
            let begins = token.kind == TokenKind::Number
                || (token.kind == TokenKind::Name && !KEYWORDS.contains(&self.word(at)))
                || (token.is(self.0.text(), "{") && !self.after(at, &[TokenKind::Name]));
            if depth > 0 && at > 0 && begins && self.ends_value(at - 1) {
                found = Some(at - 1);
            }
            if token.opens(self.0.text()) {
                depth += 1;
            } else if token.closes(self.0.text()) {
                depth = depth.saturating_sub(1);
            }
        }
        let at = found?;
        let key = self.all()[at].kind == TokenKind::Name
            && matches!(self.word(at.wrapping_sub(1)), "{" | ",");
        if key && self.line(at) == self.line(at + 1) {
            if self.word(at + 2) == "=" {
                let name = format!("{}_{}", self.word(at), self.word(at + 1));
                let message = format!("{} {} is no name", self.word(at), self.word(at + 1));
                return Some(self.fault(at, message, format!("write it in one word: {name} = …")));
            }
            let hint = format!("write {} = {}", self.word(at), self.word(at + 1));
            return Some(self.fault(at, format!("an = is missing after {}", self.word(at)), hint));
        }
        if let Some(fault) = self.quotes_inside(at) {
            return Some(fault);
        }
        let named = self.word(at + 1);
        let is_name = self.all()[at + 1].kind == TokenKind::Name;
        if TAKES_NAME.contains(&self.word(at)) && is_name && self.line(at) == self.line(at + 1) {
            let message = format!("the name after {} needs its quotes", self.word(at));
            return Some(self.fault(
                at + 1,
                message,
                format!("write {} \"{named}\"", self.word(at)),
            ));
        }
        let is_bare = is_name && self.all()[at].kind == TokenKind::Name;
        if is_bare && self.word(at.wrapping_sub(1)) == "=" && self.line(at) == self.line(at + 1) {
            let text = format!("{} {named}", self.word(at));
            return Some(self.fault(
                at,
                format!("{text} needs its quotes"),
                format!("text goes in quotes: \"{text}\""),
            ));
        }
        Some(self.fault(
            at,
            format!("a comma is missing after {}", self.word(at)),
            format!("write {},", self.word(at)),
        ))
    }

    /// A text with a word in quotes inside of it.
    fn quotes_inside(self, at: usize) -> Option<Fault> {
        let is_text = |at: usize| self.all().get(at).is_some_and(|it| it.kind == TokenKind::Text);
        let touching = (at + 1..self.all().len())
            .take_while(|next| self.touches(*next) || self.all()[*next].kind == TokenKind::Name)
            .take_while(|next| self.line(*next) == self.line(at));
        let last = touching.filter(|next| is_text(*next)).last().filter(|_| is_text(at))?;
        let quote = &self.word(at)[..1];
        let whole = &self.0.text()[self.all()[at].start..self.all()[last].end];
        let inside = whole.replace(quote, "");
        let hint = format!("leave the inner ones out: {quote}{inside}{quote}");
        Some(self.fault(at, "quotes stand inside of a text in quotes", hint))
    }

    fn after(self, at: usize, kinds: &[TokenKind]) -> bool {
        at > 0 && kinds.contains(&self.all()[at - 1].kind)
    }

    fn ends_value(self, at: usize) -> bool {
        let token = self.all()[at];
        match token.kind {
            TokenKind::Number | TokenKind::Text => true,
            TokenKind::Name => {
                let word = self.word(at);
                !KEYWORDS.contains(&word) || matches!(word, "true" | "false" | "nil" | "end")
            }
            TokenKind::Symbol => token.closes(self.0.text()),
        }
    }
}

/// Functions of the program's own that take a name.
const TAKES_NAME: [&str; 3] = ["equipment", "cushion", "player"];

fn closing(open: &str) -> &'static str {
    match open {
        "(" => ")",
        "[" => "]",
        _ => "}",
    }
}

fn opening(close: &str) -> &'static str {
    match close {
        ")" => "(",
        "]" => "[",
        _ => "{",
    }
}

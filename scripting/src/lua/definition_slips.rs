//! Lines that give a name its value, or a word its options, in signs that mean another thing to Lua or none: a name
//! of two words, a dash or a colon for =, a bracket of another kind. Lua notices some of them lines later.

use super::own_names::{OwnName, own_names};
use super::source::Source;
use super::stray_names::KnownName;
use super::tokens::{KEYWORDS, Token, TokenKind};
use crate::fault::Fault;
use std::cell::OnceCell;

/// The fault of the first such line; `known` are the names that the program gives.
pub fn told(source: &Source, known: &[KnownName]) -> Option<Fault> {
    let text = DefinitionText { source, known, own: OnceCell::new() };
    (0..source.tokens().len()).find_map(|at| {
        text.local(at)
            .or_else(|| text.colon_for_all(at))
            .or_else(|| text.colon(at))
            .or_else(|| text.round(at))
            .or_else(|| text.square(at))
    })
}

struct DefinitionText<'a> {
    source: &'a Source,
    known: &'a [KnownName],
    /// Found when they are asked for.
    own: OnceCell<Vec<OwnName<'a>>>,
}

impl<'a> DefinitionText<'a> {
    fn word(&self, at: usize) -> &'a str {
        self.source.tokens().get(at).map_or("", |token| token.text(self.source.text()))
    }

    fn line(&self, at: usize) -> Option<usize> {
        self.source.tokens().get(at).map(|token| self.source.line_of(token.start))
    }

    fn kind(&self, at: usize) -> Option<TokenKind> {
        self.source.tokens().get(at).map(|token| token.kind)
    }

    /// Whether a token is a name that may be anyone's.
    fn is_name(&self, at: usize) -> bool {
        self.kind(at) == Some(TokenKind::Name) && !KEYWORDS.contains(&self.word(at))
    }

    /// Whether one of the program's words with what is given to it begins at a token: `grid {`, `rule.linear (`.
    fn is_call(&self, at: usize) -> bool {
        let is_known = self.known.iter().any(|it| it.name == self.word(at));
        let opening = if self.word(at + 1) == "." { at + 3 } else { at + 1 };
        let opens =
            matches!(self.word(opening), "{" | "(") || self.kind(opening) == Some(TokenKind::Text);
        is_known && opens
    }

    fn starts_line(&self, at: usize) -> bool {
        at == 0 || self.line(at - 1) < self.line(at)
    }

    fn fault(&self, (from, to): (usize, usize), message: String, hint: String) -> Option<Fault> {
        let tokens: &[Token] = self.source.tokens();
        let mut fault = Fault::bad_input(message).with_hint(hint);
        fault.place = Some(self.source.place(tokens.get(from)?.start, tokens.get(to)?.end));
        Some(fault)
    }

    /// `local my rule = …`, `local banks grid {`, `local banks - grid {`, `local banks: grid {`.
    fn local(&self, at: usize) -> Option<Fault> {
        let name = at + 1;
        let is_on_line = |next: usize| self.line(next) == self.line(at);
        if self.word(at) != "local" || !self.is_name(name) || !is_on_line(name + 1) {
            return None;
        }
        let words = (name..self.source.tokens().len())
            .take_while(|it| self.is_name(*it) && is_on_line(*it))
            .count();
        if words > 1 && self.word(name + words) == "=" && is_on_line(name + words) {
            let all: Vec<&str> = (name..name + words).map(|it| self.word(it)).collect();
            let hint = format!("write it in one word: {}", all.join("_"));
            let message = format!("{} is no name", all.join(" "));
            return self.fault((name, name + words - 1), message, hint);
        }
        let call = match self.word(name + 1) {
            "-" | ":" => name + 2,
            _ => name + 1,
        };
        (self.is_call(call) && is_on_line(call)).then(|| self.no_equals(name, call))?
    }

    /// `banks: grid {` at the start of a line.
    fn colon(&self, at: usize) -> Option<Fault> {
        let is_bare = self.is_name(at) && self.starts_line(at) && self.word(at + 1) == ":";
        if !is_bare || !self.is_call(at + 2) || self.word(at + 3) == "." {
            return None;
        }
        let name = self.word(at);
        let has_methods = self.known.iter().any(|it| it.name == name)
            || self.own.get_or_init(|| own_names(self.source)).iter().any(|it| it.name == name);
        let in_list = at.checked_sub(1).is_some_and(|it| matches!(self.word(it), "," | "{" | ";"));
        (!has_methods && !in_list).then(|| self.no_equals(at, at + 2))?
    }

    /// A value behind a name and no = before it.
    fn no_equals(&self, name: usize, call: usize) -> Option<Fault> {
        let called = match self.word(call + 1) {
            "." => format!("{}.{}", self.word(call), self.word(call + 2)),
            _ => self.word(call).to_owned(),
        };
        let name_word = self.word(name);
        let message = format!("an = is missing between {name_word} and {called}");
        self.fault((name, call), message, format!("write local {name_word} = {called} {{ … }}"))
    }

    /// `slope: 2.2`: behind a colon Lua wants a name.
    fn colon_for_all(&self, at: usize) -> Option<Fault> {
        let is_value = match self.kind(at + 2)? {
            TokenKind::Number => true,
            TokenKind::Text => !self.tells_types(at),
            TokenKind::Symbol => match self.word(at + 2) {
                "-" => true,
                "{" => !self.tells_types(at),
                _ => false,
            },
            TokenKind::Name => false,
        };
        if !self.is_name(at) || self.word(at + 1) != ":" || !is_value {
            return None;
        }
        let (name, value) = (self.word(at), self.word(at + 2));
        let value = if matches!(value, "{" | "-") { "…" } else { value };
        let message = format!("{name} is given its value by a colon");
        self.fault((at, at + 2), message, format!("write {name} = {value}"))
    }

    /// Whether a line may tell the type of a name, which stands behind a colon.
    fn tells_types(&self, at: usize) -> bool {
        let begins = |word: &str| matches!(word, "local" | "function" | "type" | "export");
        let first = (0..=at).rev().find(|it| self.starts_line(*it));
        first.is_some_and(|first| begins(self.word(first))) || self.has_types()
    }

    /// Whether the text gives names to types of its own.
    fn has_types(&self) -> bool {
        let mut all = 0..self.source.tokens().len();
        all.any(|it| self.word(it) == "type" && self.starts_line(it) && self.is_name(it + 1))
    }

    /// `grid ( contact = …`: options stand in braces.
    fn round(&self, at: usize) -> Option<Fault> {
        let is_option = self.is_name(at + 2) && self.word(at + 3) == "=";
        if !self.is_name(at) || self.word(at + 1) != "(" || !is_option {
            return None;
        }
        let name = self.word(at);
        let message = format!("what is given to {name} stands in braces, not in round brackets");
        self.fault((at, at + 1), message, format!("write {name} {{ … }}"))
    }

    /// `off_rail = [inches(0), inches(5)]`: a list stands in braces.
    fn square(&self, at: usize) -> Option<Fault> {
        if self.word(at) != "=" || self.word(at + 1) != "[" {
            return None;
        }
        let line = self.line(at);
        let on_line = (at + 2..self.source.tokens().len()).take_while(|it| self.line(*it) == line);
        let close = on_line.into_iter().find(|it| self.word(*it) == "]").unwrap_or(at + 1);
        let tokens = self.source.tokens();
        let (from, to) = (tokens.get(at + 1)?.end, tokens.get(close)?.start);
        let text = self.source.text().get(from..to).map_or("…", str::trim);
        let message = "a list stands in braces, not in square brackets".to_owned();
        self.fault((at + 1, close), message, format!("write {{ {text} }}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> Option<(String, String, String)> {
        let known = ["grid", "inches", "rule", "page", "compare"];
        let known: Vec<KnownName> = known
            .iter()
            .map(|name| KnownName { name: (*name).to_owned(), function: *name != "rule" })
            .collect();
        let fault = told(&Source::new("a.lua", text), &known)?;
        let place = fault.place.as_ref()?;
        let wrong = place.source()[place.span()].to_owned();
        Some((wrong, fault.message.clone(), fault.hint.unwrap_or_default()))
    }

    #[test]
    fn a_definition_with_a_slip_is_told_on_its_own_line() {
        for (text, wrong, hint) in [
            ("local my rule = rule.linear { 1 }", "my rule", "write it in one word: my_rule"),
            ("local banks grid {", "banks grid", "write local banks = grid { … }"),
            ("local banks - grid {", "banks - grid", "write local banks = grid { … }"),
            ("local banks: grid {", "banks: grid", "write local banks = grid { … }"),
            ("local r rule.linear { 1 }", "r rule", "write local r = rule.linear { … }"),
            ("\nbanks: grid {", "banks: grid", "write local banks = grid { … }"),
            ("local r = rule.linear { slope: 2.2 }", "slope: 2.2", "write slope = 2.2"),
            ("x { contact: { 1, 2 } }", "contact: {", "write contact = …"),
            ("local banks = grid (\n  contact = 2,\n)", "grid (", "write grid { … }"),
            (
                "g = grid { off_rail = [inches(0), inches(5)], }",
                "[inches(0), inches(5)]",
                "write { inches(0), inches(5) }",
            ),
            ("g = grid { off_rail = [\n}", "[", "write { … }"),
        ] {
            let (found, _, told) = of(text).expect(text);
            assert_eq!((found.as_str(), told.as_str()), (wrong, hint), "{text}");
        }
    }

    #[test]
    fn lines_of_lua_are_no_slips() {
        for text in [
            "local banks\ngrid { contact = 2 }",
            "local map = compare(banks, r)\nmap:draw { x = 1 }\nmap:where { y = 2 }",
            "local t = { 1 }\nlocal function f(a: number, b: string) return t[1] end",
            "local x: number = 3\nlocal a, b = 1, 2",
            "for i = 1, 3 do print(i) end\nif (a == b) then x = y[1] end",
            "local s = ('x'):rep(3)\nlocal n = s:rep(2) .. [[ long ]]\nt = [[ text ]]",
            "grid { contact: span(1, 2, 1) }",
            "local t: { number } = {}\nlocal mode: \"a\" = \"a\"",
            "type Mode = {\n  name: \"a\",\n  list: { number },\n}",
        ] {
            assert_eq!(of(text), None, "{text}");
        }
    }
}

//! The names that a scenario's text gives to values of its own, and where it reads a name.

use super::source::Source;
use super::tokens::{KEYWORDS, TokenKind};
use std::collections::{BTreeMap, BTreeSet};

/// A name that the text gives to a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OwnName<'a> {
    /// The name.
    pub name: &'a str,
    /// The line that gives it, counted from 1.
    pub line: usize,
    /// The word that its value begins with, as `grid` in `local banks = grid { … }`.
    pub maker: &'a str,
    /// Whether it is a function of the scenario's own.
    pub function: bool,
    /// Whether everything below may read it: it stands at the start of its line.
    pub outermost: bool,
    /// Whether anything reads it.
    pub read: bool,
}

/// The longest text whose names are sorted out, in tokens.
pub const LONGEST: usize = 20_000;

/// Every name that the text gives to a value, by `local`, by `function`, or at the start of a line; none of a very long text.
pub fn own_names(source: &Source) -> Vec<OwnName<'_>> {
    let all = source.tokens();
    if all.len() > LONGEST {
        return Vec::new();
    }
    let text = |at: usize| all.get(at).map_or("", |token| token.text(source.text()));
    let starts_line =
        |at: usize| source.line_range(source.line_of(all[at].start)).0 == all[at].start;
    let reads = reads(source);
    let insides = || all.iter().map(|it| it.text(source.text())).filter(|it| it.starts_with('`'));
    let mut seen = BTreeSet::new();
    let mut found: Vec<OwnName<'_>> = Vec::new();
    for at in 0..all.len() {
        let (name_at, function) = match (text(at), text(at + 1)) {
            ("local", "function") => (at + 2, true),
            ("local", _) => (at + 1, false),
            ("function", _) if at == 0 || text(at - 1) != "local" => (at + 1, true),
            (_, "=") if starts_line(at) => (at, false),
            _ => continue,
        };
        let named = all.get(name_at).is_some_and(|token| token.kind == TokenKind::Name);
        let name = text(name_at);
        // The first line that gives a name is its line.
        if !named || KEYWORDS.contains(&name) || !seen.insert(name) {
            continue;
        }
        let maker = if text(name_at + 1) == "=" { text(name_at + 2) } else { "" };
        let read = reads.get(name).is_some_and(|read| read.iter().any(|at| *at != name_at))
            || insides().any(|text| text.contains(name));
        let line = source.line_of(all[name_at].start);
        found.push(OwnName { name, line, maker, function, outermost: starts_line(at), read });
    }
    found
}

/// For each name the places among the tokens where it stands for a value: as no member and as no key of a
/// table.
pub fn reads(source: &Source) -> BTreeMap<&str, Vec<usize>> {
    let all = source.tokens();
    let is = |at: usize, symbols: &[&str]| {
        all.get(at).is_some_and(|token| symbols.contains(&token.text(source.text())))
    };
    let mut brackets = Vec::new();
    let mut found: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, token) in all.iter().enumerate() {
        if token.opens(source.text()) {
            brackets.push(token.text(source.text()));
        } else if token.closes(source.text()) {
            brackets.pop();
        }
        let after = |symbols: &[&str]| at > 0 && is(at - 1, symbols);
        let key = brackets.last() == Some(&"{") && after(&["{", ",", ";"]) && is(at + 1, &["="]);
        if token.kind == TokenKind::Name && !after(&[".", ":"]) && !key {
            found.entry(token.text(source.text())).or_default().push(at);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn members_and_keys_are_no_reads() {
        let text = "local hall = 1\nlocal x = { hall = y.hall, hall }\nprint(y:hall(hall))\n";
        let source = Source::new("a.lua", text);
        assert_eq!(reads(&source)["hall"].len(), 3);
        assert!(own_names(&source).iter().all(|own| own.read == (own.name == "hall")));
    }

    #[test]
    fn each_way_to_give_a_name_is_known() {
        let text =
            "local a = grid {}\nlocal function b() local c = 1 end\nfunction d() end\ne = a\n";
        let source = Source::new("a.lua", text);
        let names: Vec<(&str, &str, bool, bool)> = own_names(&source)
            .iter()
            .map(|own| (own.name, own.maker, own.function, own.outermost))
            .collect();
        let wanted = [
            ("a", "grid", false, true),
            ("b", "", true, true),
            ("c", "1", false, false),
            ("d", "", true, true),
            ("e", "a", false, true),
        ];
        assert_eq!(names, wanted);
    }
}

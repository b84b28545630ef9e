//! Names that nothing is called by, where another name of the scenario is most likely meant: a name that was
//! changed in one place and not in the other. The scenario is played with the other name and told so, since
//! a picture helps more than none.

use super::name_use::NameUse;
use super::own_names::{OwnName, own_names, reads};
use super::source::Source;
use super::tokens::{KEYWORDS, TokenKind};
use super::worker::declared;
use crate::fault::{Fault, nearest};
use std::collections::{BTreeMap, BTreeSet};

/// A name that is taken for another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct StrayName<'a> {
    /// The first token that reads it.
    at: usize,
    name: &'a str,
    meant: OwnName<'a>,
}

/// A global that is there before the scenario's first line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownName {
    /// Its name.
    pub name: String,
    /// Whether it is a function.
    pub function: bool,
}

/// The text with every stray name replaced, and a fault for each; lines stay where they are.
pub fn mended(source: &Source, known: &[KnownName]) -> (String, Vec<Fault>) {
    let reads = reads(source);
    let strays = strays(source, known, &reads);
    let of = |stray: &StrayName<'_>| reads.get(stray.name).into_iter().flatten().copied();
    let mut places: Vec<(usize, &str)> =
        strays.iter().flat_map(|stray| of(stray).map(|at| (at, stray.meant.name))).collect();
    places.sort_unstable();
    let mut text = String::new();
    let mut copied = 0;
    for (at, name) in places {
        let token = source.tokens()[at];
        text.push_str(&source.text()[copied..token.start]);
        text.push_str(name);
        copied = token.end;
    }
    text.push_str(&source.text()[copied..]);
    (text, strays.iter().map(|stray| told(source, stray)).collect())
}

fn told(source: &Source, stray: &StrayName<'_>) -> Fault {
    let StrayName { name, meant, .. } = stray;
    let token = source.tokens()[stray.at];
    let line = source.line_of(token.start);
    let mut fault = Fault::bad_input(format!(
        "nothing is called `{name}`; `{}` of line {} stands in",
        meant.name, meant.line
    ))
    .with_hint(format!(
        "write `{}` on line {line}, or `{name}` on line {}",
        meant.name, meant.line
    ));
    fault.place = Some(source.place(token.start, token.end));
    fault
}

fn strays<'a>(
    source: &'a Source,
    known: &[KnownName],
    reads: &BTreeMap<&str, Vec<usize>>,
) -> Vec<StrayName<'a>> {
    let text = source.text();
    let all = source.tokens();
    let own = own_names(source);
    if own.is_empty() {
        return Vec::new();
    }
    let mut seen: BTreeSet<&str> = declared(text, all).into_iter().collect();
    seen.extend(own.iter().map(|own| own.name));
    seen.extend(assigned(source));
    let mut found = Vec::new();
    for (at, token) in all.iter().enumerate() {
        let name = token.text(text);
        let new =
            token.kind == TokenKind::Name && !KEYWORDS.contains(&name) && !seen.contains(name);
        if !new || reads.get(name).and_then(|read| read.first()) != Some(&at) {
            continue;
        }
        seen.insert(name);
        found.extend(meant(source, &own, known, at).map(|meant| StrayName { at, name, meant }));
    }
    found
}

/// The name of the scenario's own that a name without a value most likely stands for.
fn meant<'a>(
    source: &Source,
    own: &[OwnName<'a>],
    known: &[KnownName],
    at: usize,
) -> Option<OwnName<'a>> {
    let next = source.tokens().get(at + 1);
    let next_is = |symbols: &[&str]| {
        next.is_some_and(|next| symbols.iter().any(|symbol| next.is(source.text(), symbol)))
    };
    let called = next_is(&["(", "{"]) || next.is_some_and(|next| next.kind == TokenKind::Text);
    let name = source.tokens()[at].text(source.text());
    let use_of = NameUse::of(source, source.tokens()[at].end).unwrap_or(NameUse::Other);
    let line = source.line_of(source.tokens()[at].start);
    let above = own.iter().filter(|own| own.outermost && own.line < line && own.function == called);
    let near = |unread: bool| {
        let names = above.clone().filter(|own| !(unread && own.read)).map(|own| own.name);
        let name = nearest(name, names)?;
        above.clone().find(|own| own.name == name).copied()
    };
    let mut unread = above.clone().filter(|own| !own.read);
    let lonely =
        unread.next().filter(|own| unread.next().is_none() && use_of.suits(own.maker)).copied();
    if let Some(known) = known.iter().find(|known| known.name == name) {
        // A function of the program's that is not called is no value to play with.
        let as_value = known.function && !called && !next_is(&[".", ":"]);
        return near(true).filter(|_| as_value);
    }
    let of_program = (called || next_is(&["."]))
        && nearest(name, known.iter().map(|known| known.name.as_str())).is_some();
    near(true).or(lonely.filter(|_| !of_program)).or_else(|| near(false).filter(|_| !of_program))
}

/// Names that are given a value anywhere, as far as the text alone shows it.
fn assigned(source: &Source) -> Vec<&str> {
    let text = source.text();
    let all = source.tokens();
    let mut depth = 0_usize;
    let mut found = Vec::new();
    for (at, token) in all.iter().enumerate() {
        if token.opens(text) {
            depth += 1;
        } else if token.closes(text) {
            depth = depth.saturating_sub(1);
        }
        let next = all.get(at + 1).is_some_and(|next| next.is(text, "=") || next.is(text, ","));
        if depth == 0 && token.kind == TokenKind::Name && next {
            found.push(token.text(text));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> (String, Vec<String>) {
        let known = ["grid", "compare", "bank", "print", "inches"];
        let known = known.map(|name| KnownName { name: name.to_owned(), function: true });
        let (text, faults) = mended(&Source::new("a.lua", text), &known);
        (text, faults.into_iter().map(|fault| fault.message).collect())
    }

    #[test]
    fn a_name_changed_in_one_place_is_taken_for_the_other() {
        let (text, told) = of("local club = 1\nprint(hall, { hall = hall.hall })\n");
        assert_eq!(text, "local club = 1\nprint(club, { hall = club.hall })\n");
        assert_eq!(told, ["nothing is called `hall`; `club` of line 1 stands in"]);
        let (text, _) = of("local banks = 1\nlocal other = 2\nprint(banks, other, other, bnks)\n");
        assert!(text.ends_with("print(banks, other, other, banks)\n"), "{text}");
        let (text, _) = of("local banks = grid {}\ncompare(bank, 1)\n");
        assert!(text.ends_with("compare(banks, 1)\n"), "{text}");
    }

    #[test]
    fn a_text_in_which_every_name_is_known_stays() {
        for text in [
            "local a, b = 1, 2\nfor i, c in a do print(i, b.x, c:y(), { z = 1 }) end\n",
            "x = 1\ny, z = x, 2\nprint(y, z)\nlocal unread = 3\n",
            "local unread = 1\nlocal function f(n: number) return n end\nprint(bank { pocket = f(2) })\n",
        ] {
            assert_eq!(of(text), (text.to_owned(), vec![]));
        }
    }

    #[test]
    fn a_name_far_from_all_others_stays_unknown() {
        let text = "local one = 1\nlocal two = 2\nprint(hall)\n";
        assert_eq!(of(text), (text.to_owned(), vec![]));
        let text = "local banks = grid {}\nmap:draw {}\n";
        assert_eq!(of(text), (text.to_owned(), vec![]));
        let text = "local unread = 1\nprint(inces(3))\n";
        assert_eq!(of(text), (text.to_owned(), vec![]));
        // Nothing reads a name before its line.
        let text = "print(hall)\nlocal club = 1\n";
        assert_eq!(of(text), (text.to_owned(), vec![]));
    }
}

//! Names of the program's own that a scenario gives to a value, and then calls as the program's.

use super::own_names::{OwnName, own_names, reads};
use super::source::Source;
use super::stray_names::KnownName;
use super::tokens::{Token, TokenKind};
use crate::fault::Fault;

/// A name of the program's that means a value from its line on.
#[derive(Debug)]
pub(super) struct TakenName<'a> {
    pub(super) own: OwnName<'a>,
    /// The places among the tokens where the program's own is called by it.
    pub(super) calls: Vec<usize>,
}

/// The taken names of a text that are called later, of those that are `declared` once.
pub(super) fn taken<'a>(
    source: &'a Source,
    own: &[OwnName<'a>],
    known: &[KnownName],
    declared: &[&str],
) -> Vec<TakenName<'a>> {
    let text = CalledText(source);
    let reads = reads(source);
    let values = own.iter().filter(|own| own.outermost && !own.function);
    let once =
        values.filter(|own| declared.iter().filter(|declared| **declared == own.name).count() == 1);
    let of_call = |own: &&OwnName<'a>| known.iter().any(|known| known.name == own.name);
    let found = once.filter(of_call).filter_map(|own| {
        let given = text.given_at(own)?;
        let first = text.word(given + 2);
        let made = known.iter().any(|known| known.name == first)
            && (text.is_call(given + 3) || text.word(given + 3) == ".");
        let plain = text.kind(given + 2).is_some_and(|kind| kind != TokenKind::Name);
        let is_value = made || (plain && first != "{");
        if !is_value {
            return None;
        }
        let below = text.end_of_statement(given);
        let calls = reads.get(own.name)?.iter().copied().filter(|at| *at >= below);
        let calls: Vec<usize> = calls.filter(|at| text.calls_the_program(*at)).collect();
        (!calls.is_empty()).then_some(TakenName { own: *own, calls })
    });
    found.collect()
}

/// The fault for a call of a thing that is no function, where a name of the scenario's own on that line is to
/// blame.
pub(super) fn told(source: &Source, line: usize) -> Option<Fault> {
    let text = CalledText(source);
    let own = own_names(source);
    let on_line = |at: &usize| source.line_of(source.tokens()[*at].start) == line;
    let (at, own) = (0..source.tokens().len()).filter(on_line).find_map(|at| {
        let own = own.iter().find(|own| own.name == text.word(at) && !own.function)?;
        (own.line < line && text.is_call(at + 1)).then_some((at, *own))
    })?;
    let token = source.tokens()[at];
    let mut fault =
        Fault::bad_input(format!("{}, and no function", is_value(&own))).with_hint(rename(&own));
    fault.place = Some(source.place(token.start, token.end));
    Some(fault)
}

/// `equipment` is the name of a value since line 2.
pub(super) fn is_value(own: &OwnName<'_>) -> String {
    format!("`{}` has been the name of a value since line {}", own.name, own.line)
}

/// The remedy.
pub(super) fn rename(own: &OwnName<'_>) -> String {
    format!("give that value another name, such as `my_{}`, wherever you use it", own.name)
}

#[derive(Debug, Clone, Copy)]
struct CalledText<'a>(&'a Source);

impl<'a> CalledText<'a> {
    fn token(self, at: usize) -> Option<&'a Token> {
        self.0.tokens().get(at)
    }

    fn word(self, at: usize) -> &'a str {
        self.token(at).map_or("", |token| token.text(self.0.text()))
    }

    fn kind(self, at: usize) -> Option<TokenKind> {
        self.token(at).map(|token| token.kind)
    }

    /// Whether a call's arguments begin here.
    fn is_call(self, at: usize) -> bool {
        matches!(self.word(at), "(" | "{") || self.kind(at) == Some(TokenKind::Text)
    }

    /// `equipment "…"`, or `rule.linear { … }`.
    fn calls_the_program(self, at: usize) -> bool {
        self.is_call(at + 1) || (self.word(at + 1) == "." && self.is_call(at + 3))
    }

    /// The place of the name in `local NAME = …`.
    fn given_at(self, own: &OwnName<'_>) -> Option<usize> {
        (1..self.0.tokens().len()).find(|at| {
            (self.word(at - 1), self.word(*at), self.word(at + 1)) == ("local", own.name, "=")
        })
    }

    /// The first token of the next line outside brackets.
    fn end_of_statement(self, at: usize) -> usize {
        let all = self.0.tokens();
        let mut depth = 0_usize;
        for next in at + 1..all.len() {
            let new_line = self.0.line_of(all[next - 1].start) < self.0.line_of(all[next].start);
            if depth == 0 && new_line {
                return next;
            }
            if all[next].opens(self.0.text()) {
                depth += 1;
            } else if all[next].closes(self.0.text()) {
                depth = depth.saturating_sub(1);
            }
        }
        all.len()
    }
}

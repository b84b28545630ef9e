//! Calls that are clear though something in them is wrong: a slip in the name of the program's function, a dot before
//! a method, a span without its step, a colon before the call that gives a value.

use super::own_names::OwnName;
use super::source::Source;
use super::stray_names::KnownName;
use super::tokens::{Token, TokenKind};
use crate::fault::nearest;
use crate::renamed::renamed;

/// What is wrong with a call.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum CallSlip<'a> {
    /// The program's function that is meant.
    Near(&'a str),
    /// A method of the name, behind a dot.
    Dotted(&'a str),
    /// A span of a first and a last value.
    Stepless,
    /// A call behind the name that gets its value, and a colon.
    Given(&'a str),
}

/// The methods of results that are read with a dot too.
const METHODS: [&str; 3] = ["draw", "draw_lines", "where"];
const SPAN: &str = "span";

impl CallSlip<'_> {
    /// The message and the hint about the name at fault.
    pub(super) fn told(self, name: &str) -> (String, String) {
        match self {
            Self::Near(meant) => (
                format!("nothing is called `{name}`; `{meant}` stands in"),
                format!("write `{meant}`"),
            ),
            Self::Dotted(method) => (
                format!("`{method}` is called with a colon before it; it is read so"),
                format!("write {name}:{method}, not {name}.{method}"),
            ),
            Self::Stepless => (
                "the span's step is missing; an eighth of the way stands in".to_owned(),
                "span takes first, last and step, all of one kind: span(1, 3, 0.25)".to_owned(),
            ),
            Self::Given(key) => (
                format!("`{key}` is given its value by a colon; it is read as ="),
                format!("write {key} = {name}, as on the other lines"),
            ),
        }
    }

    /// What stands in the name's place.
    pub(super) fn value(self, name: &str) -> String {
        match self {
            Self::Near(meant) => meant.to_owned(),
            Self::Dotted(_) | Self::Given(_) => name.to_owned(),
            Self::Stepless => "function(a, b) return span(a, b, (b - a) / 8) end".to_owned(),
        }
    }
}

/// The function of the program's that a call of an unknown name means.
pub(super) fn near_function<'a>(
    source: &Source,
    known: &'a [KnownName],
    at: usize,
) -> Option<CallSlip<'a>> {
    let functions = || known.iter().filter(|it| it.function).map(|it| it.name.as_str());
    let name = source.tokens()[at].text(source.text());
    let meant = || renamed(name, functions()).or_else(|| nearest(name, functions()));
    is_called(source, at).then(meant).flatten().map(CallSlip::Near)
}

/// Calls of known names with a slip, each with the token of its name.
pub(super) fn call_slips<'a>(
    source: &'a Source,
    own: &[OwnName<'a>],
    known: &[KnownName],
) -> Vec<(usize, CallSlip<'a>)> {
    let word = |at: usize| source.tokens().get(at).map_or("", |it| it.text(source.text()));
    let is_own = |name: &str| own.iter().any(|it| it.name == name);
    let slip = |at: usize, token: &Token| {
        let name = token.text(source.text());
        let behind = at.checked_sub(1).map_or("", word);
        if let Some(key) = at.checked_sub(2).filter(|key| gives_value(source, own, known, *key)) {
            return Some((at, CallSlip::Given(word(key))));
        }
        if token.kind != TokenKind::Name || matches!(behind, "." | ":") {
            return None;
        }
        if name == SPAN && !is_own(SPAN) && arguments(source, at) == Some(2) {
            return Some((at, CallSlip::Stepless));
        }
        let of_results = own.iter().any(|it| it.name == name && !it.function);
        let method = METHODS.into_iter().find(|method| *method == word(at + 2))?;
        let dotted = of_results && word(at + 1) == "." && is_called(source, at + 2);
        dotted.then_some((at, CallSlip::Dotted(method)))
    };
    source.tokens().iter().enumerate().filter_map(|(at, token)| slip(at, token)).collect()
}

/// Whether a name in a list, a colon and a call stand where a value is given, as in `{ contact: span(1, 3, 1) }`.
pub(super) fn gives_value(
    source: &Source,
    own: &[OwnName<'_>],
    known: &[KnownName],
    at: usize,
) -> bool {
    let word = |at: usize| source.tokens().get(at).map_or("", |it| it.text(source.text()));
    let has_methods = |name: &str| {
        own.iter().any(|it| it.name == name)
            || known.iter().any(|it| it.name == name && !it.function)
    };
    let is_name = |at: usize| source.tokens().get(at).is_some_and(|it| it.kind == TokenKind::Name);
    let of_list = at.checked_sub(1).map_or("", word);
    matches!(of_list, "{" | "," | ";")
        && is_name(at)
        && word(at + 1) == ":"
        && is_name(at + 2)
        && is_called(source, at + 2)
        && !has_methods(word(at))
        && known.iter().any(|it| it.name == word(at + 2))
}

fn is_called(source: &Source, at: usize) -> bool {
    source.tokens().get(at + 1).is_some_and(|next| {
        next.is(source.text(), "(") || next.is(source.text(), "{") || next.kind == TokenKind::Text
    })
}

/// The number of arguments in the brackets behind a name; nothing where they are not closed.
fn arguments(source: &Source, at: usize) -> Option<usize> {
    let text = source.text();
    let inside = source.tokens().get(at + 1..)?;
    inside.first().filter(|it| it.is(text, "("))?;
    let (mut depth, mut count, mut any) = (0_usize, 1, false);
    for token in inside {
        if token.closes(text) {
            depth -= 1;
            if depth == 0 {
                return any.then_some(count);
            }
        }
        any |= depth > 0;
        count += usize::from(depth == 1 && token.is(text, ","));
        depth += usize::from(token.opens(text));
    }
    None
}

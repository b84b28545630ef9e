//! Finds in a scenario's text the call that was made and the option or argument in question.
//!
//! Lua tells only the line it is on, which for a call over several lines may be its first or its
//! last; the rest is read from the text. What can't be found (options built elsewhere, a function
//! under another name) falls back to the nearest thing that can.

use super::source::Source;
use super::tokens::{KEYWORDS, TokenKind};
use std::ops::Range;

/// One step from a call to the thing a message is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PathStep<'a> {
    /// The argument with this number, counted from 1.
    Argument(usize),
    /// The field of this name in a table.
    Key(&'a str),
    /// The item with this number in a list, counted from 1.
    Item(usize),
}

/// Which part of a field the caret stands under.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldPart {
    /// The field's name.
    Key,
    /// The value that it is set to.
    Value,
}

/// A call in the text, by indices into the source's tokens.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Call {
    name: usize,
    /// The arguments with their brackets, or the one string or table.
    arguments: Range<usize>,
}

/// The bytes that a message about `path` in a call of `name` near `line` should underline.
pub fn locate(
    source: &Source,
    line: usize,
    name: Option<&str>,
    path: &[PathStep<'_>],
    mark: FieldPart,
) -> Range<usize> {
    let candidates = calls_near(source, line, name);
    let mut best = None;
    for call in &candidates {
        let (found, steps) = follow(source, call, path, mark);
        if steps == path.len() {
            return bytes(source, found);
        }
        if best.as_ref().is_none_or(|(_, most)| steps > *most) {
            best = Some((found, steps));
        }
    }
    if let Some(PathStep::Key(key)) =
        path.iter().rev().find(|step| matches!(step, PathStep::Key(_)))
        && let Some(only) = only_field_named(source, key)
    {
        return bytes(source, only..only + 1);
    }
    best.map_or_else(|| source.place_of_line(line).span(), |(found, _)| bytes(source, found))
}

fn bytes(source: &Source, tokens: Range<usize>) -> Range<usize> {
    let all = source.tokens();
    match (all.get(tokens.start), all.get(tokens.end.wrapping_sub(1))) {
        (Some(first), Some(last)) if tokens.start < tokens.end => first.start..last.end,
        _ => 0..0,
    }
}

/// Calls whose text covers the line, likeliest first.
fn calls_near(source: &Source, line: usize, name: Option<&str>) -> Vec<Call> {
    let all = source.tokens();
    let mut found: Vec<(Call, usize, usize)> = Vec::new();
    for (at, token) in all.iter().enumerate() {
        let text = token.text(source.text());
        if token.kind != TokenKind::Name || KEYWORDS.contains(&text) || is_definition(source, at) {
            continue;
        }
        let first_line = source.line_of(token.start);
        if first_line > line {
            break;
        }
        let Some(arguments) = arguments_after(source, at) else { continue };
        let last_line = source.line_of(all[arguments.end - 1].start);
        if last_line >= line {
            found.push((Call { name: at, arguments }, first_line, last_line));
        }
    }
    let named = |call: &Call| name.is_none_or(|name| all[call.name].is(source.text(), name));
    if found.iter().any(|(call, ..)| named(call)) {
        found.retain(|(call, ..)| named(call));
    }
    found.sort_by_key(|(_, first, last)| {
        (*first != line, *last != line, last.saturating_sub(*first))
    });
    found.into_iter().map(|(call, ..)| call).collect()
}

/// Whether the name at `at` is being given to a function: `function a.b(…)`.
fn is_definition(source: &Source, at: usize) -> bool {
    let all = source.tokens();
    let mut back = at;
    while back >= 2 && matches!(all[back - 1].text(source.text()), "." | ":") {
        back -= 2;
    }
    back >= 1 && all[back - 1].is(source.text(), "function")
}

fn arguments_after(source: &Source, name: usize) -> Option<Range<usize>> {
    let next = source.tokens().get(name + 1)?;
    if next.kind == TokenKind::Text {
        return Some(name + 1..name + 2);
    }
    if !(next.is(source.text(), "(") || next.is(source.text(), "{")) {
        return None;
    }
    Some(name + 1..closing(source, name + 1))
}

/// One past the bracket that closes the one at `open`; the end of the text when it is never closed.
fn closing(source: &Source, open: usize) -> usize {
    let all = source.tokens();
    let mut depth = 0_usize;
    for (at, token) in all.iter().enumerate().skip(open) {
        if token.opens(source.text()) {
            depth += 1;
        } else if token.closes(source.text()) {
            depth = depth.saturating_sub(1);
            if depth == 0 {
                return at + 1;
            }
        }
    }
    all.len()
}

/// Follows a path as far as the text shows it; gives the tokens reached and the steps taken.
fn follow(
    source: &Source,
    call: &Call,
    path: &[PathStep<'_>],
    mark: FieldPart,
) -> (Range<usize>, usize) {
    let mut shown = call.name..call.name + 1;
    let mut inside = call.arguments.clone();
    for (taken, step) in path.iter().enumerate() {
        let next = match step {
            PathStep::Argument(number) => {
                argument(source, &inside, *number).map(|at| (at.clone(), at))
            }
            PathStep::Item(number) => item(source, &inside, *number).map(|at| (at.clone(), at)),
            PathStep::Key(key) => field(source, &inside, key).map(|(name, value)| match mark {
                FieldPart::Key => (name, value),
                FieldPart::Value => (value.clone(), value),
            }),
        };
        let Some((reached, value)) = next else { return (shown, taken) };
        (shown, inside) = (reached, value);
    }
    (shown, path.len())
}

fn argument(source: &Source, inside: &Range<usize>, number: usize) -> Option<Range<usize>> {
    if source.tokens().get(inside.start)?.is(source.text(), "(") {
        parts(source, inside.start).into_iter().nth(number.checked_sub(1)?)
    } else {
        (number == 1).then(|| inside.clone())
    }
}

fn item(source: &Source, inside: &Range<usize>, number: usize) -> Option<Range<usize>> {
    let open = table_in(source, inside)?;
    parts(source, open)
        .into_iter()
        .filter(|part| key_of(source, part).is_none())
        .nth(number.checked_sub(1)?)
}

fn field(
    source: &Source,
    inside: &Range<usize>,
    wanted: &str,
) -> Option<(Range<usize>, Range<usize>)> {
    let open = table_in(source, inside)?;
    parts(source, open).into_iter().find_map(|part| {
        let (name, text, value) = key_of(source, &part)?;
        (text == wanted).then_some((name, value))
    })
}

/// The first table written inside a range.
fn table_in(source: &Source, inside: &Range<usize>) -> Option<usize> {
    inside.clone().find(|at| source.tokens()[*at].is(source.text(), "{"))
}

/// The text between the bracket at `open` and its partner, cut at its own commas.
fn parts(source: &Source, open: usize) -> Vec<Range<usize>> {
    let all = source.tokens();
    let end = closing(source, open);
    let closed = all.get(end - 1).is_some_and(|token| token.closes(source.text()));
    let last = if closed { end - 1 } else { end };
    let mut found = Vec::new();
    let (mut depth, mut from) = (0_usize, open + 1);
    for (at, token) in all.iter().enumerate().take(last).skip(open + 1) {
        if token.opens(source.text()) {
            depth += 1;
        } else if token.closes(source.text()) {
            depth = depth.saturating_sub(1);
        } else if depth == 0 && (token.is(source.text(), ",") || token.is(source.text(), ";")) {
            found.push(from..at);
            from = at + 1;
        }
    }
    found.push(from..last);
    found.retain(|part| part.start < part.end);
    found
}

/// For `name = value` or `["name"] = value`: the name's token, the name, and the value's tokens.
fn key_of<'a>(
    source: &'a Source,
    part: &Range<usize>,
) -> Option<(Range<usize>, &'a str, Range<usize>)> {
    let all = source.tokens();
    let text = source.text();
    let at = part.start;
    let is = |offset: usize, symbol: &str| {
        at + offset < part.end && all.get(at + offset).is_some_and(|token| token.is(text, symbol))
    };
    if all.get(at)?.kind == TokenKind::Name && is(1, "=") {
        return Some((at..at + 1, all[at].text(text), at + 2..part.end));
    }
    if is(0, "[") && is(2, "]") && is(3, "=") {
        return Some((at + 1..at + 2, all[at + 1].plain_text(text)?, at + 4..part.end));
    }
    None
}

/// The one field of that name in the whole text, if there is exactly one.
fn only_field_named(source: &Source, name: &str) -> Option<usize> {
    let all = source.tokens();
    let text = source.text();
    let mut found = (1..all.len().saturating_sub(1)).filter(|at| {
        all[*at].is(text, name)
            && all[*at + 1].is(text, "=")
            && matches!(all[*at - 1].text(text), "{" | "," | ";")
    });
    match (found.next(), found.next()) {
        (Some(only), None) => Some(only),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r#"-- sweep { speed = 9 }
local banks = sweep {
  note = "speed = 1, }", -- speed = 2
  off_rail = { inches(0), inches(4), 12 },
  ["spin"] = "stun",
  nested = { deep = { speed = 3 } },
  speed = span(mps(2), mps(6), mps(0.25)),
}
function draw(x) return x end
map:draw { x = "sped" } map:draw { y = "contact" }
local late = { pannels = 1 }
other(late, span(1, 2,
  0))
"#;

    fn found(line: usize, name: &str, path: &[PathStep<'_>], mark: FieldPart) -> &'static str {
        let source = Source::new("a.lua", TEXT);
        &TEXT[locate(&source, line, Some(name), path, mark)]
    }

    #[test]
    fn finds_fields_from_the_first_and_the_last_line_of_a_call() {
        for line in [2, 8] {
            let source = Source::new("a.lua", TEXT);
            let at =
                locate(&source, line, Some("sweep"), &[PathStep::Key("speed")], FieldPart::Key);
            assert_eq!(source.place(at.start, at.end).line_column(), (7, 3));
        }
        let value = found(2, "sweep", &[PathStep::Key("spin")], FieldPart::Value);
        assert_eq!(value, "\"stun\"");
        let third =
            found(2, "sweep", &[PathStep::Key("off_rail"), PathStep::Item(3)], FieldPart::Value);
        assert_eq!(third, "12");
        let deep = [PathStep::Key("nested"), PathStep::Key("deep"), PathStep::Key("speed")];
        assert_eq!(found(2, "sweep", &deep, FieldPart::Value), "3");
    }

    #[test]
    fn of_two_calls_on_a_line_takes_the_one_that_has_the_field() {
        assert_eq!(found(10, "draw", &[PathStep::Key("y")], FieldPart::Value), "\"contact\"");
    }

    #[test]
    fn falls_back_to_the_nearest_thing() {
        // Options built elsewhere, but written once in the text.
        assert_eq!(found(12, "other", &[PathStep::Key("pannels")], FieldPart::Key), "pannels");
        // A list that is not written out: its field.
        let beyond = [PathStep::Key("off_rail"), PathStep::Item(4)];
        assert_eq!(found(2, "sweep", &beyond, FieldPart::Key), "off_rail");
        // A missing field: the call's name; an unknown name: the line.
        assert_eq!(found(2, "sweep", &[PathStep::Key("contact")], FieldPart::Key), "sweep");
        assert_eq!(found(9, "gone", &[], FieldPart::Key), "function draw(x) return x end");
    }

    #[test]
    fn arguments_are_counted_over_lines() {
        assert_eq!(found(12, "span", &[PathStep::Argument(3)], FieldPart::Value), "0");
        assert_eq!(found(13, "span", &[PathStep::Argument(1)], FieldPart::Value), "1");
    }
}

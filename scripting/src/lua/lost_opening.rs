//! Lines of a table whose first line, with its bracket, is gone.

use super::name_use::NameUse;
use super::own_names::own_names;
use super::source::Source;
use super::tokens::{KEYWORDS, TokenKind};
use crate::fault::Fault;

/// The fault for the first bracket that closes nothing and has lines like `contact = 2,` above it.
pub fn told(source: &Source) -> Option<Fault> {
    let all = source.tokens();
    let word = |at: usize| all.get(at).map_or("", |token| token.text(source.text()));
    let line = |at: usize| all.get(at).map_or(0, |token| source.line_of(token.start));
    let mut depths = Vec::with_capacity(all.len());
    let mut open = Vec::new();
    let mut close = None;
    for (at, token) in all.iter().enumerate() {
        depths.push(open.len());
        if token.opens(source.text()) {
            open.push(word(at));
        } else if token.closes(source.text()) {
            match open.pop() {
                Some("(") if word(at) == ")" => {}
                Some("{") if word(at) == "}" => {}
                Some("[") if word(at) == "]" => {}
                // A bracket of its own is one too many, or too few.
                Some(_) => return None,
                None => {
                    close = Some(at);
                    break;
                }
            }
        }
    }
    let close = close.filter(|at| word(*at) == "}")?;
    let gives = |at: usize| {
        all[at].kind == TokenKind::Name && !KEYWORDS.contains(&word(at)) && word(at + 1) == "="
    };
    let starts_line = |at: usize| at == 0 || line(at - 1) < line(at);
    let lines: Vec<usize> = (0..close)
        .filter(|at| starts_line(*at) && depths[*at] == 0 && line(*at) < line(close))
        .collect();
    // All but the last of them end with a comma.
    let inside = |at: usize, last: bool| {
        gives(at) && (last || (at..close).any(|it| depths[it] == 0 && word(it) == ","))
    };
    let mut first = None;
    for (back, at) in lines.iter().rev().enumerate() {
        let ends_with_comma = back == 0 || first.is_some_and(|next: usize| word(next - 1) == ",");
        if !inside(*at, back == 0) || !ends_with_comma {
            break;
        }
        first = Some(*at);
    }
    let first = first?;
    let keys: Vec<&str> =
        (first..close).filter(|at| depths[*at] == 0 && gives(*at)).map(word).collect();
    let opened = opening(source, &keys, all[close].end);
    let message =
        format!("the line above this one is gone: the }} of line {} has no {{", line(close));
    let hint = opened.map_or_else(
        || format!("put it back, or delete lines {} to {}", line(first), line(close)),
        |opened| format!("put it back, such as: {opened}"),
    );
    let mut fault = Fault::bad_input(message).with_hint(hint);
    fault.place = Some(source.place(all[first].start, all[first + 1].end));
    Some(fault)
}

/// The line that most likely opened a table with these keys, which ends at byte `end`.
fn opening(source: &Source, keys: &[&str], end: usize) -> Option<String> {
    let own = own_names(source);
    let has = |names: &[&str]| keys.iter().any(|key| names.contains(key));
    let map = own.iter().find(|own| own.maker == "compare").map_or("map", |own| own.name);
    if has(&["shows"]) {
        Some("scenario {".into())
    } else if has(&["player", "rule", "title"]) && has(&["contact", "speed", "off_rail"]) {
        Some("page {".into())
    } else if has(&["equipment", "contact", "off_rail", "speed", "pocket"]) {
        let below = source.tokens().iter().filter(|token| token.start >= end);
        let banks = below
            .filter(|token| NameUse::of(source, token.end) == Some(NameUse::Banks))
            .map(|token| token.text(source.text()))
            .find(|name| own.iter().all(|own| own.name != *name));
        Some(format!("local {} = grid {{", banks.unwrap_or("banks")))
    } else if has(&["series"]) {
        Some(format!("{map}:draw_lines {{"))
    } else if has(&["x", "y", "panels"]) {
        Some(format!("{map}:draw {{"))
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hint(text: &str) -> Option<String> {
        told(&Source::new("a.lua", text)).and_then(|fault| fault.hint)
    }

    #[test]
    fn the_line_that_is_gone_is_known_by_what_follows_it() {
        for (text, wanted) in [
            ("  shows = 'a',\n}\n", "scenario {"),
            ("  contact = 2,\n  player = player 'club',\n}\n", "page {"),
            (
                "local a = 1\n  contact = 2,\n  speed = {\n    1 },\n}\ncompare(club, a)\n",
                "local club = grid {",
            ),
            ("local m = compare(a, b)\n  x = 'speed', series = 'spin',\n}\n", "m:draw_lines {"),
            ("a = 1\n  x = 'speed',\n  y = 'contact'\n}\n", "map:draw {"),
        ] {
            assert_eq!(hint(text), Some(format!("put it back, such as: {wanted}")), "{text}");
        }
        for text in ["print(1)\n}\n", "print { x = 1 }\n", "print(1))\n"] {
            assert_eq!(hint(text), None, "{text}");
        }
    }
}

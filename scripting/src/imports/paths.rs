//! The paths that a file names: those of its `use` lines, and those that stand in its code.

/// A path, and whether a `pub use` passes it on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct NamedPath {
    pub(super) words: Vec<String>,
    pub(super) passed_on: bool,
    /// The name under which it is known from here on.
    pub(super) known_as: String,
}

/// Every path of at least two words, or that a `use` names.
pub(super) fn paths(tokens: &[&str]) -> Vec<NamedPath> {
    let mut paths = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let passed_on = at > 0 && matches!(tokens[at - 1], "pub" | ")");
        if tokens[at] == "use"
            && (at == 0 || matches!(tokens[at - 1], ";" | "}" | "]" | "{" | "pub" | ")"))
        {
            let end =
                at + tokens[at..].iter().position(|it| *it == ";").unwrap_or(tokens.len() - at);
            tree(&tokens[at + 1..end], &[], passed_on, &mut paths);
            at = end;
        } else if is_word(tokens[at]) && (at == 0 || tokens[at - 1] != "::") {
            let words = path(&tokens[at..]);
            if words.len() > 1 {
                at += 2 * (words.len() - 1);
                paths.push(named(words, false, None));
            }
        }
        at += 1;
    }
    paths
}

fn is_word(token: &str) -> bool {
    token.starts_with(|first: char| first.is_ascii_alphabetic() || first == '_')
}

/// The words of the path that begins here.
fn path(tokens: &[&str]) -> Vec<String> {
    let mut words = Vec::new();
    for pair in tokens.chunks(2) {
        if !is_word(pair[0]) {
            break;
        }
        words.push(pair[0].to_owned());
        if pair.get(1) != Some(&"::") {
            break;
        }
    }
    words
}

fn named(words: Vec<String>, passed_on: bool, known_as: Option<&str>) -> NamedPath {
    let last = words.last().cloned().unwrap_or_default();
    NamedPath { words, passed_on, known_as: known_as.map_or(last, str::to_owned) }
}

/// The paths of a tree such as `a::{b, c::d as e}`.
fn tree(tokens: &[&str], before: &[String], passed_on: bool, paths: &mut Vec<NamedPath>) {
    let words = path(tokens);
    let rest = &tokens[(2 * words.len()).min(tokens.len())..];
    let whole = || [before, &words].concat();
    match (tokens.get((2 * words.len()).saturating_sub(1)), rest) {
        (_, ["{", inside @ .., "}"]) => {
            for part in parts(inside) {
                tree(part, &whole(), passed_on, paths);
            }
        }
        (Some(&"as"), [name, ..]) => paths.push(named(whole(), passed_on, Some(name))),
        _ => paths.push(named(whole(), passed_on, None)),
    }
}

/// Split at the commas that stand in no braces.
fn parts<'a>(tokens: &'a [&'a str]) -> impl Iterator<Item = &'a [&'a str]> {
    let mut depth = 0;
    tokens
        .split(move |token| {
            match *token {
                "{" => depth += 1,
                "}" => depth -= 1,
                _ => {}
            }
            *token == "," && depth == 0
        })
        .filter(|part| !part.is_empty())
}

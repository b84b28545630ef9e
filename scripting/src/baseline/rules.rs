//! The rules of a baseline: each by its name, or by its content, and the parts that it is made of.

use super::names::tame;
use super::parameters::moved;
use crate::lua::plain_source;
use crate::plan::sha256;
use crate::record::MovedParameter;
use railproof_engine::rule::{NamedRule, Outside, Rule, ShiftFrom, WayBetween};
use railproof_engine::units::plain;

/// Letters of a digest that tell one function from another.
const DIGEST_LETTERS: usize = 12;
/// The kinds of rules, each with its words.
pub(super) const KINDS: [(&str, &str); 4] = [
    ("linear", "linear"),
    ("mirror", "mirror geometry"),
    ("lines", "a table of lines"),
    (FUNCTION, "a function"),
];
/// Known lines of a table that are held one by one.
const MOST_LINES: usize = 100;
/// The part that holds a function's digest.
pub(super) const FUNCTION: &str = "function";

/// A rule's name, and the parts it is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct StoredRule {
    /// The name by which its rows are known.
    pub(super) key: String,
    /// What it is; empty when the file does not tell.
    pub(super) kind: String,
    /// Its parts and their values.
    pub(super) parts: Vec<(String, String)>,
}

impl StoredRule {
    pub(super) fn of(named: &NamedRule) -> Self {
        let reading = ("reading".to_owned(), named.rule.reading().name().to_owned());
        let (kind, parts) = match &named.rule {
            Rule::Linear(linear) => {
                let numbers = [("slope", linear.slope()), ("offset", linear.offset())];
                let numbers = numbers.map(|(name, value)| (name.to_owned(), plain(value)));
                ("linear", numbers.into_iter().chain([reading]).collect())
            }
            Rule::Mirror => ("mirror", Vec::new()),
            Rule::Lines(table) => {
                let mut parts = vec![reading];
                parts.extend(way_parts(table.way()));
                let lines = table.lines().iter().enumerate();
                let lines = lines.map(|(at, line)| {
                    (
                        format!("line {}", at + 1),
                        format!("{} to {}", plain(line.contact), plain(line.start)),
                    )
                });
                let lines: Vec<(String, String)> = lines.collect();
                if lines.len() <= MOST_LINES {
                    parts.extend(lines);
                } else {
                    let all: Vec<&str> = lines.iter().map(|(_, line)| line.as_str()).collect();
                    let all = short_digest(&all.join(
                        "
",
                    ));
                    let told = format!("{} lines, {all}", lines.len());
                    parts.push(("lines".to_owned(), told));
                }
                ("lines", parts)
            }
            Rule::Function(_) => (FUNCTION, vec![reading, (FUNCTION.to_owned(), digest(named))]),
        };
        Self { key: key_of(named), kind: kind.to_owned(), parts }
    }

    /// A rule of which only the name is known.
    pub(super) const fn named(key: String) -> Self {
        Self { key, kind: String::new(), parts: Vec::new() }
    }

    /// Whether it is the same rule by whatever name.
    pub(super) fn is_alike(&self, other: &Self) -> bool {
        !self.kind.is_empty() && self.kind == other.kind && self.parts == other.parts
    }

    /// The changes from this rule to another; `only` when there is one rule.
    pub(super) fn changes(&self, now: &Self, only: bool) -> Vec<MovedParameter> {
        if self.kind.is_empty() || now.kind.is_empty() {
            // Files of before tell a function by its line.
            let names_tell = self.key != now.key && now.kind != FUNCTION;
            let change = || moved("rule", "the rule", &self.key, &now.key);
            return names_tell.then(change).into_iter().collect();
        }
        let of = if only { "the rule".to_owned() } else { format!("the rule `{}`", now.key) };
        if self.kind != now.kind {
            return vec![moved("rule", &of, kind_words(&self.kind), kind_words(&now.kind))];
        }
        let mut found = Vec::new();
        let part = |rule: &Self, name: &str| {
            rule.parts.iter().find(|(known, _)| known == name).map(|(_, value)| value.clone())
        };
        let none = || "none".to_owned();
        for (name, is) in &now.parts {
            let was = part(self, name).unwrap_or_else(none);
            if was == *is {
            } else if name == FUNCTION {
                let words = format!("{of}'s function changed");
                found.push(MovedParameter { name: name.clone(), was, is: is.clone(), words });
            } else {
                found.push(moved(name, &format!("{of}'s {name}"), &rounded(&was), &rounded(is)));
            }
        }
        for (name, was) in self.parts.iter().filter(|(name, _)| part(now, name).is_none()) {
            found.push(moved(name, &format!("{of}'s {name}"), &rounded(was), &none()));
        }
        found
    }
}

/// A number as people write it; anything else as it is.
fn rounded(value: &str) -> String {
    value.parse().map_or_else(|_| value.to_owned(), plain)
}

fn kind_words(kind: &str) -> &str {
    KINDS.iter().find(|(known, _)| *known == kind).map_or(kind, |(_, words)| words)
}

/// The name by which a rule's rows are known: a function without a name by its content.
pub(super) fn key_of(named: &NamedRule) -> String {
    // Without a name of its own it is told by its line, which moves with the lines above it.
    let unnamed = named.name == named.rule.name();
    match &named.rule {
        Rule::Function(function) if unnamed => {
            format!("function {}, {}", digest(named), function.reading().name())
        }
        _ => tame(&named.name),
    }
}

/// The digest of a function's text, whatever its comments, spaces and lines.
fn digest(named: &NamedRule) -> String {
    let Rule::Function(function) = &named.rule else { return String::new() };
    short_digest(&function.function().source().map(plain_source).unwrap_or_default())
}

fn short_digest(text: &str) -> String {
    sha256(text.as_bytes()).chars().take(DIGEST_LETTERS).collect()
}

fn way_parts(way: WayBetween) -> Vec<(String, String)> {
    let from = |from: ShiftFrom| match from {
        ShiftFrom::Nearest => "nearest",
        ShiftFrom::Lower => "lower",
        ShiftFrom::Upper => "upper",
    };
    let outside = |outside: Outside| match outside {
        Outside::Refuse => "refuse",
        Outside::Extrapolate => "extrapolate",
    };
    let parts = match way {
        WayBetween::Interpolate { outside: it } => {
            vec![("way", "interpolate".to_owned()), ("outside", outside(it).to_owned())]
        }
        WayBetween::ProportionalShift { ratio, from: it } => vec![
            ("way", "proportional".to_owned()),
            ("ratio", ratio.to_string()),
            ("from", from(it).to_owned()),
        ],
        WayBetween::ParallelShift { from: it } => {
            vec![("way", "parallel".to_owned()), ("from", from(it).to_owned())]
        }
    };
    parts.into_iter().map(|(name, value)| (name.to_owned(), value)).collect()
}

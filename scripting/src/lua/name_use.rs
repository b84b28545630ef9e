//! The use that a scenario makes of a name, read from the text around it.

use super::source::Source;

/// The use of a value, as far as the text around its name shows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NameUse {
    /// A function.
    Called,
    /// A thing with members.
    Asked,
    /// `equipment = NAME`.
    Equipment,
    /// The first argument of `compare` and its like.
    Banks,
    /// A later argument of them, or `rule = NAME`.
    Rule,
    /// A key whose `=` is missing or doubled.
    Key,
    /// A number in a sum.
    Counted,
    /// None of these.
    Other,
}

/// Signs between numbers.
const SIGNS: &[&str] = &["+", "-", "*", "/", "//", "^", "%", "<", ">", "<=", ">="];

/// Calls that each give one sort of value.
const MAKERS: &[&str] = &[
    "equipment",
    "rule",
    "grid",
    "sample",
    "compare",
    "shots",
    "exact_starts",
    "frontier",
    "bank",
    "page",
    "bank_shot",
    "lay",
];

impl NameUse {
    /// The use of the name whose token ends at byte `end`.
    pub fn of(source: &Source, end: usize) -> Option<Self> {
        let at = source.tokens().iter().position(|token| token.end == end)?;
        let text =
            |at: usize| source.tokens().get(at).map_or("", |token| token.text(source.text()));
        let before = |back: usize| at.checked_sub(back).map_or("", text);
        Some(match (before(2), before(1), text(at + 1)) {
            (_, "{" | ",", next) if next == "==" || next.starts_with(['"', '\'']) => Self::Key,
            (_, _, "(") => Self::Called,
            (_, _, "." | ":" | "[") => Self::Asked,
            ("equipment", "=", _) => Self::Equipment,
            ("rule", "=", _) => Self::Rule,
            ("expect", "(", _) => Self::Asked,
            ("compare" | "plan" | "exact_starts", "(", _) => Self::Banks,
            _ if before(4) == "compare" && before(1) == "," => Self::Rule,
            (_, before, after) if SIGNS.contains(&before) || SIGNS.contains(&after) => {
                Self::Counted
            }
            _ => Self::Other,
        })
    }

    /// The words with which values that are used like that begin.
    pub const fn makers(self) -> &'static [&'static str] {
        match self {
            Self::Called | Self::Key | Self::Counted => &[],
            Self::Asked => {
                &["compare", "shots", "exact_starts", "frontier", "bank", "bank_shot", "lay"]
            }
            Self::Equipment => &["equipment"],
            Self::Banks => &["grid", "sample"],
            Self::Rule => &["rule"],
            Self::Other => MAKERS,
        }
    }
}

//! The name of a rule in rankings and messages.

use super::{LineTable, Linear, Rule, ShiftFrom, WayBetween};
use crate::units::short_number;
use serde::Serialize;

/// A rule and its user's name for it.
#[derive(Debug, Clone, Serialize)]
pub struct NamedRule {
    /// The name.
    pub name: String,
    /// The rule.
    pub rule: Rule,
}

impl NamedRule {
    /// A rule under the given name, or under its own description.
    pub fn new(name: Option<String>, rule: Rule) -> Self {
        Self { name: name.unwrap_or_else(|| rule.name()), rule }
    }
}

impl From<Rule> for NamedRule {
    fn from(rule: Rule) -> Self {
        Self::new(None, rule)
    }
}

impl Rule {
    /// The rule in words, such as `2.2 × contact, groove`.
    pub fn name(&self) -> String {
        let words = match self {
            Self::Linear(linear) => linear_name(linear),
            Self::Mirror => return "mirror geometry".to_owned(),
            Self::Lines(table) => table_name(table),
            Self::Function(function) => function.function().name().to_owned(),
        };
        format!("{words}, {}", self.reading().name())
    }
}

fn linear_name(linear: &Linear) -> String {
    let (slope, offset) = (short_number(linear.slope(), 3), short_number(linear.offset(), 3));
    let times = match slope.as_str() {
        "0" => return format!("start always {offset}"),
        "1" => "the contact".to_owned(),
        "2" => "twice the contact".to_owned(),
        _ => format!("{slope} × contact"),
    };
    match (offset.as_str(), offset.strip_prefix('-')) {
        ("0", _) => times,
        (_, Some(size)) => format!("{times} minus {size}"),
        (_, None) => format!("{times} plus {offset}"),
    }
}

fn table_name(table: &LineTable) -> String {
    let count = table.lines().len();
    let lines = if count == 1 { "1 line".to_owned() } else { format!("{count} lines") };
    let from = |from: ShiftFrom| match from {
        ShiftFrom::Nearest => "nearest",
        ShiftFrom::Lower => "lower",
        ShiftFrom::Upper => "upper",
    };
    match table.way() {
        WayBetween::Interpolate { .. } => format!("{lines}, interpolated"),
        WayBetween::ProportionalShift { ratio, from: line } => {
            format!("{lines}, shifted {} to 1 from the {}", short_number(ratio, 3), from(line))
        }
        WayBetween::ParallelShift { from: line } => {
            format!("{lines}, shifted parallel from the {}", from(line))
        }
    }
}

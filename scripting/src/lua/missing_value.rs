//! The value that a line above most likely gave a name, where that line is gone.

use super::name_use::NameUse;
use super::own_names::OwnName;
use super::source::Source;

/// The table of a scenario that names none: the one beside it, or a shipped one.
#[derive(Debug, Clone)]
pub struct UsualTable(pub String);

/// A value that is gone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// The words that stand in for it, as Lua, unless nothing can.
    pub value: Option<String>,
    /// The same for people.
    pub stands_in: Option<String>,
    /// The value in a line that could be put back.
    line: String,
}

impl Missing {
    /// The value of the name that ends at byte `end`.
    pub fn of(
        source: &Source,
        own: &[OwnName<'_>],
        end: usize,
        table: &UsualTable,
    ) -> Option<Self> {
        let stood_in = |value: String, line: String, stands_in: String| Self {
            value: Some(value),
            stands_in: Some(stands_in),
            line,
        };
        let line = source.line_of(end);
        let made_by = |makers: &[&str]| {
            own.iter().find(|it| it.outermost && it.line < line && makers.contains(&it.maker))
        };
        match NameUse::of(source, end)? {
            NameUse::Equipment => {
                let value = format!("equipment {:?}", table.0);
                Some(stood_in(value.clone(), value, format!("the table {}", table.0)))
            }
            NameUse::Rule => Some(stood_in(
                "rule.linear { slope = 2.2 }".into(),
                "rule.linear { slope = 2.2, reading = \"groove\" }".into(),
                "2.2 × contact".into(),
            )),
            NameUse::Banks => {
                Some(Self { value: None, stands_in: None, line: "grid { … }".into() })
                    .filter(|_| made_by(&["grid", "sample"]).is_none())
            }
            NameUse::Asked => match made_by(&["compare"]) {
                Some(map) => {
                    Some(Self { value: None, stands_in: None, line: selection(source, map.name) })
                }
                None => {
                    let (banks, rule) = (made_by(&["grid", "sample"])?, made_by(&["rule"])?);
                    let value = format!("compare({}, {})", banks.name, rule.name);
                    Some(stood_in(value.clone(), value.clone(), format!("`{value}`")))
                }
            },
            _ => None,
        }
    }

    /// The line to put back.
    pub fn hint(&self, name: &str) -> String {
        format!("a line above this gives it a value, such as: local {name} = {}", self.line)
    }
}

/// A selection of a map as the text has one elsewhere.
fn selection(source: &Source, map: &str) -> String {
    let text = source.text();
    let word = |at: usize| source.tokens().get(at).map_or("", |token| token.text(text));
    let selects = |at: &usize| {
        (word(*at), word(at + 1), word(at + 2), word(at + 3)) == (map, ":", "where", "{")
    };
    let all = 0..source.tokens().len();
    let given = all.clone().filter(selects).find(|at| *at > 0 && word(at - 1) == "=");
    let found = given.or_else(|| all.clone().find(selects)).and_then(|at| {
        let end = (at..source.tokens().len()).find(|at| word(*at) == "}")?;
        let inside = &text[source.tokens()[at].start..source.tokens()[end].end];
        (!inside.contains('\n')).then(|| inside.to_owned())
    });
    found.unwrap_or_else(|| format!("{map}:where {{ … }}"))
}

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
    /// The remedy.
    pub hint: String,
}

impl Missing {
    /// The value of the name that ends at byte `end`.
    pub fn of(
        source: &Source,
        own: &[OwnName<'_>],
        end: usize,
        table: &UsualTable,
    ) -> Option<Self> {
        let name = source.tokens().iter().find(|token| token.end == end)?.text(source.text());
        let stood_in = |value: String, line: &str, stands_in: String| Self {
            hint: put_back(name, line),
            value: Some(value),
            stands_in: Some(stands_in),
        };
        let only_told = |hint: String| Self { value: None, stands_in: None, hint };
        let line = source.line_of(end);
        let made_by = |makers: &[&str]| {
            own.iter().find(|it| it.outermost && it.line < line && makers.contains(&it.maker))
        };
        match NameUse::of(source, end)? {
            NameUse::Equipment => {
                let value = format!("equipment {:?}", table.0);
                let told = format!("the table {}", table.0);
                Some(stood_in(value.clone(), &value, told))
            }
            NameUse::Rule => Some(stood_in(
                "rule.linear { slope = 2.2 }".into(),
                "rule.linear { slope = 2.2, reading = \"groove\" }",
                "2.2 × contact".into(),
            )),
            NameUse::Banks => {
                let table = made_by(&["equipment"])
                    .map_or_else(|| format!("equipment {:?}", table.0), |own| own.name.to_owned());
                let line = format!(
                    "grid {{ equipment = {table}, contact = span(1.5, 3, 0.25), \
                     off_rail = inches(0), speed = {{ mps(2), mps(3), mps(4) }} }}"
                );
                made_by(&["grid", "sample"])
                    .is_none()
                    .then(|| stood_in(line.clone(), &line, "a small grid".to_owned()))
            }
            NameUse::Asked => match made_by(&["compare"]) {
                Some(map) => Some(only_told(of_map(source, map.name, end))),
                None => {
                    let (banks, rule) = (made_by(&["grid", "sample"])?, made_by(&["rule"])?);
                    let value = format!("compare({}, {})", banks.name, rule.name);
                    Some(stood_in(value.clone(), &value, format!("`{value}`")))
                }
            },
            _ => None,
        }
    }
}

/// The name of a part of a map, where the name itself says which.
const FROZEN: &str = "frozen";

/// The hint for a name that most likely stood for a map or a part of one. Which part it was, only a name that
/// says so can tell.
fn of_map(source: &Source, map: &str, end: usize) -> String {
    let text = source.text();
    let word = |at: usize| source.tokens().get(at).map_or("", |token| token.text(text));
    let all = 0..source.tokens().len();
    let name = all.clone().find(|at| source.tokens()[*at].end == end).map_or("", word);
    let is_zero = |at: &usize| {
        (word(*at), word(at + 1), word(at + 2), word(at + 3)) == ("inches", "(", "0", ")")
    };
    if name == FROZEN && all.clone().any(|at| is_zero(&at)) {
        return put_back(name, &format!("{map}:where {{ off_rail = inches(0) }}"));
    }
    let selects = |at: &usize| (word(*at), word(at + 1), word(at + 2)) == (map, ":", "where");
    let line = all.clone().find(selects).map(|at| source.line_of(source.tokens()[at].start));
    let part = line.map_or_else(String::new, |line| {
        format!(", or a part of it, chosen in the way of line {line}")
    });
    format!("{}, which is the whole map{part}", put_back(name, map))
}

fn put_back(name: &str, value: &str) -> String {
    format!("a line above this gives it a value, such as: local {name} = {value}")
}

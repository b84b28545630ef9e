//! A selection's wish for one axis: a value, a list of values, or a range.

use super::equipment::EquipmentObject;
use super::range::range_ends;
use crate::lua::options::{Kind, Mismatch, one_or_many};
use crate::lua::quantity::{of_value, plain_number};
use mlua::Value;

/// The values asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum ValueChoice<T> {
    /// These values.
    These(Vec<T>),
    /// All from the one to the other, both included.
    Range(Option<T>, Option<T>),
}

/// A value, a list, `{ from = …, to = … }` or `from_to(…, …)`.
#[derive(Debug, Clone, Copy)]
pub struct WantedOf<K>(pub K);

impl<K: Kind + Copy> Kind for WantedOf<K> {
    type Output = ValueChoice<K::Output>;

    fn expected(&self) -> String {
        format!("{}, a list of such, or {{ from = …, to = … }}", self.0.expected())
    }

    fn read(&self, value: &Value) -> Result<Self::Output, Mismatch> {
        if let Some((from, to)) = range_ends(value) {
            if reversed(&from, &to) {
                return Err(Mismatch::message("must go from the smaller to the greater"));
            }
            return Ok(ValueChoice::Range(Some(self.0.read(&from)?), Some(self.0.read(&to)?)));
        }
        if let Value::Table(table) = value {
            let end = |name: &str| table.raw_get::<Value>(name).unwrap_or(Value::Nil);
            let (from, to) = (end("from"), end("to"));
            if !from.is_nil() || !to.is_nil() {
                let given = usize::from(!from.is_nil()) + usize::from(!to.is_nil());
                if table.pairs::<Value, Value>().count() != given {
                    return Err(Mismatch::message("takes `from` and `to`, and nothing else"));
                }
                if reversed(&from, &to) {
                    return Err(Mismatch::message("must go from the smaller to the greater")
                        .with_hint("put the smaller at `from` and the greater at `to`"));
                }
                let read = |end: &Value| (!end.is_nil()).then(|| self.0.read(end)).transpose();
                return Ok(ValueChoice::Range(read(&from)?, read(&to)?));
            }
        }
        one_or_many(self.0).read(value).map(ValueChoice::These)
    }
}

/// Whether both ends are given and the first is the greater.
fn reversed(from: &Value, to: &Value) -> bool {
    let amounts = match (plain_number(from), plain_number(to), of_value(from), of_value(to)) {
        (Some(from), Some(to), ..) => Some((from, to)),
        (_, _, Some(from), Some(to)) => from.amount_of(to).map(|to| (from.amount(), to)),
        _ => None,
    };
    amounts.is_some_and(|(from, to)| from > to)
}

/// A piece of equipment, or its name.
#[derive(Debug, Clone, Copy)]
pub struct EquipmentName;

impl Kind for EquipmentName {
    type Output = String;

    fn expected(&self) -> String {
        "an equipment or its name".to_owned()
    }

    fn read(&self, value: &Value) -> Result<String, Mismatch> {
        let name = match value {
            Value::String(name) => Some(name.to_string_lossy()),
            Value::UserData(data) => {
                data.borrow::<EquipmentObject>().ok().map(|held| held.0.name.clone())
            }
            _ => None,
        };
        name.ok_or_else(|| Mismatch::other_sort(&self.expected(), value))
    }
}

/// A rule, or its name.
#[derive(Debug, Clone, Copy)]
pub struct RuleName;

impl Kind for RuleName {
    type Output = String;

    fn expected(&self) -> String {
        "a rule or its name".to_owned()
    }

    fn read(&self, value: &Value) -> Result<String, Mismatch> {
        let name = match value {
            Value::String(name) => Some(name.to_string_lossy()),
            Value::UserData(data) => data
                .borrow::<super::rule_object::RuleObject>()
                .ok()
                .map(|held| held.0.named.name.clone()),
            _ => None,
        };
        name.ok_or_else(|| Mismatch::other_sort(&self.expected(), value))
    }
}

/// Any text.
#[derive(Debug, Clone, Copy)]
pub struct Word;

impl Kind for Word {
    type Output = String;

    fn expected(&self) -> String {
        "a word".to_owned()
    }

    fn read(&self, value: &Value) -> Result<String, Mismatch> {
        match value {
            Value::String(name) => Ok(name.to_string_lossy()),
            _ => Err(Mismatch::other_sort(&self.expected(), value)),
        }
    }
}

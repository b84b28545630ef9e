//! `from_to(low, high)`: a range that a sample spreads its points over.

use super::inputs::WrittenNumber;
use super::members;
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{self, kind_of, plain_number};
use mlua::{Lua, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::sweep::{Span, Values};
use railproof_engine::units::SpeedWord;

/// `from_to(low, high)`: the two ends as they were written.
#[derive(Debug, Clone)]
struct FromTo {
    low: Value,
    high: Value,
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("from_to", lua.create_function(from_to)?)
}

/// A word for a speed, which is read with its key.
fn is_word(value: &Value) -> bool {
    let Value::String(text) = value else { return false };
    SpeedWord::ALL.iter().any(|word| *text == word.name())
}

fn from_to(lua: &Lua, (low, high): (Value, Value)) -> mlua::Result<FromTo> {
    for (at, value) in [&low, &high].into_iter().enumerate() {
        if plain_number(value).is_none() && quantity::of_value(value).is_none() && !is_word(value) {
            return Err(Fault::bad_input(format!(
                "from_to takes two numbers or quantities, not {}",
                kind_of(value)
            ))
            .with_hint("write from_to(1, 4) or from_to(mps(2), mps(6))")
            .placed(place::argument(lua, "from_to", at + 1))
            .into());
        }
    }
    Ok(FromTo { low, high })
}

/// Reads a range whose ends are of a kind.
#[derive(Debug, Clone, Copy)]
pub struct RangeOf<K>(pub K);

impl<K: Kind<Output = WrittenNumber>> Kind for RangeOf<K> {
    type Output = (WrittenNumber, WrittenNumber);

    fn expected(&self) -> String {
        format!("from_to of two of: {}", self.0.expected())
    }

    fn read(&self, value: &Value) -> Result<Self::Output, Mismatch> {
        let ends = match value {
            Value::UserData(object) => object.borrow::<FromTo>().ok(),
            _ => None,
        };
        let Some(ends) = ends else {
            return Err(Mismatch::other_sort(&self.expected(), value));
        };
        Ok((self.0.read(&ends.low)?, self.0.read(&ends.high)?))
    }
}

/// True for a range.
pub fn is_range(value: &Value) -> bool {
    matches!(value, Value::UserData(object) if object.is::<FromTo>())
}

/// The ends of a range as they were written; `None` of anything else.
pub fn range_ends(value: &Value) -> Option<(Value, Value)> {
    let Value::UserData(object) = value else { return None };
    object.borrow::<FromTo>().ok().map(|ends| (ends.low.clone(), ends.high.clone()))
}

/// The values of a range.
pub fn range(low: &WrittenNumber, high: &WrittenNumber) -> Values {
    Values::Range(Span { low: low.si, high: high.si })
}

impl UserData for FromTo {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "range");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        members::only(methods, "a range", &[]);
    }
}

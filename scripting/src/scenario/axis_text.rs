//! The text of an axis from the values that a script wrote, and its values for scripts.

use super::inputs::WrittenNumber;
use crate::lua::quantity::Quantity;
use crate::telling::AxisText;
use mlua::{IntoLua, Lua, Value};
use railproof_engine::sweep::Input;

/// For numbers as they were written; all are numbers in the unit of the first, and shown in their
/// own.
pub fn written(input: Input, values: &[WrittenNumber]) -> AxisText {
    let unit = values.first().map_or("", |first| first.unit);
    let amounts = values.iter().map(|value| amount_in(unit, value)).collect();
    let words = values.iter().map(|value| value.word).collect();
    let text = AxisText::of_numbers(input, unit, amounts, words);
    let mixed = values.iter().any(|value| value.word.is_none() && value.unit != unit);
    if mixed {
        let ticks = values.iter().map(WrittenNumber::shown).collect();
        return AxisText { ticks, mixed, ..text };
    }
    text
}

/// A value of an axis as a script sees it.
pub fn lua_value(text: &AxisText, lua: &Lua, at: usize) -> mlua::Result<Value> {
    match text.amounts.get(at) {
        Some(amount) if text.unit.is_empty() => Ok(Value::Number(*amount)),
        Some(amount) => Quantity::new(*amount, text.unit)?.into_lua(lua),
        None => text.ticks.get(at).map(String::as_str).into_lua(lua),
    }
}

fn amount_in(unit: &'static str, value: &WrittenNumber) -> f64 {
    if value.unit == unit {
        return value.amount;
    }
    let as_quantity = |amount, symbol| Quantity::new(amount, symbol).ok();
    match (as_quantity(1.0, unit), as_quantity(value.amount, value.unit)) {
        (Some(unit), Some(value)) => unit.amount_of(value).unwrap_or(value.amount()),
        _ => value.amount,
    }
}

//! `shots:where { … }`: fewer rows; a condition that matches none is an error.

use super::axes::{tick, unit};
use super::set::ShotsObject;
use crate::fault::Fault;
use crate::lua::options::{Options, Within};
use crate::lua::quantity::{Quantity, kind_of, of_value, plain_number};
use crate::plan::ShotValues;
use crate::renamed;
use crate::scenario::inputs::same;
use mlua::{Lua, Value};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn narrowed(
    lua: &Lua,
    this: &ShotsObject,
    argument: Value,
) -> mlua::Result<ShotsObject> {
    let (options, conditions) = Options::open_named(lua, "where", &argument)?;
    if conditions.is_empty() {
        return Err(options.complain_of_call("where needs at least one condition").into());
    }
    let mut narrower = this.clone();
    for (name, wanted) in conditions {
        let within = [Within::Key(name.clone())];
        let names = || this.record.axes.iter().map(|axis| axis.name.as_str());
        let Some(at) = names().position(|known| known == name) else {
            let fault =
                options.complain_within(&within, format!("nothing here varies as `{name}`"));
            let hint = renamed::hint_or_all(&name, names(), "what varies");
            return Err(fault.with_hint(hint).into());
        };
        let values = &this.record.axes[at].values;
        let kept = matching(&options, &within, &name, values, &this.kept[at], &wanted)?;
        narrower.kept[at] = kept;
    }
    Ok(narrower)
}

/// One value that is wanted, in the axis' own unit or as its word.
enum OneValue {
    Number(f64),
    Word(String),
}

fn matching(
    options: &Options,
    within: &[Within],
    name: &str,
    values: &ShotValues,
    kept: &[usize],
    wanted: &Value,
) -> Result<Vec<usize>, Fault> {
    let read = |value: &Value| one(options, within, name, values, value);
    let is = |place: usize, one: &OneValue| match (values, one) {
        (ShotValues::Words(words), OneValue::Word(word)) => words[place] == *word,
        (ShotValues::Numbers { amounts, .. }, OneValue::Number(number)) => {
            same(amounts[place], *number)
        }
        _ => false,
    };
    let it_is = || {
        let ticks: Vec<String> = kept.iter().take(12).map(|place| tick(values, *place)).collect();
        let more = if kept.len() > 12 { ", …" } else { "" };
        format!("it is: {}{more} {}", ticks.join(", "), unit(values)).trim_end().to_owned()
    };
    let nowhere = |what: String| {
        options
            .complain_within(within, format!("`{name}` is nowhere {what} here"))
            .with_hint(it_is())
    };
    if let Value::Table(table) = wanted {
        let end = |key: &str| table.raw_get::<Value>(key).unwrap_or(Value::Nil);
        let (from, to) = (end("from"), end("to"));
        if !from.is_nil() || !to.is_nil() {
            let bound = |value: &Value, otherwise: f64| match value {
                Value::Nil => Ok(otherwise),
                given => match read(given)? {
                    OneValue::Number(number) => Ok(number),
                    OneValue::Word(_) => Err(options.complain_within(
                        within,
                        format!("`{name}` is words, which have no range"),
                    )),
                },
            };
            let (low, high) = (bound(&from, f64::NEG_INFINITY)?, bound(&to, f64::INFINITY)?);
            let inside = |place: &usize| match values {
                ShotValues::Numbers { amounts, .. } => {
                    let amount = amounts[*place];
                    (amount >= low || same(amount, low)) && (amount <= high || same(amount, high))
                }
                ShotValues::Words(_) => false,
            };
            let found: Vec<usize> = kept.iter().copied().filter(inside).collect();
            return if found.is_empty() {
                Err(nowhere("in that range".to_owned()))
            } else {
                Ok(found)
            };
        }
        let mut found = Vec::new();
        for number in 1..=table.raw_len() {
            let value: Value = table.raw_get(number).unwrap_or(Value::Nil);
            let one = read(&value)?;
            let place = kept.iter().copied().find(|place| is(*place, &one));
            found.push(place.ok_or_else(|| nowhere(shown(&value)))?);
        }
        if found.is_empty() {
            return Err(options.complain_within(within, format!("`{name}` asks for nothing")));
        }
        found.sort_unstable();
        found.dedup();
        return Ok(found);
    }
    let one = read(wanted)?;
    match kept.iter().copied().find(|place| is(*place, &one)) {
        Some(place) => Ok(vec![place]),
        None => Err(nowhere(shown(wanted))),
    }
}

fn shown(value: &Value) -> String {
    match (value, of_value(value), plain_number(value)) {
        (Value::String(word), ..) => format!("\"{}\"", word.to_string_lossy()),
        (_, Some(quantity), _) => quantity.to_string(),
        (_, _, Some(number)) => crate::lua::quantity::shown(number),
        _ => "that".to_owned(),
    }
}

fn one(
    options: &Options,
    within: &[Within],
    name: &str,
    values: &ShotValues,
    value: &Value,
) -> Result<OneValue, Fault> {
    let wrong = |expected: String| {
        options.complain_within(within, format!("`{name}` is {expected}, not {}", kind_of(value)))
    };
    match values {
        ShotValues::Words(_) => match value {
            Value::String(word) => Ok(OneValue::Word(word.to_string_lossy())),
            _ => Err(wrong("words".to_owned())),
        },
        ShotValues::Numbers { unit: "", .. } => plain_number(value)
            .map(OneValue::Number)
            .ok_or_else(|| wrong("plain numbers".to_owned())),
        ShotValues::Numbers { unit, .. } => {
            let unit = Quantity::new(1.0, unit)?;
            of_value(value)
                .and_then(|given| unit.amount_of(given))
                .map(OneValue::Number)
                .ok_or_else(|| wrong(unit.kind().described().to_owned()))
        }
    }
}

//! The axes of a sweep of shots: the scenario's own names, each with its values.

use crate::fault::Fault;
use crate::layout::unit_of_plain;
use crate::lua::options::{Options, Within};
use crate::lua::quantity::{Quantity, kind_of, of_value, plain_number, shown, with_unit};
use crate::plan::{ShotAxis, ShotValues, si_of, si_unit_of, taken};
use crate::scenario::inputs::same;
use mlua::{IntoLua, Lua, Value};

/// The key of a layout that names its equipment.
const EQUIPMENT: &str = "equipment";
/// Longest name of an axis: it goes to a column of a file.
const LONGEST_NAME: usize = 40;

/// The axes at `over`, in the order of their names.
/// Keys of a layout may have dots.
pub(super) fn axes(options: &Options, are_keys: bool) -> Result<Vec<ShotAxis>, Fault> {
    let named = options.named_values("over")?.ok_or_else(|| {
        options
            .complain_of_call("shots needs `over`: what varies")
            .with_hint("for instance over = { speed = span(mps(2), mps(6), mps(0.5)) }")
    })?;
    if named.is_empty() {
        return Err(options.complain("over", "`over` names nothing that varies"));
    }
    let mut axes = Vec::with_capacity(named.len());
    for (name, value) in named {
        let within = [Within::Key("over".to_owned()), Within::Key(name.clone())];
        let fits = |letter: char| {
            letter.is_ascii_alphanumeric() || letter == '_' || (are_keys && letter == '.')
        };
        if name.len() > LONGEST_NAME
            || !name.starts_with(|letter: char| letter.is_ascii_alphabetic())
            || !name.chars().all(fits)
        {
            return Err(options.complain_within(
                &within,
                format!("`{name}` can't name what varies: letters, digits and _ only"),
            ));
        }
        // The key of a layout is its own column then.
        if taken().any(|word| word == name) && !(are_keys && name == EQUIPMENT) {
            return Err(options
                .complain_within(&within, format!("`{name}` is what a row says of its outcome"))
                .with_hint("give what varies another name"));
        }
        let of_plain = if are_keys { unit_of_plain(&name) } else { "" };
        let values = values(options, &within, &name, &value, of_plain)?;
        axes.push(ShotAxis { name, values });
    }
    Ok(axes)
}

fn values(
    options: &Options,
    within: &[Within],
    name: &str,
    value: &Value,
    of_plain: &'static str,
) -> Result<ShotValues, Fault> {
    let given: Vec<Value> = match value {
        Value::Table(list) => {
            let count = list.raw_len();
            if count == 0 || list.pairs::<Value, Value>().count() != count {
                return Err(options.complain_within(
                    within,
                    format!("`{name}` must be a value or a list of them without gaps or names"),
                ));
            }
            (1..=count).map(|at| list.raw_get(at).unwrap_or(Value::Nil)).collect()
        }
        one => vec![one.clone()],
    };
    let wrong = |at: usize, message: String| {
        let mut steps = within.to_vec();
        if value.is_table() {
            steps.push(Within::Item(at + 1));
        }
        options.complain_within(&steps, message)
    };
    let mut words = Vec::new();
    let mut amounts = Vec::new();
    let mut si = Vec::new();
    let first_quantity = of_value(&given[0]);
    for (at, one) in given.iter().enumerate() {
        match (one, of_value(one), first_quantity) {
            (Value::String(word), ..) if amounts.is_empty() => words.push(word.to_string_lossy()),
            (_, Some(quantity), Some(first)) if words.is_empty() => {
                let amount = first.amount_of(quantity).ok_or_else(|| {
                    let (one, other) = (first.kind().described(), quantity.kind().described());
                    wrong(at, format!("`{name}` mixes {one} with {other}"))
                })?;
                amounts.push(amount);
                si.push(si_of(quantity));
            }
            _ => match plain_number(one) {
                Some(number)
                    if number.is_finite() && first_quantity.is_none() && words.is_empty() =>
                {
                    amounts.push(number);
                    si.push(number);
                }
                _ => {
                    return Err(wrong(
                        at,
                        format!(
                            "`{name}` takes numbers, quantities of one kind or words, not {}",
                            kind_of(one)
                        ),
                    ));
                }
            },
        }
    }
    // Spans come in order, so a value's twin is its neighbour there; short lists are compared whole.
    let reach = if given.len() > 2_000 { 1 } else { given.len() };
    for at in 1..given.len() {
        let before = at.saturating_sub(reach)..at;
        let twice = if words.is_empty() {
            before.into_iter().any(|other| same(si[other], si[at]))
        } else {
            before.into_iter().any(|other| words[other] == words[at])
        };
        if twice {
            return Err(wrong(at, format!("`{name}` has the same value twice")));
        }
    }
    if !words.is_empty() {
        return Ok(ShotValues::Words(words));
    }
    let unit = first_quantity.map_or("", Quantity::symbol);
    let si_unit = first_quantity.map_or(of_plain, si_unit_of);
    Ok(ShotValues::Numbers { amounts, unit, si, si_unit })
}

/// A value as a script sees it.
pub(super) fn lua_value(lua: &Lua, values: &ShotValues, at: usize) -> mlua::Result<Value> {
    match values {
        ShotValues::Words(words) => words[at].as_str().into_lua(lua),
        ShotValues::Numbers { amounts, unit: "", .. } => Ok(Value::Number(amounts[at])),
        ShotValues::Numbers { amounts, unit, .. } => {
            Quantity::new(amounts[at], unit)?.into_lua(lua)
        }
    }
}

/// A value without its unit: `12`.
pub(super) fn tick(values: &ShotValues, at: usize) -> String {
    match values {
        ShotValues::Words(words) => words[at].clone(),
        ShotValues::Numbers { amounts, .. } => {
            let short: f64 = format!("{:.4e}", amounts[at]).parse().unwrap_or(amounts[at]);
            shown(short)
        }
    }
}

/// The unit as written; empty for plain numbers and words.
pub(super) fn unit(values: &ShotValues) -> &'static str {
    match values {
        ShotValues::Numbers { unit, .. } => unit,
        ShotValues::Words(_) => "",
    }
}

/// A value in words: `speed 3 m/s`.
pub(super) fn say(axis: &ShotAxis, at: usize) -> String {
    format!("{} {}", title(axis), with_unit(&tick(&axis.values, at), unit(&axis.values)))
}

/// The name as people read it.
pub(super) fn title(axis: &ShotAxis) -> String {
    axis.name.replace(['_', '.'], " ")
}

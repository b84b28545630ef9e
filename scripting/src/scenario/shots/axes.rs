//! The axes of a sweep of shots: the scenario's own names, each with its values.

use super::bank_shot::BANK_SHOT;
use crate::fault::Fault;
use crate::fields::Group;
use crate::layout::tables::SCENARIO_STROKE;
use crate::layout::unit_of_plain;
use crate::lua::options::{Options, Within};
use crate::lua::quantity::{Quantity, kind_of, of_value, plain_number, shown, with_unit};
use crate::plan::{ShotAxis, ShotValues, si_of, si_unit_of, taken};
use crate::scenario::inputs::same;
use crate::telling::{AxisText, short_ticks};
use mlua::{IntoLua, Lua, Value};
use railproof_engine::sweep::Input;
use std::collections::BTreeSet;

/// The key of a layout that names its equipment.
const EQUIPMENT: &str = "equipment";
/// The groups of a layout, whose keys vary each for itself.
const GROUPS: [&str; 4] = ["target", "balls", "stroke", "obstacles"];
/// Longest name of an axis: it goes to a column of a file.
const LONGEST_NAME: usize = 40;

/// The axes at `over`, in the order of their names.
/// Keys of a layout may have dots.
pub(super) fn axes(options: &Options, are_keys: bool) -> Result<Vec<ShotAxis>, Fault> {
    let named = options.named_values("over")?.ok_or_else(|| {
        options.complain_of_call(format!("{} needs `over`: what varies", options.call())).with_hint(
            if are_keys {
                "for instance over = { [\"stroke.speed\"] = span(mps(2), mps(6), mps(0.5)) }"
            } else {
                "for instance over = { speed = span(mps(2), mps(6), mps(0.5)) }"
            },
        )
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
        if are_keys && GROUPS.contains(&name.as_str()) {
            return Err(options
                .complain_within(
                    &within,
                    format!("`{name}` is a group of keys; one of them varies"),
                )
                .with_hint("write the group, a point and the key, such as [\"stroke.speed\"]"));
        }
        // The key of a layout is its own column then.
        if taken().any(|word| word == name) && !(are_keys && name == EQUIPMENT) {
            return Err(options
                .complain_within(&within, format!("`{name}` is already a column of the results"))
                .with_hint("give what varies another name"));
        }
        let of_plain = if are_keys { unit_of_plain(&name) } else { "" };
        let values = match mixed(&value).filter(|_| are_keys) {
            Some(words) => ShotValues::Words(words),
            None => values(options, &within, &name, &value, of_plain)?,
        };
        axes.push(ShotAxis { name, values });
    }
    Ok(axes)
}

/// Words and quantities in one list, such as `{ "soft", mps(3) }`: each as a layout has it in quotes.
fn mixed(value: &Value) -> Option<Vec<String>> {
    let Value::Table(list) = value else { return None };
    let written = |one: Value| match &one {
        Value::String(word) => Some((true, word.to_string_lossy())),
        one => of_value(one).map(|quantity| (false, quantity.written())),
    };
    let given: Option<Vec<(bool, String)>> =
        list.sequence_values::<Value>().map(|one| written(one.ok()?)).collect();
    let (words, texts): (Vec<bool>, Vec<String>) = given?.into_iter().unzip();
    let whole = texts.len() == list.pairs::<Value, Value>().count();
    let apart = texts.iter().collect::<BTreeSet<_>>().len() == texts.len();
    (whole && apart && words.contains(&true) && words.contains(&false)).then_some(texts)
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
    said(axis, &tick(&axis.values, at))
}

fn said(axis: &ShotAxis, tick: &str) -> String {
    format!("{} {}", plain_name(axis), with_unit(tick, unit(&axis.values)))
}

fn plain_name(axis: &ShotAxis) -> String {
    axis.name.replace(['_', '.'], " ")
}

/// An axis of a sweep of shots as a picture shows it.
pub(super) struct ShownAxis {
    pub(super) title: String,
    pub(super) unit: String,
    /// The kept values without the unit, and in words.
    pub(super) ticks: Vec<String>,
    pub(super) labels: Vec<String>,
}

/// The title, unit and values of an axis whose name stands for an input of banks, a field of a bank shot or
/// of a stroke; under any other name the name itself.
pub(super) fn shown_axis(axis: &ShotAxis, kept: &[usize]) -> ShownAxis {
    let unit_written = unit(&axis.values);
    let ShotValues::Numbers { amounts, si_unit, .. } = &axis.values else {
        return ShownAxis {
            title: title_of(axis).unwrap_or_else(|| plain_name(axis)),
            unit: String::new(),
            ticks: kept.iter().map(|at| tick(&axis.values, *at)).collect(),
            labels: kept.iter().map(|at| say(axis, *at)).collect(),
        };
    };
    let amounts: Vec<f64> = kept.iter().map(|at| amounts[*at]).collect();
    let ticks = short_ticks(&amounts);
    let input = Input::named(&axis.name).filter(|input| {
        let unit = input.unit();
        unit == *si_unit || (unit == "diamonds" && si_unit.is_empty())
    });
    if let Some(input) = input {
        let words = vec![None; amounts.len()];
        let text = AxisText { ticks, ..AxisText::of_numbers(input, unit_written, amounts, words) };
        return ShownAxis {
            title: text.title.to_owned(),
            unit: text.picture_unit(),
            labels: (0..text.ticks.len()).map(|at| text.say(at)).collect(),
            ticks: text.ticks,
        };
    }
    ShownAxis {
        title: title_of(axis).unwrap_or_else(|| plain_name(axis)),
        unit: unit_written.to_owned(),
        labels: ticks.iter().map(|tick| said(axis, tick)).collect(),
        ticks,
    }
}

/// The meaning of the field that an axis is named like; of a ball's field with the ball's name.
fn title_of(axis: &ShotAxis) -> Option<String> {
    let mut parts = axis.name.rsplit('.');
    let field = parts.next()?;
    let ball = parts.next().filter(|_| axis.name.starts_with("balls."));
    let known = |group: &'static Group| group.field(field).map(|field| field.meaning);
    let meaning = [&BANK_SHOT, &SCENARIO_STROKE].into_iter().find_map(known);
    let title = Input::named(field).map(Input::title).or(meaning)?;
    Some(ball.map_or_else(|| title.to_owned(), |ball| format!("{title}, {ball}")))
}

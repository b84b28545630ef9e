//! The outcome of a bank, as a read-only table with units.

use super::axis_text;
use super::inputs::{Keys, input_keys};
use super::map::Map;
use super::measures::lua_value;
use super::members;
use super::point_selection;
use super::session::Session;
use super::why::why_table;
use crate::fault::Fault;
use crate::telling::caution::Cautions;
use mlua::{Lua, Table, Value};
use railproof_engine::attribution::of_bank;
use railproof_engine::bank::{Bank, Outcome};
use railproof_engine::rail::Line;
use railproof_engine::results::{BANK_MEASURES, BankResult, Measure, ResultPart};
use railproof_engine::sweep::{Input, Row, Tables};
use std::sync::LazyLock;

/// The fields of a row or an outcome beside its measures.
const FURTHER: [&str; 3] = ["why", "cautions", "rule"];

/// A part that is a table of its own, its name in messages, and its keys.
type InnerTable = (ResultPart, &'static str, Vec<&'static str>);

static PARTS: LazyLock<[InnerTable; 3]> = LazyLock::new(|| {
    [
        (ResultPart::AtRail, "the ball at the rail"),
        (ResultPart::Rebound, "the rebound"),
        (ResultPart::Arrival, "the arrival"),
    ]
    .map(|(part, what)| (part, what, keys_of(part).collect()))
});

fn keys_of(part: ResultPart) -> impl Iterator<Item = &'static str> {
    BANK_MEASURES.iter().filter(move |measure| measure.part == part).map(Measure::key)
}

static FIELDS: Keys = Keys::new(|| {
    let parts = PARTS.iter().map(|(part, ..)| part.name());
    input_keys(&FURTHER).into_iter().chain(keys_of(ResultPart::Whole)).chain(parts).collect()
});

/// The outcome of a bank that was played on this table.
pub fn outcome_table(lua: &Lua, bank: &Bank, line: Line, outcome: &Outcome) -> mlua::Result<Table> {
    let table = unsealed(lua, &BankResult { bank, line, outcome })?;
    members::seal(lua, table, "an outcome", &FIELDS)
}

fn unsealed(lua: &Lua, result: &BankResult<'_>) -> mlua::Result<Table> {
    let BankResult { bank, line, outcome } = *result;
    let table = part_table(lua, result, ResultPart::Whole)?;
    for (part, what, keys) in PARTS.iter() {
        let inner = part_table(lua, result, *part)?;
        if !inner.is_empty() {
            table.raw_set(part.name(), members::seal(lua, inner, what, keys)?)?;
        }
    }
    let (own_bank, own) = (bank.clone(), *outcome);
    let why = move |lua: &Lua, _: Value| {
        let why = of_bank(&own_bank, line, &own);
        why_table(lua, &why, Session::of(lua)?.units(), Some((line, own_bank.geometry())))
    };
    table.raw_set("why", lua.create_function(why)?)?;
    let cautions = Cautions::of_bank(bank, outcome.launch.velocity.norm(), outcome);
    table.raw_set("cautions", cautions.lines())?;
    Ok(table)
}

/// The measures of a part that the result has, with the units that people are shown.
fn part_table(lua: &Lua, result: &BankResult<'_>, part: ResultPart) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    for measure in BANK_MEASURES.iter().filter(|measure| measure.part == part) {
        table.raw_set(measure.key(), lua_value(lua, measure, result)?)?;
    }
    Ok(table)
}

/// A row of a comparison: its inputs as they were written, and its outcome.
pub fn row_table(
    lua: &Lua,
    map: &Map,
    tables: &mut Tables,
    at: usize,
    row: &Row,
) -> mlua::Result<Table> {
    let picked = &map.picked;
    let digits = picked.plan().digits(row.point);
    let result = BankResult::of_row(tables, picked.plan(), &digits, row)
        .map_err(|error| Fault::bad_input(error.to_string()))?;
    let table = unsealed(lua, &result)?;
    for (axis, place) in digits.iter().enumerate() {
        let text = picked.text(axis);
        table.raw_set(text.input.name(), axis_text::lua_value(text, lua, *place)?)?;
        if text.input == Input::Lag {
            table.raw_set("speed", axis_text::lua_value(text, lua, *place)?)?;
        }
        if text.input == Input::Roll && text.by_word() {
            table.raw_set("spin", text.ticks[*place].as_str())?;
        }
    }
    if !picked.rules.is_empty() {
        table.raw_set(
            "rule",
            picked.say(point_selection::AxisOrRules::Rules, at % picked.rules.len()),
        )?;
    }
    members::seal(lua, table, "a row", &FIELDS)
}

//! Chances as rows, for a script and for a file.

use crate::answer::AnswerTable;
use crate::scenario::axis_text::lua_value;
use crate::scenario::inputs::{Keys, input_keys};
use crate::scenario::members;
use crate::scenario::point_selection::PointSelection;
use crate::scenario::results::few_enough;
use mlua::{Lua, Table};
use railproof_engine::chance::Chance;

static ROW: Keys = Keys::new(|| input_keys(&["rule", "chance", "error"]));

/// `chances:rows()`: each bank by each rule, with its chance; none where the rule has no line through the ball.
pub(super) fn rows(
    lua: &Lua,
    picked: &PointSelection,
    of_row: impl Fn(usize) -> Option<Chance>,
) -> mlua::Result<Table> {
    let count = picked.count();
    few_enough(lua, count, "")?;
    let list = lua.create_table_with_capacity(count, 0)?;
    let ways = picked.rules.len().max(1);
    for row in picked.rows() {
        let table = lua.create_table()?;
        for (axis, place) in picked.plan().digits(row / ways).iter().enumerate() {
            let text = picked.text(axis);
            table.raw_set(text.input.name(), lua_value(text, lua, *place)?)?;
        }
        if let Some(rule) = picked.rules.get(row % ways) {
            table.raw_set("rule", rule.name.as_str())?;
        }
        if let Some(chance) = of_row(row) {
            table.raw_set("chance", chance.chance)?;
            table.raw_set("error", chance.error)?;
        }
        list.raw_push(members::seal(lua, table, "a row", &ROW)?)?;
    }
    Ok(list)
}

/// All of them as a file holds them, inputs in SI units.
pub(super) fn table(
    picked: &PointSelection,
    of_row: impl Fn(usize) -> Option<Chance>,
    name: String,
) -> AnswerTable {
    let plan = picked.plan();
    let ways = picked.rules.len().max(1);
    let axes = plan.axes().iter().map(|axis| axis.input.column());
    let columns = axes.chain(["rule", "chance", "standard_error"].map(str::to_owned)).collect();
    let row = |row: usize| {
        let digits = plan.digits(row / ways);
        let mut cells: Vec<String> = plan
            .axes()
            .iter()
            .zip(&digits)
            .map(|(axis, digit)| match axis.values.number(*digit) {
                Some(number) => number.to_string(),
                None => axis.values.word(*digit).unwrap_or_default().to_owned(),
            })
            .collect();
        cells.push(picked.rules.get(row % ways).map_or_else(String::new, |it| it.name.clone()));
        let chance = of_row(row);
        let cell = |value: Option<f64>| value.map_or_else(String::new, |it| it.to_string());
        cells.push(cell(chance.map(|it| it.chance)));
        cells.push(cell(chance.map(|it| it.error)));
        cells
    };
    AnswerTable { name, columns, rows: picked.rows().into_iter().map(row).collect() }
}

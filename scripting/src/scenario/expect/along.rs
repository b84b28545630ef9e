//! Expectations about how the miss changes along an axis.

use super::steady::{Way, steady as follow, too_few};
use super::{Expected, argument};
use crate::fault::Fault;
use crate::lua::options::text;
use crate::lua::place::{self, Placed};
use crate::scenario::picked::Dimension;
use mlua::{Lua, Value};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn falls(lua: &Lua, this: &Expected, axis: Value) -> mlua::Result<Expected> {
    steady(lua, this, "miss_falls_along", &axis, Way::FALLS)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn rises(lua: &Lua, this: &Expected, axis: Value) -> mlua::Result<Expected> {
    steady(lua, this, "miss_rises_along", &axis, Way::RISES)
}

/// Whether the signed miss changes one way from each value of the axis to the next greater one, for
/// every value of everything else.
fn steady(
    lua: &Lua,
    this: &Expected,
    call: &str,
    axis: &Value,
    way: Way,
) -> mlua::Result<Expected> {
    let name = argument(lua, call, 1, axis, text())?;
    let at_argument = || place::argument(lua, call, 1);
    let picked = &this.0.picked;
    let dimension = picked.dimension(&name).map_err(|(message, hint)| {
        Fault::bad_input(message).with_hint(hint).placed(at_argument())
    })?;
    let Dimension::Axis(at) = dimension else {
        return Err(Fault::bad_input("rules have no order").placed(at_argument()).into());
    };
    let axis = &picked.plan().axes()[at];
    let mut places: Vec<(f64, usize)> = picked.kept[at]
        .iter()
        .filter_map(|place| axis.values.number(*place).map(|number| (number, *place)))
        .collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    if places.len() < 2 {
        return Err(Fault::bad_input(too_few(&name, picked.kept[at].len()))
            .placed(at_argument())
            .into());
    }
    let columns: Vec<Vec<usize>> =
        places.iter().map(|(_, place)| picked.only(Dimension::Axis(at), *place).rows()).collect();
    let count = columns.first().map_or(0, Vec::len);
    let lines: Vec<Vec<usize>> =
        (0..count).map(|line| columns.iter().map(|column| column[line]).collect()).collect();
    let miss_m = |row: usize| this.0.record.rows.get(row).and_then(|row| row.outcome.miss_m());
    let found = follow(&lines, way, miss_m, |row| picked.say_row(row));
    this.record(lua, call, &format!("the miss {} along {name}", way.verb), found)
}

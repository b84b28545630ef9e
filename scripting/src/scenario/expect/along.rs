//! Expectations about how the miss changes along an axis.

use super::{Expected, Found, argument};
use crate::fault::Fault;
use crate::lua::options::text;
use crate::lua::place::{self, Placed};
use crate::scenario::map::Map;
use crate::scenario::picked::Dimension;
use mlua::{Lua, Value};
use std::fmt::Write as _;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn falls(lua: &Lua, this: &Expected, axis: Value) -> mlua::Result<Expected> {
    steady(lua, this, "miss_falls_along", &axis, ("falls", "fall"), |before, after| after < before)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn rises(lua: &Lua, this: &Expected, axis: Value) -> mlua::Result<Expected> {
    steady(lua, this, "miss_rises_along", &axis, ("rises", "rise"), |before, after| after > before)
}

/// Whether the signed miss changes one way from each value of the axis to the next greater one, for
/// every value of everything else.
fn steady(
    lua: &Lua,
    this: &Expected,
    call: &str,
    axis: &Value,
    (verb, plural): (&str, &str),
    in_order: fn(f64, f64) -> bool,
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
        return Err(Fault::bad_input(format!(
            "`{name}` has {} here; a change along it needs two numbers or more",
            if picked.kept[at].len() == 1 { "one value" } else { "no numbers" }
        ))
        .placed(at_argument())
        .into());
    }
    let found = follow(&this.0, at, &places, (verb, plural), in_order);
    this.record(lua, call, &format!("the miss {verb} along {name}"), found)
}

fn follow(
    map: &Map,
    at: usize,
    places: &[(f64, usize)],
    (verb, plural): (&str, &str),
    in_order: fn(f64, f64) -> bool,
) -> Found {
    let columns: Vec<Vec<usize>> = places
        .iter()
        .map(|(_, place)| map.picked.only(Dimension::Axis(at), *place).rows())
        .collect();
    let miss = |row: usize| map.record.rows.get(row).and_then(|row| row.outcome.miss_m());
    let lines = columns.first().map_or(0, Vec::len);
    let mut steady = 0;
    let mut first_break = None;
    for line in 0..lines {
        let rows: Vec<usize> = columns.iter().map(|column| column[line]).collect();
        let broken = rows.windows(2).find(
            |pair| !matches!((miss(pair[0]), miss(pair[1])), (Some(a), Some(b)) if in_order(a, b)),
        );
        match broken {
            None => steady += 1,
            Some(pair) if first_break.is_none() => first_break = Some((pair[0], pair[1])),
            Some(_) => {}
        }
    }
    let shown = |row: usize| {
        let miss = miss(row).map_or_else(
            || "never comes to the mouth".to_owned(),
            |miss| format!("miss {:.2} mm", 1e3 * miss),
        );
        format!("{}: {miss}", map.picked.say_row(row))
    };
    let mut words = if lines == 1 && steady == 1 {
        let ends = [columns.first(), columns.last()].map(|column| {
            column.and_then(|column| column.first()).map_or_else(String::new, |row| shown(*row))
        });
        format!("it {verb}, from {} to {}", ends[0], ends[1])
    } else {
        format!("{steady} of {lines} lines {plural} throughout")
    };
    if let Some((before, after)) = first_break {
        let _ = write!(words, "; not from {} to {}", shown(before), shown(after));
    }
    Found { held: lines > 0 && steady == lines, words }
}

//! A map in a script's hands. A selection is a map of fewer rows.

use super::draw;
use super::left_out::{add_picture, add_selection};
use super::map::Map;
use super::members;
use super::outcome::row_table;
use super::ranking;
use super::results::few_enough;
use super::selection::narrowed;
use super::session::fault_here;
use crate::fault::Fault;
use crate::lua::quantity::Quantity;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::sweep::{Tables, Tally};
use std::cell::RefCell;
use std::sync::Arc;

fn told_length(
    lua: &Lua,
    this: &Map,
    call: &str,
    of: impl FnOnce(&Tally) -> Option<f64>,
) -> mlua::Result<Quantity> {
    match of(&this.tally()) {
        Some(metres) => length(this, metres),
        None => Err(no_miss(lua, this, call).into()),
    }
}

fn length(this: &Map, metres: f64) -> mlua::Result<Quantity> {
    let (amount, unit) = this.record.units.amount(metres);
    Ok(Quantity::new(amount, unit)?)
}

fn no_miss(lua: &Lua, this: &Map, call: &str) -> Fault {
    fault_here(
        lua,
        call,
        match this.picked.count() {
            1 => "this bank never comes to the pocket's mouth, so it has no miss".to_owned(),
            several => format!(
                "none of these {several} banks comes to the pocket's mouth, so none has a miss"
            ),
        },
    )
}

const MEMBERS: &[&str] = &[
    "name",
    "where",
    "count",
    "share",
    "worst",
    "rms",
    "mean",
    "spread",
    "rows",
    "each",
    "ranking",
    "draw",
    "draw_lines",
    "draw_difference",
];

impl UserData for Map {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "map");
        fields.add_field_method_get("name", |_, this| Ok(this.record.name.clone()));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("a map of {}", this.picked.subject()))
        });
        add_selection(methods, "where", |lua, this, argument: Value| {
            let picked = narrowed(lua, "where", &this.picked, &argument)?;
            Ok(Self { record: Arc::clone(&this.record), picked })
        });
        methods.add_method("count", |_, this, ()| Ok(this.picked.count() as f64));
        methods.add_method("share", |_, this, ()| Ok(this.tally().share_holding()));
        methods.add_method("worst", |lua, this, ()| {
            told_length(lua, this, "worst", |tally| tally.worst_miss_m)
        });
        methods.add_method("rms", |lua, this, ()| told_length(lua, this, "rms", Tally::rms_miss_m));
        methods
            .add_method("mean", |lua, this, ()| told_length(lua, this, "mean", Tally::mean_miss_m));
        methods.add_method("spread", |lua, this, ()| match this.spread_m() {
            Some(spread_m) => length(this, spread_m),
            None => Err(no_miss(lua, this, "spread").into()),
        });
        methods.add_method("rows", rows);
        methods.add_method("each", each);
        methods.add_method("ranking", |lua, this, ()| ranking::ranking(lua, this));
        add_picture(methods, "draw", draw::banks::draw);
        add_picture(methods, "draw_lines", draw::banks::draw_lines);
        add_picture(methods, "draw_difference", draw::difference::draw_difference);
        members::only(methods, "a map", MEMBERS);
    }
}

fn rows(lua: &Lua, this: &Map, (): ()) -> mlua::Result<Table> {
    let count = this.picked.count();
    few_enough(lua, count, ", or go through them one by one with `each`")?;
    let mut tables = Tables::default();
    let list = lua.create_table_with_capacity(count, 0)?;
    for (at, row) in this.rows() {
        list.raw_push(row_table(lua, this, &mut tables, at, row)?)?;
    }
    Ok(list)
}

/// `for row in map:each() do … end`.
fn each(lua: &Lua, this: &Map, (): ()) -> mlua::Result<mlua::Function> {
    let map = this.clone();
    let state = RefCell::new((map.picked.rows().into_iter(), Tables::default()));
    lua.create_function(move |lua, _: mlua::MultiValue| {
        let mut state = state.borrow_mut();
        let (rows, tables) = &mut *state;
        match rows.next().and_then(|at| map.record.rows.get(at).map(|row| (at, row))) {
            Some((at, row)) => row_table(lua, &map, tables, at, row).map(Value::Table),
            None => Ok(Value::Nil),
        }
    })
}

//! A sweep of shots in a script's hands: its rows, selections and pictures.

use super::axes;
use super::set::ShotsObject;
use super::stroke::StrokeObject;
use super::{pictures, selection};
use crate::plan::taken;
use crate::scenario::left_out::{add_picture, add_selection};
use crate::scenario::measures::lua_value;
use crate::scenario::members;
use crate::scenario::results::few_enough;
use crate::whole_shots::ShotRow;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods};
use railproof_engine::results::SHOT_MEASURES;
use std::collections::BTreeMap;

const MEMBERS: &[&str] =
    &["name", "count", "rows", "where", "share", "verdicts", "draw", "draw_lines"];

impl UserData for ShotsObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "sweep of shots");
        fields.add_field_method_get("name", |_, this| Ok(this.record.name.clone()));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.subject()));
        methods.add_method("count", |_, this, ()| Ok(this.count() as f64));
        methods.add_method("share", |_, this, ()| Ok(this.share_made()));
        methods.add_method("verdicts", |lua, this, ()| {
            let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
            for (_, row) in this.rows() {
                *counts.entry(row.verdict_name()).or_default() += 1;
            }
            lua.create_table_from(counts)
        });
        methods.add_method("rows", rows);
        add_selection(methods, "where", selection::narrowed);
        add_picture(methods, "draw", pictures::draw);
        add_picture(methods, "draw_lines", pictures::draw_lines);
        members::only(methods, "a sweep of shots", MEMBERS);
    }
}

fn rows(lua: &Lua, this: &ShotsObject, (): ()) -> mlua::Result<Table> {
    let count = this.count();
    few_enough(lua, count, "")?;
    let mut known: Vec<String> = taken().map(str::to_owned).collect();
    known.extend(this.record.axes.iter().map(|axis| axis.name.clone()));
    let list = lua.create_table_with_capacity(count, 0)?;
    for (at, row) in this.rows() {
        let table = row_table(lua, this, at, row)?;
        list.raw_push(members::seal_named(lua, table, "a row", known.clone())?)?;
    }
    Ok(list)
}

fn row_table(lua: &Lua, this: &ShotsObject, at: usize, row: &ShotRow) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    for (axis, digit) in this.record.axes.iter().zip(this.record.digits(at)) {
        table.raw_set(axis.name.as_str(), axes::lua_value(lua, &axis.values, digit)?)?;
    }
    table.raw_set("point", at)?;
    if !table.contains_key("equipment")? {
        let on = row.equipment.as_ref().map(|equipment| equipment.name.as_str());
        table.raw_set("equipment", on)?;
    }
    let result = row.result();
    for measure in SHOT_MEASURES {
        table.raw_set(measure.name, lua_value(lua, measure, &result)?)?;
    }
    if let Some(stroke) = row.stroke {
        table.raw_set("stroke", StrokeObject(stroke))?;
    }
    table.raw_set("why_not", row.outcome.as_ref().err().map(String::as_str))?;
    Ok(table)
}

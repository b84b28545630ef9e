//! The calls that make a known table.

use super::object::MeasuredTableObject;
use crate::fault::Fault;
use crate::fitting::{
    FEWEST_MEMBERS, FitFindings, FitQuestion, MeasuredTable, nine_foot, read_table,
};
use crate::lua::options::{Kind, Options, text, word};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::kind_of;
use crate::measured::{FilmRows, Measurements, read_films, read_measurements};
use crate::picture::MissUnit;
use crate::scenario::equipment::{EquipmentObject, OneTable};
use crate::scenario::session::Session;
use crate::telling::caution::Cautions;
use mlua::{Lua, Table, Value};
use railproof_engine::equipment::RailModel;
use railproof_engine::narrow::NarrowSettings;

const FIT_KEYS: &[&str] = &["banks", "films", "on", "rail_model"];

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("fit", lua.create_function(fit)?)?;
    into.raw_set("measured_table", lua.create_function(measured_table)?)?;
    into.raw_set(
        "unmeasured_table",
        lua.create_function(|lua, table: Value| {
            let (table, in_inches) = sizes(lua, "unmeasured_table", &table)?;
            Ok(MeasuredTableObject::new(MeasuredTable::wide(&table.0, in_inches)))
        })?,
    )?;
    into.raw_set(
        "practice_table",
        lua.create_function(|lua, table: Value| {
            const CALL: &str = "practice_table";
            let (table, in_inches) = sizes(lua, CALL, &table)?;
            let at = || place::argument(lua, CALL, 1);
            let nine_foot = nine_foot()?;
            let known = Session::of(lua)?
                .work(lua, 1, |_| MeasuredTable::by_practice(&table.0, &nine_foot, in_inches))?
                .map_err(|error| Fault::bad_input(error.to_string()).placed(at()))?;
            if known.ensemble.len() < FEWEST_MEMBERS {
                let message = "common practice comes true on too few tables with this rail model";
                return Err(Fault::bad_input(message)
                    .with_hint("take the rail model nose-and-cloth, or unmeasured_table(…)")
                    .placed(at())
                    .into());
            }
            Ok(MeasuredTableObject::new(known))
        })?,
    )
}

/// The table that gives a call its sizes, and whether lengths are in inches.
fn sizes(lua: &Lua, call: &'static str, value: &Value) -> mlua::Result<(EquipmentObject, bool)> {
    let at = || place::argument(lua, call, 1);
    let table = OneTable.read(value).map_err(|mismatch| {
        let fault = Fault::bad_input(format!("what {call} takes {}", mismatch.message));
        let hint = format!("write it like {call}(equipment \"nine-foot\")");
        fault.with_hint(mismatch.hint.unwrap_or(hint)).placed(at())
    })?;
    if table.0.cushion.rail_model == RailModel::Compliant {
        return Err(Fault::bad_input("a stepped rail model is too slow for this many tables")
            .with_hint("hall:with { rail_model = \"nose-and-cloth\" }")
            .placed(at())
            .into());
    }
    let in_inches = Session::of(lua)?.miss_unit() == MissUnit::Inches;
    Ok((table, in_inches))
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn fit(lua: &Lua, argument: Value) -> mlua::Result<MeasuredTableObject> {
    let options = Options::open(lua, "fit", &argument, FIT_KEYS)?;
    let session = Session::of(lua)?;
    let (path, films) = match options.optional("films", text())? {
        Some(films) => {
            let films = read_films(&session.folder().join(films))
                .map_err(|fault| fault.placed(options.complain("films", "").place))?;
            (options.optional("banks", text())?, films)
        }
        None => (Some(options.required("banks", text())?), FilmRows::default()),
    };
    let table = options.required("on", OneTable)?;
    let model = options.optional("rail_model", word::<RailModel>())?;
    let model = model.unwrap_or(table.0.cushion.rail_model);
    if model == RailModel::Compliant {
        let key = if options.has("rail_model") { "rail_model" } else { "on" };
        return Err(options
            .complain(key, "a stepped rail model is too slow for a fit")
            .with_hint("rail_model = \"nose-and-cloth\", \"nose-only\" or \"planar\"")
            .into());
    }
    let measurements = match path {
        Some(path) => read_measurements(&session.folder().join(path), &table.0)
            .map_err(|fault| fault.placed(options.complain("banks", "").place))?,
        None => Measurements::default(),
    };
    let question = FitQuestion {
        table: (*table.0).clone(),
        in_inches: session.miss_unit() == MissUnit::Inches,
        model,
        measurements,
        films,
        settings: NarrowSettings::SHIPPED,
    };
    let found = session
        .work(lua, 1, |_| FitFindings::of(&question))?
        .map_err(|error| options.complain_of_call(error.to_string()))?;
    session.advise(&Cautions::of_fit(&found));
    Ok(MeasuredTableObject::fitted_here(question, found))
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn measured_table(lua: &Lua, file: Value) -> mlua::Result<MeasuredTableObject> {
    const CALL: &str = "measured_table";
    let at = || place::argument(lua, CALL, 1);
    let Value::String(name) = &file else {
        let message = format!("{CALL} takes the path of a table's file, not {}", kind_of(&file));
        return Err(Fault::bad_input(message)
            .with_hint("write it like measured_table \"out/table/table.json\"")
            .placed(at())
            .into());
    };
    let session = Session::of(lua)?;
    let path = session.folder().join(name.to_string_lossy());
    let known = read_table(&path).map_err(|fault| fault.placed(at()))?;
    Ok(MeasuredTableObject::new(known))
}

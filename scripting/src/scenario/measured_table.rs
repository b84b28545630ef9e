//! `fit { banks, on }` and `measured_table "table.json"`: a table as measured banks let it be known.

use super::draw::fit::FIT_DRAWINGS;
use super::equipment::EquipmentObject;
use super::left_out::add_picture;
use super::members;
use super::session::Session;
use super::shares::shares;
use crate::fault::Fault;
use crate::fitting::{
    FitFindings, FitQuestion, MeasuredTable, NumberFindings, NumberUnit, read_table,
};
use crate::lua::options::{Options, object, text, word};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::kind_of;
use crate::measured::read_measurements;
use crate::picture::MissUnit;
use crate::telling::caution::Cautions;
use crate::telling::set_up_words;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value, Variadic};
use railproof_engine::equipment::RailModel;
use railproof_engine::narrow::NarrowSettings;
use std::rc::Rc;

/// A measured table in a script's hands.
#[derive(Debug, Clone)]
pub struct MeasuredTableObject {
    pub known: Rc<MeasuredTable>,
    /// The findings of the fit, where it was fitted here.
    found: Option<Rc<FitFindings>>,
}

const FIT_KEYS: &[&str] = &["banks", "on", "rail_model"];
const FIELDS: &[&str] = &[
    "name",
    "banks",
    "members",
    "middle",
    "slope",
    "slope_before",
    "numbers",
    "next",
    "shares",
    "draw_banks",
    "draw_numbers",
    "draw_pairs",
];
const INTERVAL: &[&str] = &["middle", "from", "to"];
const NUMBER: &[&str] = &["name", "middle", "from", "to", "unit", "narrower", "told"];

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("fit", lua.create_function(fit)?)?;
    into.raw_set("measured_table", lua.create_function(measured_table)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn fit(lua: &Lua, argument: Value) -> mlua::Result<MeasuredTableObject> {
    let options = Options::open(lua, "fit", &argument, FIT_KEYS)?;
    let session = Session::of(lua)?;
    let path = session.folder().join(options.required("banks", text())?);
    let table = options.required("on", object::<EquipmentObject>("equipment"))?;
    let model = options.optional("rail_model", word::<RailModel>())?;
    let model = model.unwrap_or(table.0.cushion.rail_model);
    if model == RailModel::Compliant {
        let key = if options.has("rail_model") { "rail_model" } else { "on" };
        return Err(options
            .complain(key, "a stepped rail model is too slow for a fit")
            .with_hint("rail_model = \"nose-and-cloth\", \"nose-only\" or \"planar\"")
            .into());
    }
    let measurements = read_measurements(&path, &table.0)
        .map_err(|fault| fault.placed(options.complain("banks", "").place))?;
    let question = FitQuestion {
        table: (*table.0).clone(),
        in_inches: session.miss_unit() == MissUnit::Inches,
        model,
        measurements,
        settings: NarrowSettings::SHIPPED,
    };
    let found = session
        .work(lua, 1, |_| FitFindings::of(&question))?
        .map_err(|error| options.complain_of_call(error.to_string()))?;
    session.advise(&Cautions::of_fit(&found));
    Ok(MeasuredTableObject { known: Rc::new(found.known.clone()), found: Some(Rc::new(found)) })
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
    Ok(MeasuredTableObject { known: Rc::new(known), found: None })
}

impl MeasuredTableObject {
    fn found(&self, lua: &Lua, name: &str) -> mlua::Result<&FitFindings> {
        self.found.as_deref().ok_or_else(|| {
            Fault::bad_input(format!("a table from a file has no `{name}`"))
                .with_hint("`fit { banks = …, on = … }` finds it")
                .placed(place::call(lua, None))
                .into()
        })
    }
}

impl UserData for MeasuredTableObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "measured table");
        fields.add_field_method_get("name", |_, this| Ok(this.known.table.name.clone()));
        fields.add_field_method_get("banks", |_, this| Ok(this.known.banks));
        fields.add_field_method_get("members", |_, this| Ok(this.known.ensemble.len()));
        fields.add_field_method_get("middle", |lua, this| {
            let middle = Rc::new(this.known.middle());
            Session::of(lua)?.add_table(&middle);
            Ok(EquipmentObject(middle))
        });
        fields.add_field_method_get("slope", |lua, this| {
            interval(lua, this.found(lua, "slope")?, |slope| slope.after)
        });
        fields.add_field_method_get("slope_before", |lua, this| {
            interval(lua, this.found(lua, "slope_before")?, |slope| slope.before)
        });
        fields.add_field_method_get("numbers", |lua, this| {
            let list = lua.create_table()?;
            for number in &this.found(lua, "numbers")?.numbers {
                list.raw_push(number_table(lua, number)?)?;
            }
            Ok(list)
        });
        fields.add_field_method_get("next", |lua, this| {
            let list = lua.create_table()?;
            for (set_up, _) in &this.found(lua, "next")?.next {
                list.raw_push(set_up_words(set_up))?;
            }
            Ok(list)
        });
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("{}, as measured", this.known.table.name))
        });
        methods.add_method("shares", |lua, this, arguments: Variadic<Value>| {
            shares(lua, &this.known, arguments)
        });
        for drawing in FIT_DRAWINGS {
            add_picture(methods, drawing.call, move |lua, this: &Self, argument: Value| {
                drawing.draw(lua, this.found(lua, drawing.call)?, &argument)
            });
        }
        members::only(methods, "a measured table", FIELDS);
    }
}

fn interval(
    lua: &Lua,
    found: &FitFindings,
    which: fn(&NumberFindings) -> railproof_engine::ask::CredibleInterval,
) -> mlua::Result<Table> {
    let interval = which(&found.slope);
    let table = lua.create_table()?;
    table.raw_set("middle", interval.middle)?;
    table.raw_set("from", interval.ninety.0)?;
    table.raw_set("to", interval.ninety.1)?;
    members::seal(lua, table, "an interval", INTERVAL)
}

fn number_table(lua: &Lua, number: &NumberFindings) -> mlua::Result<Table> {
    let NumberUnit { symbol, si, .. } = number.unit;
    let table = lua.create_table()?;
    table.raw_set("name", number.title)?;
    table.raw_set("middle", number.after.middle / si)?;
    table.raw_set("from", number.after.ninety.0 / si)?;
    table.raw_set("to", number.after.ninety.1 / si)?;
    table.raw_set("unit", symbol)?;
    table.raw_set("narrower", 1.0 - number.left())?;
    table.raw_set("told", number.is_determined())?;
    members::seal(lua, table, "a number", NUMBER)
}

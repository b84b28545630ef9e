//! Shots that a function makes of points: in the scenario itself, and from a plan on the machine of a thread.

use super::axes::lua_value;
use super::layout::LayoutObject;
use super::layout_object;
use super::play::{PreparedShot, ready};
use super::stroke::STROKE_KEYS;
use super::{bank_shot, kicks};
use crate::fault::Fault;
use crate::lua::options::Options;
use crate::lua::quantity::{self, kind_of};
use crate::lua::{WorkerFunction, span};
use crate::plan::{ShotAxis, ShotsPlan, digits};
use crate::playing::{shot_outcome, shot_result};
use crate::scenario::equipment::EquipmentObject;
use crate::scenario::{members, rules};
use crate::telling::caution::Cautions;
use crate::whole_shots::{ShotMaker, ShotRow};
use mlua::{Lua, MultiValue, Table, Value};
use railproof_engine::equipment::Equipment;
use railproof_engine::results::ShotResult;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

/// Makes the shots of a plan's function by the words of a scenario.
#[derive(Debug, Clone, Copy)]
pub struct FunctionShots;

impl ShotMaker for FunctionShots {
    fn row(
        &self,
        plan: &ShotsPlan,
        function: &WorkerFunction,
        point: u64,
        known: Option<&Arc<Equipment>>,
    ) -> Result<ShotRow, Fault> {
        let ready = function.ask(register, |lua, make| {
            let table = point_table(lua, plan.axes(), &digits(plan.axes(), point))?;
            let made = make.call((table, given_table(lua, plan.equipment())?))?;
            Ok(made_shot(lua, &made, &|message| Fault::bad_input(message))?)
        })?;
        let same = known.filter(|known| ***known == ready.layout.equipment);
        let equipment = same.map_or_else(|| Arc::new(ready.layout.equipment.clone()), Arc::clone);
        Ok(row(equipment, &ready))
    }
}

/// The words of a function that makes shots.
fn register(lua: &Lua) -> mlua::Result<()> {
    let globals = lua.globals();
    quantity::install(lua, &globals)?;
    span::install(lua, &globals)?;
    rules::install(lua, &globals)?;
    globals.raw_set("lay", lua.create_function(layout_object::lay)?)?;
    globals.raw_set("bank_shot", lua.create_function(bank_shot::bank_shot)?)?;
    globals.raw_set("route", lua.create_function(kicks::route)?)
}

/// The shot that a function gave; `complain` is a fault of the function.
pub(super) fn made_shot(
    lua: &Lua,
    given: &MultiValue,
    complain: &dyn Fn(String) -> Fault,
) -> Result<PreparedShot, Fault> {
    let first = given.front().cloned().unwrap_or(Value::Nil);
    let laid = match &first {
        Value::UserData(data) => data.borrow::<LayoutObject>().map(|laid| laid.clone()).ok(),
        _ => None,
    };
    let Some(laid) = laid else {
        return Err(complain(format!("`shot` must return a layout, not {}", kind_of(&first)))
            .with_hint("return bank_shot { … }, { speed = point.speed, send = \"line\" }"));
    };
    let stroke = match given.get(1).cloned().unwrap_or(Value::Nil) {
        Value::Nil => {
            Value::Table(lua.create_table().map_err(|error| complain(error.to_string()))?)
        }
        given => given,
    };
    let ready = ready(&Options::open(lua, "shots", &stroke, &STROKE_KEYS)?, &laid.0)?;
    if ready.layout.target.is_none() {
        let why = "this layout has no pocket, so nothing can be said of the shot";
        return Err(complain(why.to_owned()).with_hint("give the layout a `pocket`"));
    }
    Ok(ready)
}

/// A point as a function is given it.
pub(super) fn point_table(lua: &Lua, axes: &[ShotAxis], digits: &[usize]) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    for (axis, digit) in axes.iter().zip(digits) {
        table.raw_set(axis.name.as_str(), lua_value(lua, &axis.values, *digit)?)?;
    }
    members::seal_named(lua, table, "a point", axes.iter().map(|axis| axis.name.clone()).collect())
}

/// The equipment at `with` as a function is given it.
pub(super) fn given_table(
    lua: &Lua,
    equipment: &BTreeMap<String, Equipment>,
) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    for (name, one) in equipment {
        table.raw_set(name.as_str(), EquipmentObject(Rc::new(one.clone())))?;
    }
    members::seal_named(lua, table, "`with`", equipment.keys().cloned().collect())
}

/// The row of a shot that a function made.
pub(super) fn row(equipment: Arc<Equipment>, ready: &PreparedShot) -> ShotRow {
    match ready.play() {
        Ok(played) => {
            let verdict = played.verdict.ok_or_else(|| "it has no target".to_owned());
            let outcome =
                verdict.map(|verdict| shot_outcome(&played.layout, &played.shot, verdict));
            let ShotResult { cue, object, stroke, .. } = shot_result(&played.layout, None);
            let cautions = Cautions::of_shot(&played.layout, &played.shot);
            let equipment = Some(equipment);
            ShotRow { equipment, cue, object, stroke, cautions, outcome }
        }
        Err(why) => {
            let ShotResult { cue, object, .. } = shot_result(&ready.layout, None);
            ShotRow {
                equipment: Some(equipment),
                cue,
                object,
                stroke: ready.stroke.map(|(_, plan)| plan.stroke),
                cautions: Cautions::default(),
                outcome: Err(why.to_string()),
            }
        }
    }
}

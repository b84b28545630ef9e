//! `plan(banks, rule…)` and `plan { over, layout }`: a sweep that is not played now but written down, to be
//! played by `railproof sweep`.

use super::compare::{banks_argument, rules, rules_fit};
use super::grid::Banks;
use super::members;
use super::sample::SampleObject;
use super::session::{Session, here};
use super::shots::planned_shots;
use crate::fault::Fault;
use crate::lua::place::{self, Placed};
use crate::lua::quantity::kind_of;
use crate::plan::{Keep, SweepPlan, Swept};
use crate::telling::{count, things_played};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value, Variadic};
use railproof_engine::sweep::Plan;
use std::rc::Rc;

const CALL: &str = "plan";

/// A plan in a script's hands.
#[derive(Debug, Clone)]
struct PlanObject(Rc<SweepPlan>);

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(plan)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn plan(lua: &Lua, arguments: Variadic<Value>) -> mlua::Result<PlanObject> {
    let session = Session::of(lua)?;
    let planned = if let Some(described @ Value::Table(_)) = arguments.first() {
        let (shots, name) = planned_shots(lua, described)?;
        if arguments.len() > 1 {
            return Err(Fault::bad_input("whole shots are aimed by their strokes, not by rules")
                .with_hint("write plan { over = …, layout = \"…\" } and nothing after it")
                .placed(place::argument(lua, CALL, 2))
                .into());
        }
        let name = name.unwrap_or_else(|| session.scenario_name());
        SweepPlan::of(name, Swept::Shots(shots), Keep::default())
    } else {
        let (banks, name) = points(lua, arguments.first())?;
        let rules = rules(lua, CALL, arguments.get(1..).unwrap_or_default())?;
        rules_fit(lua, CALL, &banks, rules.len())?;
        let named = rules.iter().map(|rule| rule.named.clone()).collect();
        let name = name.unwrap_or_else(|| session.scenario_name());
        SweepPlan::new(name, banks, named, Keep::default())
    };
    planned.check().map_err(|refused| Fault::bad_input(refused.why).placed(here(lua, CALL)))?;
    session.planned(&planned).map_err(|fault| fault.placed(here(lua, CALL)))?;
    Ok(PlanObject(Rc::new(planned)))
}

/// The points that the first argument stands for, and the name they were given.
fn points(lua: &Lua, value: Option<&Value>) -> Result<(Plan, Option<String>), Fault> {
    let value = value.unwrap_or(&Value::Nil);
    if let Value::UserData(object) = value {
        if object.borrow::<Banks>().is_ok() {
            let banks = banks_argument(lua, CALL, Some(value))?;
            return Ok((banks.0.plan.clone(), banks.0.name.clone()));
        }
        if let Ok(sample) = object.borrow::<SampleObject>() {
            return Ok((sample.0.plan.clone(), sample.0.name.clone()));
        }
    }
    Err(Fault::bad_input(format!(
        "the first argument of {CALL} must be a grid, a sample or a table of shots, not {}",
        kind_of(value)
    ))
    .with_hint("write plan(banks, …) with banks = grid { … } or banks = sample { … }")
    .placed(place::argument(lua, CALL, 1)))
}

const MEMBERS: &[&str] = &["points", "banks", "shards"];

impl UserData for PlanObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "plan");
        fields.add_field_method_get("points", |_, this| Ok(this.0.points() as f64));
        fields.add_field_method_get("banks", |_, this| Ok(this.0.bank_count() as f64));
        fields.add_field_method_get("shards", |_, this| Ok(this.0.shards() as f64));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            let shards = count(this.0.shards(), "shard", "shards");
            Ok(format!("a plan of {} in {shards}", things_played(&this.0)))
        });
        members::only(methods, "a plan", MEMBERS);
    }
}

//! `compare(banks, rule…)`: plays every point of a sweep by every rule.

use super::grid::{Banks, BanksOfOne};
use super::map::Map;
use super::point_selection::PointSelection;
use super::rule_answers::failed;
use super::rule_object::{RuleObject, ScriptRule};
use super::session::{Session, here};
use super::undrawn;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::lua::options::{Kind, object};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{kind_of, plain_number, shown};
use crate::plan::{Keep, SweepPlan};
use crate::record::MapRecord;
use mlua::{Lua, Table, Value, Variadic};
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{self, Input, Plan, PlanError};
use std::rc::Rc;
use std::sync::Arc;

const CALL: &str = "compare";

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(compare)?)
}

/// The sweep that a call takes as its first argument.
pub fn banks_argument(lua: &Lua, call: &str, value: Option<&Value>) -> Result<Banks, Fault> {
    first_argument(lua, call, value, &BanksOfOne)
}

/// As [`banks_argument`], for calls that ask all the tables that one could be.
pub fn any_banks_argument(lua: &Lua, call: &str, value: Option<&Value>) -> Result<Banks, Fault> {
    first_argument(lua, call, value, &object::<Banks>("a grid"))
}

fn first_argument(
    lua: &Lua,
    call: &str,
    value: Option<&Value>,
    kind: &impl Kind<Output = Banks>,
) -> Result<Banks, Fault> {
    kind.read(value.unwrap_or(&Value::Nil)).map_err(|mismatch| {
        let fault = Fault::bad_input(format!("the first argument of {call} {}", mismatch.message))
            .placed(place::argument(lua, call, 1));
        match mismatch.hint {
            Some(hint) if value.is_some_and(Value::is_userdata) => fault.with_hint(hint),
            _ => fault.with_hint(format!("write {call}(banks, …) with banks = grid {{ … }}")),
        }
    })
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn compare(lua: &Lua, arguments: Variadic<Value>) -> mlua::Result<Map> {
    let banks = banks_argument(lua, CALL, arguments.first())?;
    let plan = &banks.0.plan;
    let rules = rules(lua, CALL, arguments.get(1..).unwrap_or_default())?;
    rules_fit(lua, CALL, plan, rules.len())?;
    let call = || here(lua, CALL);
    let named: Vec<NamedRule> = rules.iter().map(|rule| rule.named.clone()).collect();
    let session = Session::of(lua)?;
    if session.plans() {
        let name = banks.0.name.clone().unwrap_or_else(|| session.scenario_name());
        let planned = SweepPlan::new(name, plan.clone(), named.clone(), Keep::default());
        session.planned(&planned).map_err(|fault| fault.placed(call()))?;
    } else {
        session.count_plan_call();
    }
    let points = plan.checked_len(rules.len()).map_err(|error| {
        Fault::bad_input(error.to_string())
            .with_hint("take coarser steps, fewer rules, or several sweeps")
            .placed(call())
    })?;
    session.check_room(points).map_err(|fault| fault.placed(call()))?;
    let rows = session
        .work(lua, points, |tick| sweep::compare(plan, &named, &|| tick()))?
        .map_err(|error| refused(lua, &rules, &error))?;
    let name = match &banks.0.name {
        Some(name) => session.fresh_name(&format!("{name}-rows")),
        None => session.fresh_name("rows"),
    };
    let record = Arc::new(MapRecord {
        name,
        plan: plan.clone(),
        rules: named.clone(),
        rows,
        units: session.units(),
    });
    session.add_map(&record);
    let map = Map { record, picked: PointSelection::all(&banks.0, named) };
    undrawn::add(lua, &map);
    Ok(map)
}

/// Refuses rules for a sweep that gives start numbers itself, and none for one that does not.
pub fn rules_fit(lua: &Lua, call: &str, plan: &Plan, rules: usize) -> Result<(), Fault> {
    let explicit = plan.axis(Input::Start).is_some();
    if explicit && rules > 0 {
        return Err(Fault::bad_input("the sweep gives `start` itself, so no rule can aim it")
            .with_hint("leave out `start`, or the rules")
            .placed(place::argument(lua, call, 2)));
    }
    if !explicit && rules == 0 {
        return Err(Fault::bad_input(format!("{call} needs a rule to aim by"))
            .with_hint(format!(
                "write {call}(banks, rule.linear {{ … }}), or give the sweep a `start`"
            ))
            .placed(here(lua, call)));
    }
    Ok(())
}

/// The rules among a call's arguments, after the first.
pub fn rules(lua: &Lua, call: &str, arguments: &[Value]) -> Result<Vec<Rc<ScriptRule>>, Fault> {
    let mut rules: Vec<Rc<ScriptRule>> = Vec::new();
    for (at, value) in arguments.iter().enumerate() {
        let complain =
            |message: String| Fault::bad_input(message).placed(place::argument(lua, call, at + 2));
        let several: Vec<Value> = match value {
            Value::Table(list) => list
                .sequence_values()
                .collect::<mlua::Result<_>>()
                .map_err(|error| complain(format!("the list of rules can't be read: {error}")))?,
            one => vec![one.clone()],
        };
        for one in several {
            let rule = object::<RuleObject>("a rule").read(&one).map_err(|_| {
                let message = format!("{call} takes rules after the sweep, not {}", kind_of(&one));
                let complaint = complain(message);
                match plain_number(&one) {
                    Some(slope) => complaint.with_hint(format!(
                        "a number alone is no rule yet: write rule.linear {{ slope = {} }}",
                        shown(slope)
                    )),
                    None if one.is_function() => complaint.with_hint(
                        "a rule is made with braces or brackets behind its name, such as rule.linear { slope = 2.2 } or \
                         rule.mirror()",
                    ),
                    None => complaint,
                }
            })?;
            if rules.iter().any(|other| other.named.name == rule.0.named.name) {
                return Err(complain(format!("two rules are called \"{}\"", rule.0.named.name))
                    .with_hint("give one of them a `name` of its own"));
            }
            rules.push(rule.0);
        }
    }
    Ok(rules)
}

/// Why a sweep could not be played, at the rule or the call it is about.
fn refused(lua: &Lua, rules: &[Rc<ScriptRule>], error: &PlanError) -> Fault {
    let PlanError::Rule { rule, point, error: why } = error else {
        return Fault::bad_input(error.to_string()).placed(here(lua, CALL));
    };
    let known = rules.iter().position(|known| known.named.name == *rule);
    let Some(at) = known else {
        return Fault::bad_input(error.to_string()).placed(here(lua, CALL));
    };
    let own = failed(&rules[at], why);
    // A function that gave up says at which contact, which may be another than this point's.
    if own.exit == Exit::OverBudget {
        return own;
    }
    if own.place.is_some() {
        return Fault { message: format!("{} ({point})", own.message), ..own };
    }
    let fault = Fault::bad_input(error.to_string()).placed(place::argument(lua, CALL, at + 2));
    match why {
        railproof_engine::rule::RuleError::OutsideLines { .. } => fault.with_hint(
            "sweep only contacts between the known lines, or give the rule outside = \"extrapolate\"",
        ),
        _ => fault,
    }
}

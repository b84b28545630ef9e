//! `rule.linear`, `rule.mirror`, `rule.lines` and `rule.func`: aiming rules in a script's hands.

use super::rule_object::{RuleObject, ScriptRule, TwoNumbers, reading, table};
use super::{members, rule_answers, rule_ways};
use crate::fault::Fault;
use crate::lua::options::{Options, choice, function, list, name, number};
use crate::lua::worker::{CallLimits, FunctionKind};
use crate::lua::{LuaStart, WorkerFunction};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::rule::{NamedRule, Outside, Rule, ShiftFrom, WayBetween};
use std::rc::Rc;
use std::sync::Arc;

const LONGEST_NAME: usize = 80;

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    let rule = lua.create_table()?;
    rule.raw_set("linear", lua.create_function(linear)?)?;
    rule.raw_set("mirror", lua.create_function(mirror)?)?;
    rule.raw_set("lines", lua.create_function(lines)?)?;
    rule.raw_set("func", lua.create_function(func)?)?;
    rule.raw_set("ways", lua.create_function(rule_ways::ways)?)?;
    into.raw_set(
        "rule",
        members::seal(lua, rule, "`rule`", &["linear", "mirror", "lines", "func", "ways"])?,
    )
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn linear(lua: &Lua, argument: Value) -> mlua::Result<RuleObject> {
    let options = Options::open(lua, "linear", &argument, &["slope", "offset", "reading", "name"])?;
    let slope = options.required("slope", number())?;
    let offset = options.optional("offset", number())?.unwrap_or(0.0);
    let reading = reading(&options)?;
    let rule = Rule::linear(slope, offset, reading)
        .map_err(|error| options.complain("slope", error.to_string()))?;
    Ok(named(&options, rule, None)?)
}

fn mirror(lua: &Lua, argument: Value) -> mlua::Result<RuleObject> {
    let options = Options::open_or_none(lua, "mirror", argument, &["name"])?;
    Ok(named(&options, Rule::mirror(), None)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn lines(lua: &Lua, argument: Value) -> mlua::Result<RuleObject> {
    const KEYS: &[&str] = &["lines", "way", "ratio", "from", "outside", "reading", "name"];
    let options = Options::open(lua, "lines", &argument, KEYS)?;
    let reading = reading(&options)?;
    let known = options.required("lines", list(TwoNumbers))?;
    let way = options.required(
        "way",
        choice(&[
            ("interpolate", WayWord::Interpolate),
            ("parallel", WayWord::Parallel),
            ("proportional", WayWord::Proportional),
        ]),
    )?;
    let from = options.optional(
        "from",
        choice(&[
            ("nearest", ShiftFrom::Nearest),
            ("lower", ShiftFrom::Lower),
            ("upper", ShiftFrom::Upper),
        ]),
    )?;
    let outside = options.optional(
        "outside",
        choice(&[("refuse", Outside::Refuse), ("extrapolate", Outside::Extrapolate)]),
    )?;
    let ratio = options.optional("ratio", number())?;
    let foreign = |key: &'static str, given: bool, way: &str| {
        if given {
            Err(options.complain(key, format!("`{key}` means nothing with way = \"{way}\"")))
        } else {
            Ok(())
        }
    };
    let way = match way {
        WayWord::Interpolate => {
            foreign("ratio", ratio.is_some(), "interpolate")?;
            foreign("from", from.is_some(), "interpolate")?;
            WayBetween::Interpolate { outside: outside.unwrap_or_default() }
        }
        WayWord::Parallel => {
            foreign("ratio", ratio.is_some(), "parallel")?;
            foreign("outside", outside.is_some(), "parallel")?;
            WayBetween::ParallelShift { from: from.unwrap_or_default() }
        }
        WayWord::Proportional => {
            foreign("outside", outside.is_some(), "proportional")?;
            let ratio = options.required("ratio", number())?;
            WayBetween::ProportionalShift { ratio, from: from.unwrap_or_default() }
        }
    };
    let table = table(&options, reading, known, way)?;
    Ok(named(&options, Rule::Lines(table), None)?)
}

#[derive(Debug, Clone, Copy)]
enum WayWord {
    Interpolate,
    Parallel,
    Proportional,
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn func(lua: &Lua, argument: Value) -> mlua::Result<RuleObject> {
    let options = Options::open(lua, "func", &argument, &["start", "reading", "name"])?;
    let start = options.required("start", function())?;
    let reading = reading(&options)?;
    let worker = WorkerFunction::capture(lua, &start, CallLimits::default(), FunctionKind::Rule)?;
    let start = LuaStart::new(worker, rule_name(&options)?);
    let rule = Rule::function(reading, Arc::new(start.clone()));
    Ok(named(&options, rule, Some(start))?)
}

fn rule_name(options: &Options) -> Result<Option<String>, Fault> {
    let Some(name) = options.optional("name", name())? else { return Ok(None) };
    if name.trim().is_empty() || name.chars().count() > LONGEST_NAME {
        return Err(
            options.complain("name", format!("a rule's name has 1 to {LONGEST_NAME} characters"))
        );
    }
    Ok(Some(name))
}

fn named(options: &Options, rule: Rule, function: Option<LuaStart>) -> Result<RuleObject, Fault> {
    let named = NamedRule::new(rule_name(options)?, rule);
    Ok(RuleObject(Rc::new(ScriptRule { named, function })))
}

const MEMBERS: &[&str] = &["name", "reading", "start", "contact", "aim"];

impl UserData for RuleObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "rule");
        fields.add_field_method_get("name", |_, this| Ok(this.0.named.name.clone()));
        fields.add_field_method_get("reading", |_, this| Ok(this.0.named.rule.reading().name()));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.0.named.name.clone()));
        methods.add_method("start", rule_answers::start);
        methods.add_method("contact", rule_answers::contact);
        methods.add_method("aim", rule_answers::aim);
        members::only(methods, "a rule", MEMBERS);
    }
}

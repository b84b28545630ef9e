//! `layout:kiss`, `bank:least_gap` and `:least_angle`: the double kiss and its remedies.

use super::answers::{millimetres, none, solved};
use super::bank_shot::line_by;
use super::layout::LayoutObject;
use super::play::ready;
use super::spots::si;
use super::stroke::{AimPlan, STROKE_KEYS, checked, level};
use crate::layout::tables::{CONTACT, OFF_RAIL};
use crate::lua::options::{Options, object};
use crate::lua::quantity::Quantity;
use crate::scenario::members;
use crate::scenario::rule_object::RuleObject;
use mlua::{Lua, Table, Value};
use railproof_engine::aim::{KissStudy, NoAim, least_angle as angle, least_gap as gap};
use railproof_engine::rail::{BankGeometry, Line};

const KISS: &[&str] = &["why_not", "kisses", "clearance", "at"];
const GAP_KEYS: &[&str] =
    &["speed", "tip_side", "tip_height", "elevation", "allow_miscue", "from", "to"];
const ANGLE_KEYS: &[&str] =
    &["speed", "tip_side", "tip_height", "elevation", "allow_miscue", "from", "to", "rule"];
const LEAST: &[&str] = &["why_not", "off_rail", "contact", "start"];

/// The distance off the rail that is searched unless said, m.
const FURTHEST_M: f64 = 0.3;
/// The contact numbers that are looked at unless said.
const CONTACTS: (f64, f64) = (0.5, 3.5);

/// `layout:kiss { … }`: whether the balls meet again once the object ball is off its first rail, and
/// if not how near they come.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn kiss(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "kiss", &argument, &STROKE_KEYS)?;
    let setup = this.0.setup(&options)?;
    let Some((_, plan)) = ready(&options, &this.0)?.stroke else {
        return Err(options.complain_of_call("which stroke is meant?").into());
    };
    let answer = solved(lua, || {
        let stroke = match plan.aim {
            AimPlan::Given(_) | AimPlan::Ghost(..) => plan.stroke,
            AimPlan::Solved(by, way) => by.solve(&setup, &plan.stroke, way)?.0,
        };
        KissStudy::of(&setup, &stroke)
    })?;
    let study = match answer {
        Ok(study) => study,
        Err(why) => return none(lua, &why, KISS),
    };
    let table = lua.create_table()?;
    table.raw_set("kisses", study.kisses())?;
    if let Some(room_m) = study.clearance_m {
        table.raw_set("clearance", millimetres(room_m)?)?;
    }
    if let Some(at_s) = study.kissed_at_s.or(study.nearest.map(|nearest| nearest.time_s)) {
        table.raw_set("at", Quantity::new(at_s, "s")?)?;
    }
    members::seal(lua, table, "an answer", KISS)
}

/// `bank:least_gap { … }`: the least distance off the rail from which on nothing kisses.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn least_gap(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "least_gap", &argument, GAP_KEYS)?;
    let line = this.0.bank_line(&options)?;
    let stroke = level(&options, this.0.world.equipment())?;
    checked(&options, &this.0, &stroke)?;
    let from_m = si(&options, "from", OFF_RAIL)?.unwrap_or(0.0);
    let to_m = si(&options, "to", OFF_RAIL)?.unwrap_or(FURTHEST_M);
    in_order(&options, from_m, to_m)?;
    let world = &this.0.world;
    match solved(lua, || gap(world, &line.at, &stroke, (from_m, to_m)))? {
        Ok(off_rail_m) => {
            let table = lua.create_table()?;
            table.raw_set("off_rail", millimetres(off_rail_m)?)?;
            members::seal(lua, table, "an answer", LEAST)
        }
        Err(why) => none(lua, &why, LEAST),
    }
}

/// `bank:least_angle { … }`: the least contact number on the rule's lines from which on nothing
/// kisses.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn least_angle(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "least_angle", &argument, ANGLE_KEYS)?;
    let line = this.0.bank_line(&options)?;
    let given = options.optional("rule", object::<RuleObject>("a rule"))?;
    let rule = given.or_else(|| line.rule.clone()).ok_or_else(|| {
        options
            .complain_of_call("which rule gives the lines?")
            .with_hint("give a `rule` here, or lay the bank shot by one")
    })?;
    let stroke = level(&options, this.0.world.equipment())?;
    checked(&options, &this.0, &stroke)?;
    let from = si(&options, "from", CONTACT)?.unwrap_or(CONTACTS.0);
    let to = si(&options, "to", CONTACT)?.unwrap_or(CONTACTS.1);
    in_order(&options, from, to)?;
    let geometry = BankGeometry::new(this.0.world.equipment(), line.at.rail, line.at.pocket)
        .map_err(|error| options.complain_of_call(error.to_string()))?;
    // A rule that fails at an end of the range says so with its place.
    for contact in [from, to] {
        line_by(&options, &rule, contact, &geometry)?;
    }
    let rule = &rule.0.named.rule;
    let nowhere = Line::new(f64::NAN, f64::NAN);
    let line_at = |contact: f64| rule.line_for_contact(contact, &geometry).unwrap_or(nowhere);
    let (world, at) = (&this.0.world, &line.at);
    let answer: Result<f64, NoAim> =
        solved(lua, || angle(world, at, &stroke, line_at, (from, to)))?;
    match answer {
        Ok(contact) => {
            let table = lua.create_table()?;
            table.raw_set("contact", contact)?;
            table.raw_set("start", line_at(contact).start)?;
            members::seal(lua, table, "an answer", LEAST)
        }
        Err(why) => none(lua, &why, LEAST),
    }
}

fn in_order(options: &Options, from: f64, to: f64) -> Result<(), crate::fault::Fault> {
    if from < to {
        return Ok(());
    }
    let key = if options.has("to") { "to" } else { "from" };
    Err(options.complain(key, "`from` must be below `to`"))
}

//! `line { on, contact, start, reading }`: one line by its numbers, read both ways.

use super::inputs::NumberOf;
use super::members;
use super::rule_answers::geometry_of;
use super::rule_object::reading;
use crate::lua::options::Options;
use mlua::{Lua, Table, Value};
use railproof_engine::equipment::Parameter;
use railproof_engine::rail::{Line, Reading};

const NUMBERS: &[&str] = &["contact", "start"];

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("line", lua.create_function(line)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn line(lua: &Lua, argument: Value) -> mlua::Result<Table> {
    const KEYS: &[&str] = &["equipment", "contact", "start", "reading", "rail", "pocket"];
    let options = Options::open(lua, "line", &argument, KEYS)?;
    let geometry = geometry_of(&options)?;
    let number_of = |parameter: Parameter| options.required(parameter.name, NumberOf(parameter));
    let contact = number_of(Line::CONTACT)?.si;
    let start = number_of(Line::START)?.si;
    let groove = Line::new(contact, start).groove_from(reading(&options)?, &geometry);
    let table = lua.create_table()?;
    for (name, way) in [("groove", Reading::Groove), ("sight", Reading::Sight)] {
        let read = groove.read_as(way, &geometry);
        let numbers = lua.create_table()?;
        numbers.raw_set("contact", read.contact)?;
        numbers.raw_set("start", read.start)?;
        table.raw_set(name, members::seal(lua, numbers, "a reading", NUMBERS)?)?;
    }
    members::seal(lua, table, "a line", &["groove", "sight"])
}

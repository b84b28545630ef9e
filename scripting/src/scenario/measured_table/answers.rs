//! What a known table says, as tables of Lua.

use crate::fitting::{NumberFindings, NumberUnit};
use crate::scenario::members;
use mlua::{Lua, Table};
use railproof_engine::ask::{CredibleInterval, MemberShare};
use railproof_engine::practice::{Fact, FactShares};

const FACT: &[&str] = &["name", "told", "chose", "share", "error"];
const SHARE: &[&str] = &["share", "error"];
const INTERVAL: &[&str] = &["middle", "from", "to"];
const NUMBER: &[&str] = &["name", "middle", "from", "to", "unit", "narrower", "told"];

pub(super) fn interval(lua: &Lua, interval: &CredibleInterval) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("middle", interval.middle)?;
    table.raw_set("from", interval.ninety.0)?;
    table.raw_set("to", interval.ninety.1)?;
    members::seal(lua, table, "an interval", INTERVAL)
}

pub(super) fn share(lua: &Lua, share: &MemberShare) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("share", share.share)?;
    table.raw_set("error", share.error)?;
    members::seal(lua, table, "a share", SHARE)
}

/// What practice says, and on how many tables it comes true.
pub(super) fn facts(
    lua: &Lua,
    shares: &FactShares,
    is_chosen_by: impl Fn(&Fact) -> bool,
) -> mlua::Result<Table> {
    let list = lua.create_table()?;
    for (fact, share) in &shares.facts {
        let table = lua.create_table()?;
        table.raw_set("name", fact.name)?;
        table.raw_set("told", fact.told)?;
        let chose = is_chosen_by(fact);
        table.raw_set("chose", chose)?;
        // A fact that chose the tables is true of them all, which says nothing.
        if !chose {
            table.raw_set("share", share.share)?;
            table.raw_set("error", share.error)?;
        }
        list.raw_push(members::seal(lua, table, "a fact", FACT)?)?;
    }
    Ok(list)
}

pub(super) fn numbers(lua: &Lua, numbers: &[NumberFindings]) -> mlua::Result<Table> {
    let list = lua.create_table()?;
    for number in numbers {
        list.raw_push(number_table(lua, number)?)?;
    }
    Ok(list)
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

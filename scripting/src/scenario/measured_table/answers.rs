//! What a known table says, as tables of Lua.

use crate::fitting::{NumberFindings, NumberUnit};
use crate::scenario::members;
use crate::telling::tied_words;
use mlua::{Lua, Table};
use railproof_engine::ask::{CredibleInterval, MemberShare, TiedNumbers};
use railproof_engine::practice::{Fact, FactShares};

const FACT: &[&str] = &["name", "told", "chose", "share", "error"];
const SHARE: &[&str] = &["share", "error"];
const INTERVAL: &[&str] = &["middle", "from", "to"];
const TIED: &[&str] = &["numbers", "weights", "left", "told"];
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

/// Numbers that are known together better than apart.
pub(super) fn tied(lua: &Lua, tied: &[TiedNumbers]) -> mlua::Result<Table> {
    let list = lua.create_table()?;
    for tied in tied {
        let (names, weights) = (lua.create_table()?, lua.create_table()?);
        for part in &tied.parts {
            names.raw_push(part.number.title())?;
            weights.raw_push(part.weight)?;
        }
        let table = lua.create_table()?;
        table.raw_set("numbers", names)?;
        table.raw_set("weights", weights)?;
        table.raw_set("left", tied.left)?;
        table.raw_set("told", tied_words(tied))?;
        list.raw_push(members::seal(lua, table, "numbers that go together", TIED)?)?;
    }
    Ok(list)
}

fn number_table(lua: &Lua, number: &NumberFindings) -> mlua::Result<Table> {
    let NumberUnit { symbol, si, .. } = number.unit;
    let table = lua.create_table()?;
    table.raw_set("name", number.title.as_ref())?;
    table.raw_set("middle", number.after.middle / si)?;
    table.raw_set("from", number.after.ninety.0 / si)?;
    table.raw_set("to", number.after.ninety.1 / si)?;
    table.raw_set("unit", symbol)?;
    table.raw_set("narrower", 1.0 - number.left())?;
    table.raw_set("told", number.is_determined())?;
    members::seal(lua, table, "a number", NUMBER)
}

//! `mine:chances(me, banks, rule…)`: over all the tables that one could be.

use super::chances::{Chances, chances};
use super::player::OnePlayer;
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::options::Kind;
use crate::lua::place::{self, Placed};
use mlua::{Lua, Value};
use std::rc::Rc;

const CALL: &str = "chances";

/// `mine:chances(me, banks, rule…)`: over all the tables that yours could be.
pub fn chances_on_tables(
    lua: &Lua,
    known: &Rc<MeasuredTable>,
    arguments: &[Value],
) -> mlua::Result<Chances> {
    let player = OnePlayer.read(arguments.first().unwrap_or(&Value::Nil)).map_err(|mismatch| {
        let fault = Fault::bad_input(format!("what {CALL} takes first {}", mismatch.message));
        let hint = "write mine:chances(player \"club\", banks, rule)".to_owned();
        fault.with_hint(mismatch.hint.unwrap_or(hint)).placed(place::argument(lua, CALL, 1))
    })?;
    chances(lua, &player.0, Some(known), arguments.get(1..).unwrap_or_default())
}

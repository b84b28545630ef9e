//! Words about people who miss: players, how often they make a bank, and the rules that suit them.

mod asked;
mod asked_balls;
pub mod chances;
pub mod claims;
mod corrected;
pub mod discovered;
pub mod edges;
pub mod on_tables;
mod own_player;
pub mod player;
pub mod ranking;
mod rows;
mod spot;
mod tables;

use mlua::{Lua, Table};

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    player::install(lua, into)?;
    own_player::install(lua, into)?;
    discovered::install(lua, into)?;
    corrected::install(lua, into)?;
    spot::install(lua, into)
}

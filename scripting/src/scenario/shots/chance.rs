//! `shot:chance(player)`: how often a player makes a shot.

use crate::fault::Fault;
use crate::lua::options::Kind;
use crate::lua::place::{self, Placed};
use crate::playing::PlayedShot;
use crate::scenario::chance::player::OnePlayer;
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::shot_chance_sentence;
use mlua::{Lua, Table, Value};
use railproof_engine::verdict::PocketVerdict;

const CALL: &str = "chance";
const CHANCE: &[&str] = &["made", "error", "scratched", "sentence"];

/// Plays strokes of a player about the one of the shot.
pub(super) fn chance_of(lua: &Lua, shot: &PlayedShot<'_>, player: &Value) -> mlua::Result<Table> {
    let at = || place::argument(lua, CALL, 1);
    let player = OnePlayer.read(player).map_err(|mismatch| {
        let fault = Fault::bad_input(format!("what {CALL} takes {}", mismatch.message));
        let hint = "write shot:chance(player \"club\")".to_owned();
        fault.with_hint(mismatch.hint.unwrap_or(hint)).placed(at())
    })?;
    let found = Session::of(lua)?
        .work(lua, 1, |_| shot.chance(&player.0))?
        .map_err(|fault| fault.placed(place::call(lua, Some(CALL))))?;
    let table = lua.create_table()?;
    table.raw_set("made", found.made.chance)?;
    table.raw_set("error", found.made.error)?;
    table.raw_set("scratched", found.shares[PocketVerdict::Scratched.place()])?;
    table.raw_set("sentence", shot_chance_sentence(&player.0, &found).trim_end())?;
    members::seal(lua, table, "a chance", CHANCE)
}

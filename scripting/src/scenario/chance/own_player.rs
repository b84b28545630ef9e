//! `player_of { banks, on, like }`: a player by their own repeated banks.

use super::player::{PlayerObject, player_at};
use super::tables::{AskedOf, OneOrManyTables};
use crate::fault::Fault;
use crate::fitting::{MeasuredTable, OwnPlayer};
use crate::lua::options::{Options, name, text};
use crate::lua::place::Placed;
use crate::measured::read_measurements;
use crate::player::{USUAL_PLAYER, find_player};
use crate::scenario::inputs::Keys;
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::own_player_sentences;
use mlua::{IntoLua, Lua, Table, Value};
use railproof_engine::chance::SkillNumber;
use std::rc::Rc;

const CALL: &str = "player_of";
const KEYS: &[&str] = &["banks", "on", "like", "name"];
const FOUND: &[&str] = &["player", "sentence", "shots", "lines", "spreads"];
static SPREAD: Keys = Keys::new(|| vec!["middle", "from", "to", "told"]);

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(player_of)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn player_of(lua: &Lua, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, CALL, &argument, KEYS)?;
    let session = Session::of(lua)?;
    let path = options.required("banks", text())?;
    let asked = options.required("on", OneOrManyTables)?;
    let known = match &asked {
        AskedOf::One(table) => Rc::new(MeasuredTable::wide(table, false)),
        AskedOf::Many(known) => Rc::clone(known),
    };
    let like = match player_at(lua, &options, "like")? {
        Some(PlayerObject(like)) => (*like).clone(),
        None => find_player(USUAL_PLAYER, session.folder())?,
    };
    let name = options.optional("name", name())?;
    let name = name.unwrap_or_else(|| format!("a player like {}", like.name));
    let banks = read_measurements(&session.folder().join(path), &known.table)
        .map_err(|fault| fault.placed(options.complain("banks", "").place))?;
    let found = session.work(lua, 1, |_| OwnPlayer::of(&known, &banks, like, name))?;
    let found = found.map_err(|fault: Fault| {
        let told = options.complain("banks", fault.message);
        Fault { hint: fault.hint, ..told }
    })?;
    let result = lua.create_table()?;
    result.raw_set("sentence", own_player_sentences(&found).trim_end())?;
    result.raw_set("shots", found.own.shots)?;
    result.raw_set("lines", found.own.lines)?;
    let spreads = lua.create_table()?;
    for it in &found.own.numbers {
        let own = lua.create_table()?;
        own.raw_set("middle", it.after.middle)?;
        own.raw_set("from", it.after.ninety.0)?;
        own.raw_set("to", it.after.ninety.1)?;
        own.raw_set("told", it.is_told())?;
        spreads
            .raw_set(SkillNumber::name(it.number), members::seal(lua, own, "a spread", &SPREAD)?)?;
    }
    result.raw_set("spreads", spreads)?;
    result.raw_set("player", PlayerObject(Rc::new(found.player)).into_lua(lua)?)?;
    members::seal(lua, result, "a player's own spreads", FOUND)
}

//! `player "club"` and `player { like = "club", aim = milliradians(6) }`.

use super::chances::chances;
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch, Options, object};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{Quantity, kind_of};
use crate::player::{INLINE_PLAYER, PlayerProfile, USUAL_PLAYER, find_player};
use crate::scenario::inputs::Keys;
use crate::scenario::members;
use crate::scenario::session::Session;
use mlua::{
    IntoLua, Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value, Variadic,
};
use railproof_engine::chance::SkillNumber;
use std::rc::Rc;

/// A player in a script's hands.
#[derive(Debug, Clone)]
pub struct PlayerObject(pub Rc<PlayerProfile>);

/// Reads a player, or the name of one.
#[derive(Debug, Clone, Copy)]
pub struct OnePlayer;

impl Kind for OnePlayer {
    type Output = PlayerObject;

    fn expected(&self) -> String {
        "a player".to_owned()
    }

    fn read(&self, value: &Value) -> Result<PlayerObject, Mismatch> {
        object::<PlayerObject>("a player").read(value).map_err(|mismatch| {
            let named = value.as_string().map(mlua::LuaString::to_string_lossy);
            let name = named.unwrap_or_else(|| USUAL_PLAYER.to_owned());
            mismatch.with_hint(format!("write it like player \"{name}\""))
        })
    }
}

/// The player at a key: one that was made before, or a name.
pub fn player_at(
    lua: &Lua,
    options: &Options,
    key: &'static str,
) -> mlua::Result<Option<PlayerObject>> {
    if let Value::String(name) = options.raw(key) {
        let found = find_player(&name.to_string_lossy(), Session::of(lua)?.folder());
        let found = found.map_err(|fault| match fault.place {
            Some(_) => fault,
            None => {
                let told = options.complain(key, fault.message);
                Fault { hint: fault.hint, ..told }
            }
        })?;
        return Ok(Some(PlayerObject(Rc::new(found))));
    }
    Ok(options.optional(key, OnePlayer)?)
}

static KEYS: Keys = Keys::new(|| INLINE_PLAYER.all().map(|field| field.name).collect());
static MEMBERS: Keys = Keys::new(|| {
    ["name", "chances"].into_iter().chain(SkillNumber::ALL.map(SkillNumber::name)).collect()
});

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("player", lua.create_function(player)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn player(lua: &Lua, argument: Value) -> mlua::Result<PlayerObject> {
    const CALL: &str = "player";
    let session = Session::of(lua)?;
    let at = || place::argument(lua, CALL, 1);
    match &argument {
        Value::String(name) => {
            let found = find_player(&name.to_string_lossy(), session.folder());
            Ok(PlayerObject(Rc::new(found.map_err(|fault| fault.placed(at()))?)))
        }
        Value::Table(_) => {
            let options = Options::open(lua, CALL, &argument, &KEYS)?;
            let values = options.group(&INLINE_PLAYER)?;
            if !KEYS.iter().any(|key| options.has(key)) {
                return Err(options
                    .complain_of_call("this says nothing of the player")
                    .with_hint(format!(
                        "name one, player \"{USUAL_PLAYER}\", or say how theirs differ, player {{ aim = milliradians(3) }}"
                    ))
                    .into());
            }
            let like = values.text("like").unwrap_or(USUAL_PLAYER);
            let like = find_player(like, session.folder()).map_err(|fault| {
                let told = options.complain("like", fault.message);
                match fault.hint {
                    Some(hint) => told.with_hint(hint),
                    None => told,
                }
            })?;
            let mut made = PlayerProfile::of(&values, &like);
            if !options.has("name") {
                made.name = format!("a player like {}", like.name);
            }
            Ok(PlayerObject(Rc::new(made)))
        }
        other => Err(Fault::bad_input(format!(
            "{CALL} takes the name of a player or a table, not {}",
            kind_of(other)
        ))
        .with_hint(format!("write it like player \"{USUAL_PLAYER}\""))
        .placed(at())
        .into()),
    }
}

impl UserData for PlayerObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "player");
        fields.add_field_method_get("name", |_, this| Ok(this.0.name.clone()));
        for number in SkillNumber::ALL {
            fields.add_field_method_get(number.name(), move |lua, this| {
                let si = this.0.skill.number(number);
                match number.parameter().dimension.si_symbol() {
                    "" => Ok(Value::Number(si)),
                    symbol => Quantity::new(si, symbol)?.into_lua(lua),
                }
            });
        }
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.0.name.clone()));
        methods.add_method("chances", |lua, this, arguments: Variadic<Value>| {
            chances(lua, &this.0, None, &arguments)
        });
        members::only(methods, "a player", &MEMBERS);
    }
}

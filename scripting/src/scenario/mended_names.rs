//! Names without a value, whose lines are run: each is told, with what stands in.

use super::left_out::EmptySelection;
use super::session::Session;
use crate::lua::mends::{Mends, STAND_IN};
use mlua::{Function, IntoLua, Lua, MultiValue, Table, Value};

pub fn install(lua: &Lua, globals: &Table) -> mlua::Result<()> {
    globals.raw_set(STAND_IN, lua.create_function(stand_in)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn stand_in(lua: &Lua, given: MultiValue) -> mlua::Result<Value> {
    let (number, value, make, own) =
        lua.unpack_multi::<(usize, Value, Option<Function>, Option<String>)>(given.clone())?;
    let fault = lua.app_data_ref::<Mends>().and_then(|mends| mends.0.get(number).cloned());
    let Some(fault) = fault else { return Ok(value) };
    let left_out = Session::of(lua)?.leave_out(fault);
    if let Some(name) = own {
        return lua.globals().get(name);
    }
    match make {
        None if given.len() < 2 => EmptySelection::of(left_out).into_lua(lua),
        None => Ok(value),
        Some(make) => {
            // It is made once, however often it is read.
            let key = format!("{STAND_IN}{number}");
            let made: Value = lua.named_registry_value(&key)?;
            if !made.is_nil() {
                return Ok(made);
            }
            let made: Value = make.call(())?;
            lua.set_named_registry_value(&key, &made)?;
            Ok(made)
        }
    }
}

//! Library functions that could run for minutes inside one call, where no budget reaches them.
//!
//! The machine's interrupt comes at calls, turns of loops and steps of pattern matching, but not
//! inside these. Each is wrapped so that a call of unreasonable size is refused.

use super::place::{self, Placed};
use crate::fault::Fault;
use mlua::{Function, Lua, MultiValue, Table, Value};

/// The most elements `table.move` moves at once: about a tenth of a second.
pub const MOST_MOVED: f64 = 5e6;

/// The largest product of a text's and a pattern's lengths that is searched: a plain search compares
/// every place in the one with all of the other, at worst in about a tenth of a second.
pub const MOST_COMPARED: usize = 1_000_000_000;

/// The most repetitions of `string.rep`: Lua takes a count beyond these for none.
pub const MOST_REPEATED: f64 = 2_147_483_647.0;

/// Wraps `table.move`, `string.find`, `string.split` and `string.rep`.
///
/// # Errors
/// Only when Lua has no memory left.
pub fn install(lua: &Lua) -> mlua::Result<()> {
    let globals = lua.globals();
    let table: Table = globals.raw_get("table")?;
    wrap(lua, &table, "move", |lua, arguments| {
        // Lua takes texts that look like numbers for numbers here.
        let number = |at: usize| {
            let value = arguments.get(at).cloned().unwrap_or(Value::Nil);
            lua.coerce_number(value).ok().flatten().unwrap_or(0.0)
        };
        if number(2) - number(1) > MOST_MOVED {
            return Err(Fault::bad_input(format!(
                "table.move moves at most {MOST_MOVED} elements"
            )));
        }
        Ok(())
    })?;
    let string: Table = globals.raw_get("string")?;
    wrap(lua, &string, "rep", |lua, arguments| {
        let count = arguments.get(1).cloned().unwrap_or(Value::Nil);
        if lua.coerce_number(count).ok().flatten().is_some_and(|count| count > MOST_REPEATED) {
            let message = format!("string.rep repeats at most {MOST_REPEATED} times");
            return Err(Fault::bad_input(message));
        }
        Ok(())
    })?;
    for name in ["find", "split"] {
        wrap(lua, &string, name, move |_, arguments| {
            let length = |at: usize| match arguments.get(at) {
                Some(Value::String(text)) => text.as_bytes().len(),
                _ => 0,
            };
            if length(0).saturating_mul(length(1)) > MOST_COMPARED {
                return Err(Fault::bad_input(format!("string.{name}: these texts are too long")));
            }
            Ok(())
        })?;
    }
    Ok(())
}

fn wrap(
    lua: &Lua,
    library: &Table,
    name: &'static str,
    check: impl Fn(&Lua, &MultiValue) -> Result<(), Fault> + 'static,
) -> mlua::Result<()> {
    let original: Function = library.raw_get(name)?;
    let wrapped =
        lua.create_function(move |lua, arguments: MultiValue| match check(lua, &arguments) {
            Ok(()) => original.call::<MultiValue>(arguments),
            Err(fault) => Err(fault.placed(place::call(lua, Some(name))).into()),
        })?;
    library.raw_set(name, wrapped)
}

//! Things that scripts hold answer only to names they know.

use crate::fault::Fault;
use crate::lua::place::{CallSite, Placed};
use crate::renamed;
use mlua::{Lua, MetaMethod, Table, UserDataMethods, Value};

/// The error of asking a thing for a name that it does not know.
pub fn unknown(lua: &Lua, what: &str, known: &[&str], name: &Value) -> mlua::Error {
    let name = match name {
        Value::String(name) => name.to_string_lossy(),
        other => format!("{other:?}"),
    };
    let hint = match renamed::hint(&name, known.iter().copied()) {
        Some(hint) => hint,
        None => format!("it has: {}", known.join(", ")),
    };
    let place = CallSite::find(lua).map(|site| site.place_of_name(&name));
    Fault::bad_input(format!("{what} has no `{name}`")).with_hint(hint).placed(place).into()
}

/// Makes asking for an unknown field or method an error with a suggestion.
pub fn only<T, M: UserDataMethods<T>>(
    methods: &mut M,
    what: &'static str,
    known: &'static [&'static str],
) {
    methods.add_meta_method(MetaMethod::Index, move |lua, _, name: Value| -> mlua::Result<Value> {
        Err(unknown(lua, what, known, &name))
    });
}

/// Makes a table read-only, and asking it for a name that is none of `known` an error.
pub fn seal(
    lua: &Lua,
    table: Table,
    what: &'static str,
    known: &'static [&'static str],
) -> mlua::Result<Table> {
    let metatable = lua.create_table()?;
    metatable.raw_set(
        "__index",
        lua.create_function(move |lua, (_, name): (Value, Value)| -> mlua::Result<Value> {
            match &name {
                Value::String(text)
                    if known.iter().any(|known| text.as_bytes() == known.as_bytes()) =>
                {
                    Ok(Value::Nil)
                }
                _ => Err(unknown(lua, what, known, &name)),
            }
        })?,
    )?;
    metatable.set_readonly(true);
    table.set_metatable(Some(metatable))?;
    table.set_readonly(true);
    Ok(table)
}

/// As [`seal`], for names that the script chose.
pub fn seal_named(
    lua: &Lua,
    table: Table,
    what: &'static str,
    known: Vec<String>,
) -> mlua::Result<Table> {
    let metatable = lua.create_table()?;
    metatable.raw_set(
        "__index",
        lua.create_function(move |lua, (_, name): (Value, Value)| -> mlua::Result<Value> {
            if matches!(&name, Value::String(text) if known.iter().any(|known| text.as_bytes() == known.as_bytes())) {
                return Ok(Value::Nil);
            }
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            Err(unknown(lua, what, &known, &name))
        })?,
    )?;
    metatable.set_readonly(true);
    table.set_metatable(Some(metatable))?;
    table.set_readonly(true);
    Ok(table)
}

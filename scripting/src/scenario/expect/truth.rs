//! `expect_that("in words", truth)`: anything that a script can work out.

use super::open::taken;
use super::subject::{Finding, argument, record};
use crate::lua::options::{boolean, text};
use crate::scenario::left_out;
use mlua::{Lua, MultiValue, Table, Value};

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    const CALL: &str = "expect_that";
    into.raw_set(
        CALL,
        lua.create_function(|lua, given: MultiValue| {
            left_out::unless_empty(lua, given, |given| {
                let (words, truth): (Value, Value) = taken(lua, CALL, given)?;
                let words = argument(lua, CALL, 1, &words, text())?;
                let held = argument(lua, CALL, 2, &truth, boolean())?;
                let found = if held { "it is true" } else { "it is not true" };
                record(lua, CALL, words, Finding { held, words: found.to_owned() })?;
                Ok(Value::Nil)
            })
        })?,
    )
}

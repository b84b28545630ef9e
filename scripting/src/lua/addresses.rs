//! Addresses of the machine's memory are kept from scripts: they differ from run to run, and no
//! result may.
//!
//! An address shows in the text of a table or a function, and in the order in which a table that is
//! keyed by tables or functions is gone through. The texts are cut, and such an order is refused.

use super::place::{self, Placed};
use crate::fault::Fault;
use mlua::{Function, Lua, MultiValue, Table, Value};

/// The name under which loops find what checks their tables.
pub const IN_ORDER: &str = "__in_order";

/// Cuts the address out of the text that Lua makes of a value: `table: 0x55…` becomes `table`.
fn cut(value: &Value, text: &str) -> Option<usize> {
    let plain = matches!(
        value,
        Value::Nil
            | Value::Boolean(_)
            | Value::Integer(_)
            | Value::Number(_)
            | Value::Vector(_)
            | Value::String(_)
    );
    let (kind, address) = text.rsplit_once(": ")?;
    let digits = address.strip_prefix("0x")?;
    let is_address = !digits.is_empty() && digits.bytes().all(|digit| digit.is_ascii_hexdigit());
    (!plain && is_address).then_some(kind.len())
}

/// A value's text without addresses.
///
/// # Errors
/// The error of its own `__tostring`.
pub fn told(value: &Value) -> mlua::Result<String> {
    let mut text = match value {
        // Not every text of Lua's is UTF-8.
        Value::String(text) => return Ok(text.to_string_lossy()),
        other => other.to_string()?,
    };
    if let Some(end) = cut(value, &text) {
        text.truncate(end);
    }
    Ok(text)
}

/// Replaces `tostring` and `string.format` (which texts between backticks go through too).
///
/// # Errors
/// Only when Lua has no memory left.
pub fn install(lua: &Lua) -> mlua::Result<()> {
    let globals = lua.globals();
    let original: Function = globals.raw_get("tostring")?;
    let tostring = lua.create_function(move |lua, values: MultiValue| {
        let value = values.front().cloned().unwrap_or(Value::Nil);
        let text: Value = original.call(values)?;
        match &text {
            Value::String(words) => match cut(&value, &words.to_string_lossy()) {
                Some(end) => Ok(Value::String(lua.create_string(&words.as_bytes()[..end])?)),
                None => Ok(text),
            },
            _ => Ok(text),
        }
    })?;
    globals.raw_set("tostring", &tostring)?;
    let string: Table = globals.raw_get("string")?;
    let original: Function = string.raw_get("format")?;
    let format = lua.create_function(move |lua, mut values: MultiValue| {
        for value in values.iter_mut().skip(1) {
            if matches!(
                value,
                Value::Table(_)
                    | Value::Function(_)
                    | Value::Thread(_)
                    | Value::UserData(_)
                    | Value::LightUserData(_)
                    | Value::Buffer(_)
            ) {
                *value = Value::String(lua.create_string(told(value)?)?);
            }
        }
        original.call::<MultiValue>(values)
    })?;
    string.raw_set("format", format)
}

/// What refuses a table whose order would depend on addresses. In Lua, because it is quick there.
const CHECK: &str = r#"
local next, pairs, kind, refuse, meta, raise = ...
local function check(list)
  for key in next, list do
    local of = kind(key)
    if of ~= "string" and of ~= "number" and of ~= "boolean" and of ~= "vector" then refuse(of) end
  end
end
"#;

/// `pairs`, `next` and `table.foreach` as a rule function has them, and what its loops go through: every step is checked.
const ORDER_OF_FUNCTIONS: &str = r#"
local function checked_next(list, key)
  if kind(list) == "table" then check(list) end
  return next(list, key)
end
local function checked_pairs(list)
  if kind(list) ~= "table" then return pairs(list) end
  check(list)
  return checked_next, list, nil
end
local function in_order(first, ...)
  if kind(first) ~= "table" then return first, ... end
  check(first)
  return checked_next, first, nil
end
local function foreach(list, call)
  for key, value in checked_next, list do
    local answer = call(key, value)
    if answer ~= nil then return answer end
  end
  return nil
end
return checked_next, checked_pairs, in_order, foreach
"#;

/// The same for a scenario, whose tables may be large: each is checked once, before it is gone through. Tables that say
/// themselves how they are gone through are left to that.
const ORDER_OF_SCENARIOS: &str = r#"
local function checked_next(list, key)
  if kind(list) ~= "table" then
    raise(`invalid argument #1 to 'next' (table expected, got {kind(list)})`, 2)
  end
  if key == nil then check(list) end
  return next(list, key)
end
local stepping = pairs({})
local function in_order(first, list, ...)
  if first == next or first == stepping or first == checked_next then
    if kind(list) == "table" then check(list) end
  elseif kind(first) == "table" then
    local own = meta(first)
    if own == nil or kind(own) == "table" and own.__iter == nil and own.__call == nil then check(first) end
  end
  return first, list, ...
end
local function foreach(list, call)
  for key, value in in_order(next, list) do
    local answer = call(key, value)
    if answer ~= nil then return answer end
  end
  return nil
end
return checked_next, pairs, in_order, foreach
"#;

/// Puts in what a rule function's loops go through.
///
/// # Errors
/// Only when Lua has no memory left.
pub fn install_order_of_functions(lua: &Lua) -> mlua::Result<()> {
    install_order(lua, ORDER_OF_FUNCTIONS)
}

/// Puts in what a scenario's loops go through.
///
/// # Errors
/// Only when Lua has no memory left.
pub fn install_order_of_scenarios(lua: &Lua) -> mlua::Result<()> {
    install_order(lua, ORDER_OF_SCENARIOS)
}

fn install_order(lua: &Lua, order: &str) -> mlua::Result<()> {
    let globals = lua.globals();
    let take = |name: &str| globals.raw_get::<Function>(name);
    let refuse = lua.create_function(|lua, kind: String| -> mlua::Result<()> {
        Err(Fault::bad_input(format!(
            "a table with a {kind} as a key has no order that is the same in every run"
        ))
        .with_hint("key it by numbers or texts, or keep a list beside it")
        .placed(place::call_line(lua))
        .into())
    })?;
    let (next, pairs, kind) = (take("next")?, take("pairs")?, take("type")?);
    let raise = take("error")?;
    let meta: Value = globals.raw_get("getmetatable")?;
    let order = format!("{CHECK}{order}");
    let (next, pairs, in_order, foreach): (Function, Function, Function, Function) =
        lua.load(order).set_name("=order").call((next, pairs, kind, refuse, meta, raise))?;
    globals.raw_set("next", next)?;
    globals.raw_set("pairs", pairs)?;
    globals.raw_set(IN_ORDER, in_order)?;
    let table: Table = globals.raw_get("table")?;
    table.raw_set("foreach", foreach)
}

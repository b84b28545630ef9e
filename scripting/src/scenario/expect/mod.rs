//! `expect(map):…`: what a scenario says must be so, and what was found. A failed expectation is
//! recorded and the script goes on.

mod along;
mod misses;
mod number;
mod pairs;
mod steady;
mod stored;
mod truth;
mod verdicts;

use super::frontier::{ExpectedFront, Front};
use super::map::Map;
use super::members;
use super::session::{Session, here};
use crate::fault::Fault;
use crate::lua::options::{Kind, object};
use crate::lua::place::{self, Placed};
use crate::record::Expectation;
use mlua::{IntoLua, Lua, Table, UserData, UserDataFields, UserDataMethods, Value};

/// Banks about which something is expected.
#[derive(Debug, Clone)]
pub struct Expected(pub Map);

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        "expect",
        lua.create_function(|lua, value: Value| {
            if let Ok(front) = object::<Front>("a frontier").read(&value) {
                return ExpectedFront(front).into_lua(lua);
            }
            let kind = object::<Map>("a map, a frontier or a selection of one");
            let map = argument(lua, "expect", 1, &value, kind);
            let numeric = crate::lua::quantity::plain_number(&value).is_some()
                || crate::lua::quantity::of_value(&value).is_some();
            let hinted = |fault: Fault| {
                if numeric {
                    fault.with_hint("for numbers and quantities write expect_number(…)")
                } else {
                    fault
                }
            };
            Expected(map.map_err(hinted)?).into_lua(lua)
        })?,
    )?;
    truth::install(lua, into)?;
    number::install(lua, into)
}

pub(super) use steady::{Way, steady, too_few};
pub use verdicts::{length, percent};

/// What was found.
pub struct Found {
    pub held: bool,
    pub words: String,
}

impl Expected {
    /// Records an expectation of the running call of `method`.
    fn record(&self, lua: &Lua, method: &str, expected: &str, found: Found) -> mlua::Result<Self> {
        let expected = format!("{}: {expected}", self.0.picked.subject());
        record(lua, method, expected, found)?;
        Ok(self.clone())
    }
}

/// Records an expectation of the running call of `method`.
pub fn record(lua: &Lua, method: &str, expected: String, found: Found) -> mlua::Result<()> {
    Session::of(lua)?.add_expectation(Expectation {
        expected,
        found: found.words,
        held: found.held,
        place: here(lua, method),
        baseline: None,
    });
    Ok(())
}

/// An argument of a method, of a kind.
#[expect(clippy::needless_pass_by_value, reason = "kinds are made at the call")]
pub fn argument<K: Kind>(
    lua: &Lua,
    call: &str,
    number: usize,
    value: &Value,
    kind: K,
) -> Result<K::Output, Fault> {
    kind.read(value).map_err(|mismatch| {
        let fault = Fault::bad_input(format!("what {call} takes {}", mismatch.message))
            .placed(place::argument(lua, call, number));
        match mismatch.hint {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        }
    })
}

const MEMBERS: &[&str] = &[
    "holds",
    "holds_at_least",
    "holds_at_most",
    "goes",
    "stops",
    "touches",
    "misses_within",
    "misses_long_by_at_least",
    "misses_short_by_at_least",
    "spread_within",
    "miss_falls_along",
    "miss_rises_along",
    "longer_than",
    "shorter_than",
    "agrees_with",
    "ranks_first",
    "matches_baseline",
];

impl UserData for Expected {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_method("holds", verdicts::holds);
        methods.add_method("holds_at_least", verdicts::holds_at_least);
        methods.add_method("holds_at_most", verdicts::holds_at_most);
        methods.add_method("goes", verdicts::goes);
        methods.add_method("stops", verdicts::stops);
        methods.add_method("touches", verdicts::touches);
        methods.add_method("ranks_first", verdicts::ranks_first);
        methods.add_method("misses_within", misses::within);
        methods.add_method("misses_long_by_at_least", misses::long_by_at_least);
        methods.add_method("misses_short_by_at_least", misses::short_by_at_least);
        methods.add_method("spread_within", misses::spread_within);
        methods.add_method("miss_falls_along", along::falls);
        methods.add_method("miss_rises_along", along::rises);
        methods.add_method("longer_than", pairs::longer_than);
        methods.add_method("shorter_than", pairs::shorter_than);
        methods.add_method("agrees_with", pairs::agrees_with);
        methods.add_method("matches_baseline", stored::matches);
        members::only(methods, "an expectation", MEMBERS);
    }
}

//! `expect(map):…`: a scenario's claims, and the findings. A failed expectation is
//! recorded and the script goes on.

mod choice;
mod claims;
mod misses;
mod number;
pub mod open;
mod pairs;
mod ranks;
mod steady;
mod stored;
pub mod subject;
mod truth;

use super::chance::claims::open as chance_claims;
use super::ensemble::claims::open as ensemble_claims;
use super::frontier::{Front, FrontClaims};
use super::left_out;
use crate::fault::Fault;
use crate::lua::options::{Kind, object};
use mlua::{IntoLua, Lua, MultiValue, Table, UserData, UserDataFields, UserDataMethods, Value};
use open::{OpenExpectation, add_claim};
use subject::{ExpectationSubject, SubjectKind, argument};

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        "expect",
        lua.create_function(|lua, given: MultiValue| {
            left_out::unless_empty(lua, given, |given| expect(lua, given))
        })?,
    )?;
    truth::install(lua, into)?;
    number::install(lua, into)
}

fn expect(lua: &Lua, given: MultiValue) -> mlua::Result<Value> {
    let value: Value = open::taken(lua, "expect", given)?;
    if let Ok(front) = object::<Front>("a frontier").read(&value) {
        let open = OpenExpectation::new(lua, "expect")?;
        return FrontClaims { front, open }.into_lua(lua);
    }
    if let Some(claims) = ensemble_claims(lua, &value) {
        return claims;
    }
    if let Some(claims) = chance_claims(lua, &value) {
        return claims;
    }
    if let Some(claims) = choice::open(lua, &value) {
        return claims;
    }
    let results = argument(lua, "expect", 1, &value, SubjectKind);
    let numeric = crate::lua::quantity::plain_number(&value).is_some()
        || crate::lua::quantity::of_value(&value).is_some();
    let hinted = |fault: Fault| {
        if numeric {
            fault.with_hint("for numbers and quantities write expect_number(…)")
        } else {
            fault
        }
    };
    let of = results.map_err(hinted)?;
    ExpectationSubject { of, open: OpenExpectation::new(lua, "expect")? }.into_lua(lua)
}

const MEMBERS: &[&str] = &[
    "holds",
    "drops",
    "misses",
    "goes",
    "stops",
    "touches",
    "rattles_out",
    "scratches",
    "kisses",
    "clears",
    "share_at_least",
    "share_at_most",
    "share_within",
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

impl UserData for ExpectationSubject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        claims::add_methods(methods);
        misses::add_methods(methods);
        pairs::add_methods(methods);
        add_claim(methods, "ranks_first", ranks::ranks_first);
        add_claim(methods, "matches_baseline", stored::matches);
        open::only(methods, MEMBERS);
    }
}

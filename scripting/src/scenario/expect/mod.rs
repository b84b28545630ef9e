//! `expect(map):…`: a scenario's claims, and the findings. A failed expectation is
//! recorded and the script goes on.

mod claims;
mod misses;
mod number;
mod pairs;
mod ranks;
mod steady;
mod stored;
mod truth;

use super::frontier::{Front, FrontClaims};
use super::map::Map;
use super::members;
use super::results::Results;
use super::session::{Session, fault_here, here};
use super::shots::{ShotObject, ShotsObject};
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch, object};
use crate::lua::place::{self, Placed};
use crate::record::Expectation;
use mlua::{IntoLua, Lua, Table, UserData, UserDataFields, UserDataMethods, Value};

/// Results about which something is expected.
#[derive(Clone)]
pub enum ExpectationSubject {
    Map(Map),
    Shots(ShotsObject),
    Shot(ShotObject),
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        "expect",
        lua.create_function(|lua, value: Value| {
            if let Ok(front) = object::<Front>("a frontier").read(&value) {
                return FrontClaims(front).into_lua(lua);
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
            results.map_err(hinted)?.into_lua(lua)
        })?,
    )?;
    truth::install(lua, into)?;
    number::install(lua, into)
}

/// Reads what something may be expected of, frontiers aside.
#[derive(Debug, Clone, Copy)]
struct SubjectKind;

impl Kind for SubjectKind {
    type Output = ExpectationSubject;

    fn expected(&self) -> String {
        "a map, shots, a shot, a frontier or a selection of one".to_owned()
    }

    fn read(&self, value: &Value) -> Result<ExpectationSubject, Mismatch> {
        let Value::UserData(data) = value else {
            return Err(Mismatch::other_sort(&self.expected(), value));
        };
        if let Ok(map) = data.borrow::<Map>() {
            return Ok(ExpectationSubject::Map(map.clone()));
        }
        if let Ok(shots) = data.borrow::<ShotsObject>() {
            return Ok(ExpectationSubject::Shots(shots.clone()));
        }
        match data.borrow::<ShotObject>() {
            Ok(shot) if !shot.has_target() => {
                let fault = "must have a target, or nothing can be expected of it";
                Err(Mismatch::message(fault).with_hint("give its layout a `pocket`".to_owned()))
            }
            Ok(shot) => Ok(ExpectationSubject::Shot(shot.clone())),
            Err(_) => Err(Mismatch::other_sort(&self.expected(), value)),
        }
    }
}

/// The finding.
pub struct Finding {
    pub held: bool,
    pub words: String,
}

impl ExpectationSubject {
    fn results(&self) -> &dyn Results {
        match self {
            Self::Map(map) => map,
            Self::Shots(shots) => shots,
            Self::Shot(shot) => shot,
        }
    }

    /// The map, for what only maps have.
    fn map(&self, lua: &Lua, call: &str) -> Result<&Map, Fault> {
        match self {
            Self::Map(map) => Ok(map),
            _ => Err(fault_here(lua, call, format!("`{call}` is for maps of banks"))),
        }
    }

    /// Records an expectation of the running call of `method`.
    fn record(
        &self,
        lua: &Lua,
        method: &str,
        expected: &str,
        found: Finding,
    ) -> mlua::Result<Self> {
        record(lua, method, format!("{}: {expected}", self.results().subject()), found)?;
        Ok(self.clone())
    }
}

/// Records an expectation of the running call of `method`.
pub fn record(lua: &Lua, method: &str, expected: String, found: Finding) -> mlua::Result<()> {
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
        methods.add_method("ranks_first", ranks::ranks_first);
        methods.add_method("matches_baseline", stored::matches);
        members::only(methods, "an expectation", MEMBERS);
    }
}

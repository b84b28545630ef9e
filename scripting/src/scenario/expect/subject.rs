//! The subject of an expectation, its findings, and their record.

use super::open::{ClaimSubject, OpenExpectation};
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch};
use crate::lua::place::{self, Placed};
use crate::record::Expectation;
use crate::scenario::map::Map;
use crate::scenario::results::Results;
use crate::scenario::session::{Session, fault_here, here};
use crate::scenario::shots::{ShotObject, ShotsObject};
use mlua::{Lua, Value};

/// Results about which something is expected.
#[derive(Clone)]
pub struct ExpectationSubject {
    pub of: ExpectedResults,
    pub open: OpenExpectation,
}

/// Results about which something may be expected.
#[derive(Clone)]
pub enum ExpectedResults {
    Map(Map),
    Shots(ShotsObject),
    Shot(ShotObject),
}

/// Reads what something may be expected of, frontiers aside.
#[derive(Debug, Clone, Copy)]
pub struct SubjectKind;

impl Kind for SubjectKind {
    type Output = ExpectedResults;

    fn expected(&self) -> String {
        "a map, shots, a shot, a frontier or a selection of one".to_owned()
    }

    fn read(&self, value: &Value) -> Result<ExpectedResults, Mismatch> {
        let Value::UserData(data) = value else {
            return Err(Mismatch::other_sort(&self.expected(), value));
        };
        if let Ok(map) = data.borrow::<Map>() {
            return Ok(ExpectedResults::Map(map.clone()));
        }
        if let Ok(shots) = data.borrow::<ShotsObject>() {
            return Ok(ExpectedResults::Shots(shots.clone()));
        }
        match data.borrow::<ShotObject>() {
            Ok(shot) if !shot.has_target() => {
                let fault = "must have a target, or nothing can be expected of it";
                Err(Mismatch::message(fault).with_hint("give its layout a `pocket`".to_owned()))
            }
            Ok(shot) => Ok(ExpectedResults::Shot(shot.clone())),
            Err(_) => Err(Mismatch::other_sort(&self.expected(), value)),
        }
    }
}

/// The finding.
pub struct Finding {
    pub held: bool,
    pub words: String,
}

impl ExpectedResults {
    pub fn results(&self) -> &dyn Results {
        match self {
            Self::Map(map) => map,
            Self::Shots(shots) => shots,
            Self::Shot(shot) => shot,
        }
    }
}

impl ClaimSubject for ExpectationSubject {
    fn open(&self) -> OpenExpectation {
        self.open
    }
}

impl ExpectationSubject {
    pub fn results(&self) -> &dyn Results {
        self.of.results()
    }

    /// The map, for what only maps have.
    pub fn map(&self, lua: &Lua, call: &str) -> Result<&Map, Fault> {
        match &self.of {
            ExpectedResults::Map(map) => Ok(map),
            _ => Err(fault_here(lua, call, format!("`{call}` is for maps of banks"))),
        }
    }

    /// Records an expectation of the running call of `method`.
    pub fn record(
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
    })?;
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

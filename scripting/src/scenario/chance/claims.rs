//! `expect(…):…` of how often a player makes banks.

use super::chances::Chances;
use super::edges::{ChanceEdge, ChanceEdges, EdgeLine};
use super::ranking::ChanceRanking;
use crate::fault::Fault;
use crate::lua::options::{number, ranged};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::shown;
use crate::scenario::expect::open::{ClaimSubject, OpenExpectation, add_claim, only};
use crate::scenario::expect::subject::{Finding, argument, record};
use crate::scenario::first_place;
use crate::scenario::frontier::measure::ValueOf;
use crate::scenario::inputs::spoken_on;
use crate::telling::chance_words;
use mlua::{IntoLua, Lua, UserData, UserDataFields, UserDataMethods, Value};
use std::fmt::Write as _;

/// The claims on a value that is an answer about a player.
pub fn open(lua: &Lua, value: &Value) -> Option<mlua::Result<Value>> {
    let Value::UserData(data) = value else { return None };
    let open = || OpenExpectation::new(lua, "expect");
    if let Ok(of) = data.borrow::<Chances>() {
        return Some(open().and_then(|open| ChanceClaims { of: of.clone(), open }.into_lua(lua)));
    }
    if let Ok(of) = data.borrow::<ChanceEdges>() {
        return Some(open().and_then(|open| EdgeClaims { of: of.clone(), open }.into_lua(lua)));
    }
    if let Ok(of) = data.borrow::<ChanceRanking>() {
        return Some(open().and_then(|open| RankClaims { of: of.clone(), open }.into_lua(lua)));
    }
    None
}

/// Claims on chances.
#[derive(Debug, Clone)]
struct ChanceClaims {
    of: Chances,
    open: OpenExpectation,
}

/// Claims on a ranking by chance.
#[derive(Debug, Clone)]
struct RankClaims {
    of: ChanceRanking,
    open: OpenExpectation,
}

/// Claims on edges of chances.
#[derive(Debug, Clone)]
struct EdgeClaims {
    of: ChanceEdges,
    open: OpenExpectation,
}

impl ClaimSubject for EdgeClaims {
    fn open(&self) -> OpenExpectation {
        self.open
    }
}

impl ClaimSubject for ChanceClaims {
    fn open(&self) -> OpenExpectation {
        self.open
    }
}

impl ClaimSubject for RankClaims {
    fn open(&self) -> OpenExpectation {
        self.open
    }
}

impl UserData for ChanceClaims {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        for (call, least) in [("chance_at_least", true), ("chance_at_most", false)] {
            add_claim(methods, call, move |lua, this: &Self, share: Value| {
                let asked = argument(lua, call, 1, &share, ranged(number(), 0.0..=1.0, ""))?;
                let found = this.all(asked, least);
                let bound = if least { "at least" } else { "at most" };
                let expected = format!(
                    "{} of {}: made {bound} {} times in a hundred",
                    this.of.player.name,
                    this.of.picked.subject(),
                    shown(100.0 * asked)
                );
                record(lua, call, expected, found)?;
                Ok(this.clone())
            });
        }
        only(methods, &["chance_at_least", "chance_at_most"]);
    }
}

impl UserData for EdgeClaims {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        add_claim(methods, "lie_between", lie_between);
        add_claim(methods, "fall_once", |lua, this: &Self, ()| {
            let once = |line: &EdgeLine| matches!(line.edges[..], [only] if only.falls);
            this.record(lua, "fall_once", "each line falls through it once", once)
        });
        only(methods, &["lie_between", "fall_once"]);
    }
}

/// Every line has an edge, and each edge lies there with twice its error.
fn lie_between(
    lua: &Lua,
    this: &EdgeClaims,
    (from, to): (Value, Value),
) -> mlua::Result<EdgeClaims> {
    const CALL: &str = "lie_between";
    let kind = ValueOf(this.of.input(), spoken_on(this.of.picked.plan()));
    let (low, high) = (argument(lua, CALL, 1, &from, kind)?, argument(lua, CALL, 2, &to, kind)?);
    if low > high {
        let fault = Fault::bad_input("`lie_between` takes the lower end first");
        return Err(fault.placed(place::argument(lua, CALL, 1)).into());
    }
    let inside = |edge: &ChanceEdge| {
        low <= edge.value - 2.0 * edge.error && edge.value + 2.0 * edge.error <= high
    };
    let lies = |line: &EdgeLine| !line.edges.is_empty() && line.edges.iter().all(inside);
    let tick = |value: f64| this.of.format.tick(value);
    this.record(lua, CALL, &format!("edges from {} to {}", tick(low), tick(high)), lies)
}

impl EdgeClaims {
    /// Whether every line passes; the words name the first that does not.
    fn record(
        &self,
        lua: &Lua,
        call: &str,
        expected: &str,
        passes: impl Fn(&EdgeLine) -> bool,
    ) -> mlua::Result<Self> {
        let lines = &self.of.lines;
        let passing = lines.iter().filter(|line| passes(line)).count();
        let mut words = format!("{passing} of {} pass", lines.len());
        if let Some(told) = lines.iter().find(|line| !passes(line)).or_else(|| lines.first()) {
            let label = if told.label.is_empty() { "it" } else { told.label.as_str() };
            let _ = write!(words, "; {label}: it {}", self.of.say_line(told));
        }
        let held = !lines.is_empty() && passing == lines.len();
        let subject = self.of.subject();
        record(lua, call, format!("{subject}: {expected}"), Finding { held, words })?;
        Ok(self.clone())
    }
}

impl ChanceClaims {
    /// Whether every bank passes; the words name the farthest from it.
    fn all(&self, asked: f64, least: bool) -> Finding {
        let passes = |chance: f64| if least { chance >= asked } else { chance <= asked };
        let kept: Vec<_> = self.of.kept().collect();
        let passing = kept.iter().filter(|(_, it)| passes(it.chance)).count();
        let sense = if least { 1.0 } else { -1.0 };
        let nearest =
            kept.iter().min_by(|a, b| (sense * a.1.chance).total_cmp(&(sense * b.1.chance)));
        let mut words = format!("{passing} of {} pass", kept.len());
        if let Some((row, chance)) = nearest {
            let which = if least { "the least" } else { "the most" };
            let said = self.of.picked.say_row(*row);
            let _ = write!(words, "; {which}, {said}: {}", chance_words(*chance));
        }
        Finding { held: !kept.is_empty() && passing == kept.len(), words }
    }
}

impl UserData for RankClaims {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        first_place::add_claims(methods, |this: &Self| &this.of);
        only(methods, first_place::CLAIMS);
    }
}

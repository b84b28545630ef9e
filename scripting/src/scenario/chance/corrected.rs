//! `corrections { on, player, rule }`: what to add to a rule's starts for the ball and the table.

use super::asked_balls::{ASKED_KEYS, asked_balls};
use crate::discovering::CorrectedFindings;
use crate::lua::options::{Options, object};
use crate::lua::place::Placed;
use crate::scenario::inputs::Keys;
use crate::scenario::members;
use crate::scenario::rule_answers::failed;
use crate::scenario::rule_object::RuleObject;
use crate::scenario::session::Session;
use crate::telling::{corrected_sentences, table_words};
use mlua::{Lua, Table, Value};
use railproof_engine::discover::{CorrectedFor, CorrectionRow, CorrectionTable, Corrections};

const CALL: &str = "corrections";
static KEYS: Keys = Keys::new(|| ASKED_KEYS.iter().copied().chain(["rule"]).collect());
const FOUND: &[&str] = &["sentence", "named", "rows", "tables"];
const ROW: &[&str] = &[
    "what",
    "add",
    "words",
    "gain",
    "gain_error",
    "gain_there",
    "gain_there_error",
    "balls",
    "at_most",
];
static TABLE: Keys = Keys::new(|| {
    let own = ["words", "chance", "error", "gain", "gain_error", "behind", "behind_error"];
    own.into_iter().chain(CorrectedFor::ALL.map(CorrectedFor::name)).collect()
});

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(corrections)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn corrections(lua: &Lua, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, CALL, &argument, &KEYS)?;
    let asked = asked_balls(lua, &options)?;
    let rule = options.required("rule", object::<RuleObject>("a rule"))?.0;
    let found = Session::of(lua)?
        .work(lua, 1, |_| {
            CorrectedFindings::of(asked, rule.named.clone(), |error| failed(&rule, error))
        })?
        .map_err(|fault| fault.placed(options.complain_of_call("").place))?;
    Session::of(lua)?.advise(&found.asked.cautions());
    let table = lua.create_table()?;
    table.raw_set("sentence", corrected_sentences(&found).trim_end())?;
    table.raw_set("named", one_table(lua, found.found.named())?)?;
    let rows = lua.create_table()?;
    for it in &found.found.rows {
        rows.raw_push(row(lua, it)?)?;
    }
    table.raw_set("rows", rows)?;
    let tables = lua.create_table()?;
    for it in &found.found.tables {
        tables.raw_push(one_table(lua, it)?)?;
    }
    table.raw_set("tables", tables)?;
    members::seal(lua, table, "corrections", FOUND)
}

fn row(lua: &Lua, it: &CorrectionRow) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("what", it.what.name())?;
    table.raw_set("add", Corrections::diamonds(it.tenths))?;
    table.raw_set("words", it.what.words())?;
    table.raw_set("gain", it.gain.difference)?;
    table.raw_set("gain_error", it.gain.error)?;
    table.raw_set("gain_there", it.gain_there.difference)?;
    table.raw_set("gain_there_error", it.gain_there.error)?;
    table.raw_set("balls", it.balls)?;
    table.raw_set("at_most", it.at_most)?;
    members::seal(lua, table, "a correction", ROW)
}

/// A table of corrections: what is added for each thing, in diamonds, and what it makes.
fn one_table(lua: &Lua, it: &CorrectionTable) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("words", table_words(it.corrections))?;
    table.raw_set("chance", it.chance.chance)?;
    table.raw_set("error", it.chance.error)?;
    table.raw_set("gain", it.gain.difference)?;
    table.raw_set("gain_error", it.gain.error)?;
    table.raw_set("behind", it.behind.difference)?;
    table.raw_set("behind_error", it.behind.error)?;
    for what in CorrectedFor::ALL {
        table.raw_set(what.name(), Corrections::diamonds(it.corrections.of(what)))?;
    }
    members::seal(lua, table, "a table of corrections", &TABLE)
}

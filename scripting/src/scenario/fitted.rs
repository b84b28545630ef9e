//! What a fit says beside its table: whether the banks agree, why one missed, which rail model they speak for.

use super::members;
use super::missed::{WHY_MISSED, WHY_SEEN, reason};
use super::session::Session;
use crate::fault::Fault;
use crate::fitting::{FitFindings, FitQuestion, rail_models};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::kind_of;
use mlua::{Lua, Table, Value};
use railproof_engine::bank::BankError;

const MISFIT: &[&str] = &["numbers", "discrepancy", "chance", "smallest_shown"];
const RAIL_MODEL: &[&str] = &["name", "log_chance", "error", "left_out", "slope"];
const SLOPE: &[&str] = &["middle", "from", "to"];

/// A fit and its question.
#[derive(Debug)]
pub struct Fitted {
    pub question: FitQuestion,
    pub found: FitFindings,
}

/// Whether the banks agree with any table that could be; nothing for too few that were read.
pub fn misfit(lua: &Lua, fitted: &Fitted) -> mlua::Result<Option<Table>> {
    let Some(misfit) = fitted.found.misfit else { return Ok(None) };
    let table = lua.create_table()?;
    table.raw_set("numbers", misfit.numbers)?;
    table.raw_set("discrepancy", misfit.discrepancy)?;
    table.raw_set("chance", misfit.chance)?;
    table.raw_set("smallest_shown", misfit.smallest_shown)?;
    members::seal(lua, table, "a misfit", MISFIT).map(Some)
}

/// Why the bank on a line of the file missed.
pub fn why_missed(lua: &Lua, fitted: &Fitted, line: &Value) -> mlua::Result<Table> {
    let at = || place::argument(lua, WHY_MISSED, 1);
    let number = line.as_usize().ok_or_else(|| {
        Fault::bad_input(format!(
            "{WHY_MISSED} takes a line of the banks' file or a bank, not {}",
            kind_of(line)
        ))
        .with_hint(format!("write it like mine:{WHY_MISSED}(7) or {WHY_SEEN}"))
        .placed(at())
    })?;
    let Fitted { question, found } = fitted;
    let asked = Session::of(lua)?.work(lua, 1, |_| found.why_missed(number))?;
    let missed = asked
        .ok_or_else(|| found.no_bank_at(number).placed(at()))?
        .map_err(|error| no_banks(lua, &error))?;
    reason(lua, &question.table, &missed)
}

/// The rail models, the likeliest first.
pub fn rail_models_list(lua: &Lua, fitted: &Fitted) -> mlua::Result<Table> {
    let fits = Session::of(lua)?
        .work(lua, 1, |_| rail_models(&fitted.question))?
        .map_err(|error| no_banks(lua, &error))?;
    let list = lua.create_table()?;
    for fit in fits {
        let table = lua.create_table()?;
        table.raw_set("name", fit.model.name())?;
        table.raw_set("log_chance", fit.log_evidence)?;
        table.raw_set("error", fit.error)?;
        table.raw_set("left_out", fit.left_out)?;
        let slope = lua.create_table()?;
        slope.raw_set("middle", fit.slope.middle)?;
        slope.raw_set("from", fit.slope.ninety.0)?;
        slope.raw_set("to", fit.slope.ninety.1)?;
        table.raw_set("slope", members::seal(lua, slope, "an interval", SLOPE)?)?;
        list.raw_push(members::seal(lua, table, "a rail model", RAIL_MODEL)?)?;
    }
    Ok(list)
}

fn no_banks(lua: &Lua, error: &BankError) -> Fault {
    Fault::bad_input(format!("this table has no such banks: {error}"))
        .placed(place::call(lua, None))
}

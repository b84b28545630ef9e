//! Why a bank missed, in a script's hands.

use super::members;
use super::session::Session;
use crate::fault::Fault;
use crate::fitting::{MeasuredTable, MissFindings};
use crate::lua::options::{Options, text, word};
use crate::lua::place::{self, Placed};
use crate::measured::{Sent, parse_bank, parse_seen};
use crate::telling::caution::Cautions;
use crate::telling::{AskedUnits, missed_sentences, set_up_words};
use mlua::{Lua, Table, Value};
use railproof_engine::equipment::Equipment;
use railproof_engine::evidence::MeasuredBank;
use railproof_engine::missed::{MissOdds, ToldApart};
use railproof_engine::rail::BankGeometry;

pub const WHY_MISSED: &str = "why_missed";
/// How a bank is written that stands in no file.
pub const WHY_SEEN: &str =
    "mine:why_missed { bank = \"2, 4.4, 12 in, medium\", seen = \"long 0.6\" }";
const KEYS: &[&str] = &["bank", "seen", "sent"];
const MISSED: &[&str] = &["text", "main", "odds", "slip", "next", "chance"];

/// `table:why_missed { bank = …, seen = … }`: why a bank that stands in no file missed.
pub fn why_seen(lua: &Lua, known: &MeasuredTable, argument: &Value) -> mlua::Result<Table> {
    let options = Options::open(lua, WHY_MISSED, argument, KEYS)?;
    let unplaced = |key: &'static str| {
        let at = options.complain(key, "").place;
        move |fault: Fault| Fault { place: None, ..fault }.placed(at)
    };
    let bank = options.required("bank", text())?;
    let set_up = parse_bank(&bank, "bank", &known.table).map_err(unplaced("bank"))?;
    let no_bank = |error| options.complain_of_call(format!("this table has no such bank: {error}"));
    let geometry = BankGeometry::new(&known.table, set_up.rail, set_up.pocket)
        .map_err(|error| options.complain("bank", format!("`bank` makes no bank: {error}")))?;
    let seen = options.required("seen", text())?;
    let seen = parse_seen(&seen, "seen", &known.table, &geometry).map_err(unplaced("seen"))?;
    let sent = options.optional("sent", word::<Sent>())?.unwrap_or(Sent::Tip);
    let measured = MeasuredBank { set_up, seen, scatter: sent.scatter(), repeats: 1 };
    let session = Session::of(lua)?;
    let missed = session.work(lua, 1, |_| MissFindings::of(known, measured))?.map_err(no_bank)?;
    session.advise(&Cautions::of_speeds([set_up.speed].into_iter(), &known.table));
    reason(lua, &known.table, &missed)
}

/// The refusal of a line's number where no banks are.
pub fn keeps_no_banks(lua: &Lua) -> Fault {
    Fault::bad_input(format!(
        "`{WHY_MISSED}` needs the measured banks, which this table doesn't keep"
    ))
    .with_hint(format!("`fit {{ banks = …, on = … }}` has them; of one bank ask {WHY_SEEN}"))
    .placed(place::call(lua, None))
}

/// A reason as a table of a script.
pub fn reason(lua: &Lua, of: &Equipment, missed: &MissFindings) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    let units = AskedUnits::of_scenario(Session::of(lua)?.units().in_inches());
    table.raw_set("text", missed_sentences(of, missed, units))?;
    let parts = lua.create_table()?;
    if let Ok(odds) = &missed.odds {
        told(&table, &parts, odds)?;
    }
    table.raw_set("odds", parts)?;
    members::seal(lua, table, "a reason", MISSED)
}

fn told(table: &Table, parts: &Table, odds: &MissOdds) -> mlua::Result<()> {
    for cause in &odds.causes {
        parts.raw_set(cause.cause.name(), cause.odds)?;
    }
    table.raw_set("main", odds.main().name())?;
    table.raw_set("slip", odds.slip)?;
    if let Some(ToldApart { by: Some(by), .. }) = &odds.apart {
        table.raw_set("next", set_up_words(&by.set_up))?;
        table.raw_set("chance", by.chance)?;
    }
    Ok(())
}

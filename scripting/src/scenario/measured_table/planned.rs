//! `mine:next_for { settle = "2, 4.4, 12 in, 3 m/s" }`, `mine:next_for { tell_apart = { one, other } }` and
//! `mine:draw_next {}`: the next banks for a stated purpose, and their sheet.

use crate::fault::Fault;
use crate::fit_picture::sheet_picture;
use crate::fitting::{MeasuredTable, NextBanks, NextPurpose, TwoCushions};
use crate::lua::options::{Options, list, text};
use crate::lua::place::Placed;
use crate::measured::parse_bank;
use crate::record::Picture;
use crate::scenario::draw::fit::with_look;
use crate::scenario::equipment::OneTable;
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::caution::Cautions;
use crate::telling::set_up_words;
use mlua::{Lua, Table, Value};
use railproof_engine::equipment::Equipment;
use railproof_engine::planning::chance_of_the_right_one;

const NEXT_FOR: &str = "next_for";
pub(super) const DRAW_NEXT: &str = "draw_next";
const KEYS: &[&str] = &["settle", "tell_apart"];
const DRAW_KEYS: &[&str] = &["settle", "tell_apart", "title", "subtitle", "legend", "size", "name"];
const BANK: &[&str] = &["bank", "left", "chance", "misses"];

/// The next banks, a table each.
pub(super) fn next_for(lua: &Lua, known: &MeasuredTable, argument: &Value) -> mlua::Result<Table> {
    let options = Options::open_or_none(lua, NEXT_FOR, argument.clone(), KEYS)?;
    let next = planned(lua, known, &options)?;
    let found = lua.create_table()?;
    for (set_up, plan) in &next.banks {
        let table = lua.create_table()?;
        table.raw_set("bank", set_up_words(set_up))?;
        table.raw_set("misses", plan.readable)?;
        match next.purpose {
            NextPurpose::TellApart(_) => {
                table.raw_set("chance", chance_of_the_right_one(plan.left))?;
            }
            NextPurpose::Usual | NextPurpose::Settle(_) => table.raw_set("left", plan.left)?,
        }
        found.raw_push(members::seal(lua, table, "a planned bank", BANK)?)?;
    }
    Ok(found)
}

/// Draws their sheet.
pub(super) fn draw_next(lua: &Lua, known: &MeasuredTable, argument: &Value) -> mlua::Result<()> {
    let options = Options::open_or_none(lua, DRAW_NEXT, argument.clone(), DRAW_KEYS)?;
    let next = planned(lua, known, &options)?;
    let picture = with_look(&options, sheet_picture(known, &next))?;
    Session::of(lua)?.add_drawing(&options, "next", Picture::Fit(picture))?;
    Ok(())
}

fn planned(lua: &Lua, known: &MeasuredTable, options: &Options) -> mlua::Result<NextBanks> {
    let purpose = purpose(known, options)?;
    let session = Session::of(lua)?;
    let next = session.work(lua, 1, |_| NextBanks::of(known, purpose))?.map_err(|error| {
        options.complain_of_call(format!("this table has no such banks: {error}"))
    })?;
    let speeds = next.banks.iter().map(|(set_up, _)| set_up.speed);
    session.advise(&Cautions::of_speeds(speeds, &known.table));
    Ok(next)
}

fn purpose(known: &MeasuredTable, options: &Options) -> Result<NextPurpose, Fault> {
    let settle = options.optional("settle", text())?;
    let apart = options.optional("tell_apart", list(OneTable))?;
    match (settle, apart) {
        (Some(_), Some(_)) => Err(options
            .complain("tell_apart", "the next banks have one purpose")
            .with_hint("leave out settle or tell_apart")),
        (Some(bank), None) => {
            let at = options.complain("settle", "").place;
            let bank = parse_bank(&bank, "settle", &known.table)
                .map_err(|fault| Fault { place: None, ..fault }.placed(at))?;
            Ok(NextPurpose::Settle(bank))
        }
        (None, Some(tables)) => {
            let Ok([one, other]) = <[_; 2]>::try_from(tables) else {
                return Err(options
                    .complain("tell_apart", "`tell_apart` takes two tables")
                    .with_hint("such as { hall, hall:with(cushion \"cushions/even-bounce\") }"));
            };
            let tables = [Equipment::clone(&one.0), Equipment::clone(&other.0)];
            let names = [tables[0].name.clone(), tables[1].name.clone()];
            let at = options.complain("tell_apart", "").place;
            let cushions = TwoCushions::new(tables, names).map_err(|fault| fault.placed(at))?;
            Ok(NextPurpose::TellApart(Box::new(cushions)))
        }
        (None, None) => Ok(NextPurpose::Usual),
    }
}

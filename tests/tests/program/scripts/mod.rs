//! Scenario scripts, invariants: hostile ones end within their limits, wrong ones are told where.

#![expect(clippy::float_cmp, reason = "the same numbers, to the bit, are what is tested")]

mod limits;
mod options;
mod slips;
mod values;
mod workers;

use mlua::{Lua, Value};
use railproof::fault::Fault;
use railproof::lua::options::{
    Options, boolean, choice, list, number, one_or_many, quantity, ranged, speed,
};
use railproof::lua::{Limits, ScenarioVm};
use railproof_engine::units::Dimension;
use std::time::Duration;

fn small() -> Limits {
    Limits { memory_bytes: 64 << 20, script_time: Duration::from_millis(200), ..Limits::default() }
}

/// Runs a text and gives what it printed, one line per `print`.
fn run(text: &str) -> Result<Vec<String>, Fault> {
    let vm = ScenarioVm::new(Limits::default(), register_sweep)?;
    vm.run("a.lua", text.as_bytes())?;
    Ok(vm.printed().lines)
}

fn refused(text: &str) -> Fault {
    match run(text) {
        Ok(printed) => panic!("this ran and printed {printed:?}:\n{text}"),
        Err(fault) => fault,
    }
}

/// The line and column of a fault, and the text it underlines.
fn underlined(fault: &Fault) -> (usize, usize, String) {
    let place = fault.place.as_ref().unwrap_or_else(|| panic!("no place: {fault}"));
    let (line, column) = place.line_column();
    (line, column, place.source()[place.span()].to_owned())
}

#[derive(Clone, Copy, PartialEq, Debug)]
enum Reading {
    Groove,
    Sight,
}

/// A stand-in for a real call, with an option of every kind.
fn register_sweep(lua: &Lua) -> mlua::Result<()> {
    const KEYS: &[&str] = &["contact", "off_rail", "speed", "reading", "drawn", "share"];
    let sweep = |lua: &Lua, argument: Value| -> mlua::Result<String> {
        let options = Options::open(lua, "sweep", &argument, KEYS)?;
        let contact = options.required("contact", one_or_many(number()))?;
        let off_rail =
            options.optional("off_rail", list(quantity(Dimension::Length)))?.unwrap_or_default();
        let speed = options.optional("speed", one_or_many(speed()))?.unwrap_or_default();
        let reading = options
            .optional("reading", choice(&[("groove", Reading::Groove), ("sight", Reading::Sight)]))?
            .unwrap_or(Reading::Groove);
        let drawn = options.optional("drawn", boolean())?.unwrap_or(false);
        let share = options.optional("share", ranged(number(), 0.0..=1.0, ""))?;
        Ok(format!("{contact:?} {off_rail:?} {speed:?} {reading:?} {drawn} {share:?}"))
    };
    let object = lua.create_table()?;
    object.raw_set(
        "sweep",
        lua.create_function(move |lua, (_, value): (Value, Value)| sweep(lua, value))?,
    )?;
    lua.globals().raw_set("thing", object)?;
    lua.globals().raw_set("sweep", lua.create_function(sweep)?)
}

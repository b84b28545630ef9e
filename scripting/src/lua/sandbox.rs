//! A Lua machine with everything taken away that a scenario has no business with.

use super::limits::{Stopwatch, TICKS_PER_LOOK};
use super::place::{self, Placed};
use super::{addresses, guard, random};
use mlua::{Lua, LuaOptions, StdLib, Value, VmState};
use std::cell::Cell;

/// Globals that stay away: they run text, read files, look at the machine or reach around the
/// sandbox. Most are not loaded to begin with; the list holds should that change.
pub(super) const REMOVED: &[&str] = &[
    "load",
    "loadstring",
    "loadfile",
    "dofile",
    "require",
    "collectgarbage",
    "getfenv",
    "setfenv",
    "newproxy",
    "gcinfo",
    "os",
    "io",
    "debug",
    "package",
    "print",
];

/// The purpose of a machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A whole scenario: mathematics, strings, tables, bits, buffers and coroutines.
    Scenario,
    /// A function called for every point, in any order and from any thread: mathematics, strings
    /// and tables, nothing random.
    Function,
}

/// A new machine held to `memory_bytes` and to the stopwatch's budget.
///
/// It is not yet closed: register what scripts may use, then call [`close`].
///
/// # Errors
/// When the memory limit is too small for the libraries.
pub fn open(purpose: Purpose, memory_bytes: usize, stopwatch: &Stopwatch) -> mlua::Result<Lua> {
    let shared = StdLib::MATH | StdLib::STRING | StdLib::TABLE | StdLib::BIT;
    let libraries = match purpose {
        Purpose::Scenario => shared | StdLib::UTF8 | StdLib::BUFFER | StdLib::COROUTINE,
        Purpose::Function => shared,
    };
    let lua = Lua::new_with(libraries, LuaOptions::new())?;
    lua.set_memory_limit(memory_bytes)?;
    let globals = lua.globals();
    for name in REMOVED {
        globals.raw_set(*name, Value::Nil)?;
    }
    guard::install(&lua)?;
    addresses::install(&lua)?;
    let math: mlua::Table = globals.raw_get("math")?;
    match purpose {
        Purpose::Scenario => {
            random::install(&lua, &math)?;
            addresses::install_order_of_scenarios(&lua)?;
        }
        Purpose::Function => {
            random::refuse(&lua, &math)?;
            addresses::install_order_of_functions(&lua)?;
        }
    }
    let stopwatch = stopwatch.clone();
    let ticks = Cell::new(0_u32);
    lua.set_interrupt(move |lua| {
        // An error for want of memory has no line.
        ticks.set(ticks.get().wrapping_add(1));
        if ticks.get().is_multiple_of(TICKS_PER_LOOK) && lua.used_memory() > memory_bytes / 2 {
            place::suspect(lua);
        }
        match stopwatch.tick() {
            None => Ok(VmState::Continue),
            Some(over) => Err(over.placed(place::call_line(lua)).into()),
        }
    });
    Ok(lua)
}

/// Makes every library and global read-only; globals that a script sets from here on are its own.
///
/// # Errors
/// When Lua has no memory left.
pub fn close(lua: &Lua) -> mlua::Result<()> {
    lua.sandbox(true)
}

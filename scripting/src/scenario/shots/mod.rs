//! The words for whole shots: balls laid on a table, strokes, their outcomes, aims that are
//! solved, and sweeps of any of it. What balls do is decided in the engine.

mod answers;
mod axes;
mod bank_shot;
#[cfg(test)]
mod both_languages;
mod chance;
mod choice;
mod choice_map;
mod files;
mod function_shots;
mod kicks;
mod kisses;
mod layout;
mod layout_object;
mod pictures;
mod play;
mod selection;
mod set;
mod set_object;
mod shot;
mod spots;
mod states;
mod stroke;
mod sweep;
mod ways;
mod windows;
mod worlds;

pub(crate) use bank_shot::BANK_SHOT;
pub use choice::ChoiceObject;
pub use function_shots::FunctionShots;
pub use set::ShotsObject;
pub use shot::ShotObject;
pub use sweep::planned_shots;

use mlua::{Lua, Table};

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("lay", lua.create_function(layout_object::lay)?)?;
    into.raw_set("bank_shot", lua.create_function(bank_shot::bank_shot)?)?;
    into.raw_set("route", lua.create_function(kicks::route)?)?;
    into.raw_set("play_file", lua.create_function(files::play_file)?)?;
    into.raw_set("shots", lua.create_function(sweep::shots)?)
}

//! `play_file "shots/corner-bank.yaml"`: a layout from a YAML file, played as it says.

use super::play::ScenarioShot;
use super::shot::ShotObject;
use super::worlds::world_of;
use crate::fault::Fault;
use crate::layout::load_layout;
use crate::lua::place::{self, Placed};
use crate::lua::quantity::kind_of;
use crate::playing::PlayedShot;
use crate::scenario::session::Session;
use mlua::{Lua, Value};
use railproof_engine::verdict::verdict;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn play_file(lua: &Lua, name: Value) -> mlua::Result<ShotObject> {
    let at = || place::argument(lua, "play_file", 1);
    let Value::String(name) = &name else {
        let message =
            format!("play_file takes the name of a layout's file, not {}", kind_of(&name));
        return Err(Fault::bad_input(message)
            .with_hint("write it like play_file \"shots/mine.yaml\"")
            .placed(at())
            .into());
    };
    let session = Session::of(lua)?;
    let path = session.folder().join(name.to_string_lossy());
    // What is wrong inside the file keeps its place there.
    let layout = load_layout(&path).map_err(|fault| fault.placed(at()))?;
    let shot = session
        .work(lua, 1, |_| PlayedShot::new(&layout).map(|played| played.shot))?
        .map_err(|fault| fault.placed(at()))?;
    let world = world_of(lua, &layout.equipment, &layout.obstacles)
        .map_err(|error| Fault::bad_input(error.to_string()).placed(at()))?;
    let verdict = layout.verdict_target().map(|target| verdict(&world, &shot, target));
    session.count_shot();
    Ok(ShotObject::new(ScenarioShot { layout, world, shot, verdict }))
}

//! Inputs that a picture shows and its grid lacks: the usual value is told.

use crate::lua::options::Options;
use crate::scenario::missing_inputs::line_to_put_back;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::session::Session;
use mlua::Lua;

/// Tells what a picture shows along an input that its grid does not give.
pub fn tell_usual(
    lua: &Lua,
    options: &Options,
    picked: &PointSelection,
    shown: &[AxisOrRules],
) -> mlua::Result<()> {
    for at in shown {
        let AxisOrRules::Axis(axis) = at else { continue };
        let name = match picked.name_of(*at) {
            "roll" => "spin",
            name => name,
        };
        let Some(hint) = line_to_put_back(name).filter(|_| picked.is_usual(*axis)) else {
            continue;
        };
        let usual = picked.say(*at, 0);
        let message = format!("`{name}` is missing in the grid; {usual} stands in");
        // Once is enough, however many pictures show it.
        let session = Session::of(lua)?;
        if !session.leaves_out(&message) {
            session.leave_out(options.complain_of_call(message).with_hint(hint));
        }
    }
    Ok(())
}

//! Maps in place of pictures that an error has kept a scenario from drawing: nobody who changed a line
//! ends without a picture.

use super::banks;
use crate::picture::MOST_PANELS;
use crate::scenario::map::Map;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::undrawn;
use mlua::{Lua, Value};

/// The most pictures that are drawn so.
const MOST: usize = 6;

/// Draws the maps that were not drawn, as far as they can be, and says so, a sentence each.
pub fn draw_undrawn(lua: &Lua) -> Vec<String> {
    let mut remarks = Vec::new();
    let mut left = MOST;
    for map in undrawn::take(lua) {
        for part in parts(&map.picked) {
            let part = Map { picked: part, ..map.clone() };
            if left > 0 && draw(lua, &part).is_ok() {
                left -= 1;
                remarks.push(format!(
                    "a plain picture of {} stands in for those that are missing",
                    part.picked.subject()
                ));
            }
        }
    }
    remarks
}

fn draw(lua: &Lua, map: &Map) -> mlua::Result<()> {
    let options = lua.create_table()?;
    for (key, dimension) in ["x", "y", "panels"].into_iter().zip(places(&map.picked)) {
        options.raw_set(key, map.picked.name_of(dimension))?;
    }
    banks::draw_map(lua, map, &Value::Table(options), |_, _, _, _| Ok(()))
}

/// What stands along x, y and, if a third thing varies, in panels: the longest first, numbers before
/// words.
fn places(picked: &PointSelection) -> Vec<AxisOrRules> {
    let mut order: Vec<AxisOrRules> = (0..picked.kept.len()).map(AxisOrRules::Axis).collect();
    order.extend((!picked.rules.is_empty()).then_some(AxisOrRules::Rules));
    let is_words = |at: &AxisOrRules| match at {
        AxisOrRules::Axis(at) => picked.plan().axes()[*at].values.number(0).is_none(),
        AxisOrRules::Rules => true,
    };
    order.sort_by_key(|at| {
        let count = picked.count_along(*at);
        (count < 2, is_words(at), std::cmp::Reverse(count))
    });
    let panels = order.get(2).is_some_and(|at| picked.count_along(*at) > 1);
    order.truncate(if panels { 3 } else { 2 });
    order
}

/// The selection in pieces of at most three things that vary.
fn parts(picked: &PointSelection) -> Vec<PointSelection> {
    let shown = places(picked);
    let crowded = shown.get(2).copied().filter(|at| picked.count_along(*at) > MOST_PANELS);
    let rest = picked.varying().into_iter().find(|at| !shown.contains(at)).or(crowded);
    let Some(rest) = rest else { return vec![picked.clone()] };
    let name = picked.name_of(rest);
    let one = |place: &usize| {
        let mut part = picked.only(rest, *place);
        let value = picked.say(rest, *place);
        part.said.push(if value.contains(name) { value } else { format!("{name} {value}") });
        part
    };
    picked.places(rest).iter().take(MOST).flat_map(|place| parts(&one(place))).collect()
}

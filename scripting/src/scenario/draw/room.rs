//! A map of more inputs than its options give a place: panels that are free take one, and of each value of another
//! there is a picture.

use super::PictureAxes;
use super::map::MapLayout;
use crate::lua::place;
use crate::picture::MOST_PANELS;
use crate::scenario::point_selection::PointSelection;
use crate::telling::count;
use mlua::Lua;

/// The most pictures of one map.
const MOST_PICTURES: usize = 6;

/// The layout with an input that has no place in its panels, where they show nothing or one value.
pub fn layout_with_room(
    lua: &Lua,
    picked: &PointSelection,
    axes: &PictureAxes,
    layout: MapLayout,
) -> MapLayout {
    let free = layout.panels.is_none_or(|at| axes.count_along(at) == 1);
    let fits = |at: &usize| axes.count_along(*at) <= MOST_PANELS;
    match axes.left(&layout.shown()).into_iter().find(fits) {
        Some(at) if free => {
            place::remark(lua, &format!("`{}` has its panels", picked.name_of(picked.at(at))));
            MapLayout { panels: Some(at), ..layout }
        }
        _ => layout,
    }
}

/// The selection for each picture: all of it, or where an input has no place, one for each of its values if these are
/// few.
pub fn parts(
    lua: &Lua,
    picked: &PointSelection,
    axes: &PictureAxes,
    layout: &MapLayout,
) -> Vec<PointSelection> {
    let left = axes.left(&layout.shown());
    let pictures: usize = left.iter().map(|at| axes.count_along(*at)).product();
    if left.is_empty() || pictures > MOST_PICTURES {
        return vec![picked.clone()];
    }
    let mut parts = vec![picked.clone()];
    for at in &left {
        let dimension = picked.at(*at);
        let places = picked.places(dimension);
        let each = |part: &PointSelection| -> Vec<PointSelection> {
            places.iter().map(|place| part.only(dimension, *place)).collect()
        };
        parts = parts.iter().flat_map(each).collect();
    }
    let names: Vec<&str> = left.iter().map(|at| picked.name_of(picked.at(*at))).collect();
    let told = count(pictures as u64, "picture", "pictures");
    place::remark(lua, &format!("{told}, one for each `{}`", names.join("` and `")));
    parts
}

//! A picture of more inputs than its options give a place: a map's panels that are free take one, and of each value of
//! another there is a picture.

use super::PictureAxes;
use crate::lua::place;
use crate::picture::MOST_PANELS;
use crate::scenario::point_selection::PointSelection;
use crate::telling::count;
use mlua::Lua;

/// The most pictures of one call.
const MOST_PICTURES: usize = 6;

/// A place of a picture that can show an input: its name, and the most values there.
pub type PlaceOfPicture = (&'static str, usize);

/// The panels of a map.
pub const PANELS: PlaceOfPicture = ("panels", MOST_PANELS);
/// The lines of a plot.
pub const SERIES: PlaceOfPicture = ("series", 6);

/// An input that has no place and takes one that shows nothing, or one value: what is shown, and what stands there so
/// far.
pub fn free_place(
    lua: &Lua,
    picked: &PointSelection,
    axes: &PictureAxes,
    (shown, so_far): (&[usize], Option<usize>),
    (name, most): PlaceOfPicture,
) -> Option<usize> {
    if so_far.is_some_and(|at| axes.count_along(at) > 1) {
        return None;
    }
    let at = axes.left(shown).into_iter().find(|at| axes.count_along(*at) <= most)?;
    place::remark(lua, &format!("{name} = \"{}\" stands in", picked.name_of(picked.at(at))));
    Some(at)
}

/// The selection for each picture and what sets it apart: all of it, or where an input has no place, one for each of its
/// values if these are few.
pub fn parts(
    lua: &Lua,
    picked: &PointSelection,
    axes: &PictureAxes,
    shown: &[usize],
) -> Vec<(String, PointSelection)> {
    let left = axes.left(shown);
    let pictures: usize = left.iter().map(|at| axes.count_along(*at)).product();
    if left.is_empty() || pictures > MOST_PICTURES {
        return vec![(String::new(), picked.clone())];
    }
    let mut parts = vec![(String::new(), picked.clone())];
    for at in &left {
        let dimension = picked.at(*at);
        let places = picked.places(dimension);
        let each = |(said, part): &(String, PointSelection)| -> Vec<(String, PointSelection)> {
            let one = |place: &usize| {
                let said = format!("{said} {}", part.say(dimension, *place));
                (said.trim().to_owned(), part.only(dimension, *place))
            };
            places.iter().map(one).collect()
        };
        parts = parts.iter().flat_map(each).collect();
    }
    let names: Vec<&str> = left.iter().map(|at| picked.name_of(picked.at(*at))).collect();
    let told = count(pictures as u64, "picture", "pictures");
    place::remark(lua, &format!("{told}, one for each `{}`", names.join("` and `")));
    parts
}

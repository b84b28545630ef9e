//! Pictures of maps and lists: which values go where, and the words around them.

pub mod difference;
pub mod frontier;
pub mod lines;
pub mod map;
pub mod rule_ways;
pub mod starts;

use super::point_selection::{AxisOrRules, PointSelection};
use crate::fault::Fault;
use crate::lua::options::{Options, text};

/// The dimension that an option names.
fn dimension_at(
    options: &Options,
    key: &'static str,
    picked: &PointSelection,
) -> Result<Option<AxisOrRules>, Fault> {
    let Some(name) = options.optional(key, text())? else { return Ok(None) };
    picked
        .dimension(&name)
        .map(Some)
        .map_err(|(message, hint)| options.complain(key, message).with_hint(hint))
}

/// As [`dimension_at`], for an option that must be given and name an axis of the sweep.
fn axis_at(options: &Options, key: &'static str, picked: &PointSelection) -> Result<usize, Fault> {
    options.required(key, text())?;
    match dimension_at(options, key, picked)? {
        Some(AxisOrRules::Axis(at)) => Ok(at),
        _ => Err(options.complain(key, format!("`{key}` must be an axis of the sweep"))),
    }
}

/// Refuses one dimension in two places.
fn apart(options: &Options, shown: &[(&'static str, AxisOrRules)]) -> Result<(), Fault> {
    for (at, (key, dimension)) in shown.iter().enumerate() {
        if let Some((other, _)) = shown[..at].iter().find(|(_, earlier)| earlier == dimension) {
            return Err(options.complain(key, format!("`{key}` shows the same as `{other}`")));
        }
    }
    Ok(())
}

/// Refuses a picture that would have to leave out what varies.
fn nothing_left(
    options: &Options,
    picked: &PointSelection,
    shown: &[AxisOrRules],
    places: &str,
) -> Result<(), Fault> {
    let left: Vec<AxisOrRules> =
        picked.varying().into_iter().filter(|what| !shown.contains(what)).collect();
    let Some(first) = left.first() else { return Ok(()) };
    let counted: Vec<String> = left
        .iter()
        .map(|what| format!("`{}` ({} values)", picked.name_of(*what), picked.count_along(*what)))
        .collect();
    let name = picked.name_of(*first);
    let some = picked.say(*first, picked.places(*first)[0]);
    Err(options
        .complain_of_call(format!("the picture has no room for {}", counted.join(", ")))
        .with_hint(format!(
            "show it as one of {places}, or select one value before: :where {{ {name} = … }}, such as {some}"
        )))
}

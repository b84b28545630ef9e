//! Reads where something is, with the words that layouts in YAML have for it.

use crate::fault::Fault;
use crate::fields::{FieldKind, FieldValue, GroupValues, Refusal, Within};
use crate::layout::draft::{BallDraft, HeadingDraft, SpotDraft};
use crate::layout::obstacle::obstacle;
use crate::layout::read::{ball, heading};
use crate::layout::spot::place as place_of;
use crate::layout::tables::{BALLS, HEADING, OBSTACLES, PLACE_KIND};
use crate::layout::{CUE, OBJECT};
use crate::lua::options::Options;
use crate::scenario::inputs::NumberOf;
use railproof_engine::equipment::Parameter;
use railproof_engine::world::Obstacle;

/// A number of a parameter, in SI units.
pub(super) fn si(
    options: &Options,
    key: &'static str,
    parameter: Parameter,
) -> Result<Option<f64>, Fault> {
    Ok(options.optional(key, NumberOf(parameter))?.map(|written| written.si))
}

/// The balls at a key, the cue ball first.
pub(super) fn balls(options: &Options, key: &'static str) -> Result<Vec<BallDraft>, Fault> {
    let mut balls = things(options, key, BALLS, ball)?;
    // A Lua table has no order; people expect the cue ball and the object ball first.
    balls.sort_by_key(|ball| (ball.name != CUE, ball.name != OBJECT));
    Ok(balls)
}

/// The obstacles at `obstacles`.
pub(super) fn obstacles(options: &Options) -> Result<Vec<Obstacle>, Fault> {
    things(options, "obstacles", OBSTACLES, obstacle)
}

fn things<T>(
    options: &Options,
    key: &'static str,
    kind: FieldKind,
    read: impl Fn(&str, &GroupValues) -> Result<T, Refusal>,
) -> Result<Vec<T>, Fault> {
    let Some(FieldValue::Each(things)) = options.field(key, kind)? else { return Ok(Vec::new()) };
    let one = |(name, values): &(String, GroupValues)| {
        read(name, values).map_err(|refusal| options.refused(&refusal.under(name), &at(key)))
    };
    things.iter().map(one).collect()
}

fn at(key: &str) -> [Within; 1] {
    [Within::Key(key.to_owned())]
}

/// The place at a key: a ball's name, or a table that says where; nothing when it is left out.
pub(super) fn place(options: &Options, key: &'static str) -> Result<Option<SpotDraft>, Fault> {
    let Some(value) = options.field(key, PLACE_KIND)? else { return Ok(None) };
    place_of(&value).map(Some).map_err(|refusal| options.refused(&refusal, &at(key)))
}

/// The direction at a key; nothing for the word `line` and for a key that is left out.
pub(super) fn heading_or_line(
    options: &Options,
    key: &'static str,
) -> Result<Option<HeadingDraft>, Fault> {
    match options.field(key, FieldKind::WordOr("line", &HEADING))? {
        Some(FieldValue::Group(values)) => {
            heading(&values).map(Some).map_err(|refusal| options.refused(&refusal, &at(key)))
        }
        _ => Ok(None),
    }
}

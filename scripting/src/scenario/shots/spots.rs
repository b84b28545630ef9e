//! Reads where something is, with the words that layouts in YAML have for it.

use crate::fault::Fault;
use crate::layout::draft::{HeadingDraft, LineDraft, SpotDraft};
use crate::layout::keys::{
    ANGLE, CONTACT, GAP, HEADING, LINE, NUMBER, OFF_RAIL, PLACE_ONLY, POSITION, SHARE, SPOT, START,
    joined,
};
use crate::layout::spot::SpotFields;
use crate::lua::options::{Options, Within, choice, list, text};
use crate::lua::quantity::kind_of;
use crate::scenario::inputs::{NumberOf, READINGS, rails};
use crate::yaml::Refusal;
use mlua::Value;
use railproof_engine::equipment::Parameter;
use railproof_engine::rail::{Pocket, Rail, RailChoice};

const SPOT_KEYS: &[&str] = &joined::<{ SPOT.len() }>(&[&SPOT]);
const PLACE_KEYS: &[&str] = &joined::<{ SPOT.len() + PLACE_ONLY.len() }>(&[&SPOT, &PLACE_ONLY]);
const HEADING_KEYS: &[&str] = &joined::<{ HEADING.len() }>(&[&HEADING]);
const LINE_KEYS: &[&str] = &joined::<{ LINE.len() }>(&[&LINE]);

/// The words for the six pockets.
pub(super) fn pockets_by_name() -> Vec<(&'static str, Pocket)> {
    Pocket::ALL.into_iter().map(|pocket| (pocket.name(), pocket)).collect()
}

/// The words for the four rails.
pub(super) fn rails_by_name() -> Vec<(&'static str, Rail)> {
    Rail::ALL.into_iter().map(|rail| (rail.name(), rail)).collect()
}

/// A number of a parameter, in SI units.
pub(super) fn si(
    options: &Options,
    key: &'static str,
    parameter: Parameter,
) -> Result<Option<f64>, Fault> {
    Ok(options.optional(key, NumberOf(parameter))?.map(|written| written.si))
}

/// As many numbers as there are components.
pub(super) fn components<const N: usize>(
    options: &Options,
    key: &'static str,
    parameter: Parameter,
) -> Result<Option<[f64; N]>, Fault> {
    let Some(given) = options.optional(key, list(NumberOf(parameter)))? else { return Ok(None) };
    let numbers: Vec<f64> = given.iter().map(|written| written.si).collect();
    match <[f64; N]>::try_from(numbers) {
        Ok(numbers) => Ok(Some(numbers)),
        Err(numbers) => {
            Err(options.complain(key, format!("`{key}` takes {N} numbers, not {}", numbers.len())))
        }
    }
}

/// Where a ball's own table says it lies, and the key that says it.
pub(super) fn spot(options: &Options) -> Result<(SpotDraft, &'static str), Fault> {
    fields(options)?.finish(options.what()).map_err(|refusal| refused(options, refusal))
}

/// A refusal of the layouts' reader as one of a scenario's: its examples are in the layouts' syntax.
pub(super) fn refused(options: &Options, refusal: Refusal) -> Fault {
    let hint = match &refusal.hint {
        Some(hint) if hint.contains('`') => {
            "for instance position = { metres(0.1), metres(-0.2) } \
            or on_rail = \"left\", number = 2"
                .to_owned()
        }
        Some(hint) => hint.clone(),
        None => return options.complain_here(refusal.message),
    };
    options.complain_here(refusal.message).with_hint(hint)
}

fn fields(options: &Options) -> Result<SpotFields, Fault> {
    let of_ball = ["behind", "in_front_of"].into_iter().find(|key| options.has(key));
    let ball = of_ball.map(|key| options.required(key, text())).transpose()?;
    Ok(SpotFields {
        given: SPOT_KEYS.iter().copied().filter(|key| options.has(key)).collect(),
        position: components(options, "position", POSITION)?.unwrap_or_default(),
        rail: options.optional("on_rail", choice(&rails_by_name()))?,
        number: si(options, "number", NUMBER)?,
        counted_from: options.optional("counted_from", choice(&pockets_by_name()))?,
        off_rail_m: si(options, "off_rail", OFF_RAIL)?.unwrap_or(0.0),
        line: line(options, "on_line")?,
        ends: two_places(options)?,
        share: si(options, "share", SHARE)?.unwrap_or(0.5),
        ball: ball.unwrap_or_default(),
        heading: heading(options, "heading")?,
        gap_m: si(options, "gap", GAP)?.unwrap_or(0.0),
    })
}

/// The place at a key: a ball's name, or a table that says where; nothing when it is left out.
pub(super) fn place(options: &Options, key: &'static str) -> Result<Option<SpotDraft>, Fault> {
    match options.raw(key) {
        Value::Nil => Ok(None),
        value => place_at(options, &[Within::Key(key.to_owned())], &value).map(Some),
    }
}

fn place_at(options: &Options, within: &[Within], value: &Value) -> Result<SpotDraft, Fault> {
    match value {
        Value::String(name) => Ok(SpotDraft::Ball(name.to_string_lossy())),
        Value::Table(table) => {
            let what = "the place".to_owned();
            let inside = options.inner(within, what, table.clone(), PLACE_KEYS)?;
            let pocket = inside.optional("pocket", choice(&pockets_by_name()))?;
            let fields = fields(&inside)?;
            match pocket {
                Some(pocket) if fields.says_nothing() => Ok(SpotDraft::Pocket(pocket)),
                Some(_) => Err(inside
                    .complain("pocket", "the place has `pocket` and something else")
                    .with_hint("it is one place: take one of them out")),
                None => {
                    Ok(fields.finish("the place").map_err(|refusal| refused(&inside, refusal))?.0)
                }
            }
        }
        other => Err(options
            .complain_within(
                within,
                format!("a place is a ball's name or a table, not {}", kind_of(other)),
            )
            .with_hint("for instance { pocket = \"foot-right\" }")),
    }
}

fn two_places(options: &Options) -> Result<Option<Box<[SpotDraft; 2]>>, Fault> {
    let both = match options.raw("between") {
        Value::Nil => return Ok(None),
        Value::Table(both) if both.raw_len() == 2 => both,
        _ => {
            return Err(options
                .complain("between", "`between` takes two places")
                .with_hint("for instance between = { \"object\", \"cue\" }"));
        }
    };
    let one = |number: usize| {
        let value = both.raw_get::<Value>(number).unwrap_or(Value::Nil);
        place_at(options, &[Within::Key("between".to_owned()), Within::Item(number)], &value)
    };
    Ok(Some(Box::new([one(1)?, one(2)?])))
}

/// A line of rail numbers.
pub(super) fn line(options: &Options, key: &'static str) -> Result<Option<LineDraft>, Fault> {
    let Some(inside) = options.nested(key, LINE_KEYS)? else { return Ok(None) };
    Ok(Some(LineDraft {
        rail: inside.optional("rail", choice(&rails()))?.unwrap_or(RailChoice::Long),
        counted_from: inside.optional("counted_from", choice(&pockets_by_name()))?,
        contact: inside.required("contact", NumberOf(CONTACT))?.si,
        start: inside.required("start", NumberOf(START))?.si,
        reading: inside.optional("reading", choice(READINGS))?.unwrap_or_default(),
    }))
}

/// A direction: to a place, along a line, or an angle.
pub(super) fn heading(options: &Options, key: &'static str) -> Result<Option<HeadingDraft>, Fault> {
    let Some(inside) = options.nested(key, HEADING_KEYS)? else { return Ok(None) };
    let given = HEADING_KEYS.iter().filter(|key| inside.has(key)).count();
    if given != 1 {
        return Err(inside
            .complain_here(format!("`{key}` takes one of `to`, `line` and `angle`"))
            .with_hint(format!("for instance {key} = {{ to = {{ pocket = \"foot-right\" }} }}")));
    }
    if let Some(to) = place(&inside, "to")? {
        return Ok(Some(HeadingDraft::To(to)));
    }
    if let Some(line) = line(&inside, "line")? {
        return Ok(Some(HeadingDraft::Line(line)));
    }
    Ok(si(&inside, "angle", ANGLE)?.map(HeadingDraft::Angle))
}

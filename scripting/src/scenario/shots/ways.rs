//! `layout:ways { … }`: every speed, side and height that still makes a bank whose natural line is
//! blocked or kisses.

use super::answers::{milliradians, put_stroke, put_verdict};
use super::layout::LayoutObject;
use super::spots::si;
use super::stroke::way;
use crate::layout::tables::{TIP_HEIGHT, TIP_SIDE};
use crate::lua::options::{Options, one_or_many};
use crate::lua::quantity::Quantity;
use crate::scenario::inputs::{NumberOf, SpeedOn, WrittenNumber};
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::phrase;
use mlua::{Lua, Table, Value};
use railproof_engine::aim::{NoWay, Setup, Way, ways as other_ways};
use railproof_engine::equipment::Parameter;
use railproof_engine::units::Dimension;
use rayon::prelude::*;

const KEYS: &[&str] = &["speed", "tip_side", "tip_height", "send", "reach"];
const WAYS: &[&str] = &["count", "made", "all", "widest"];
const WAY: &[&str] = &[
    "speed",
    "tip_height",
    "tip_side",
    "stroke",
    "aim",
    "window",
    "verdict",
    "made",
    "miss",
    "kissed",
    "cautions",
    "why_not",
];
const REACH: Parameter = Parameter::new("reach", Dimension::Angle, 0.01, 30.0, "deg");
/// The angle from the natural line within which aims are looked at unless said, rad.
const USUAL_REACH_RAD: f64 = 0.02;
/// The most combinations at once: each plays some 160 shots.
const MOST: usize = 2_000;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn ways(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "ways", &argument, KEYS)?;
    let setup = this.0.setup(&options)?;
    let way = way(&options, &this.0, "send")?;
    let numbers = |given: Vec<WrittenNumber>| given.iter().map(|it| it.si).collect::<Vec<f64>>();
    let on_table = one_or_many(SpeedOn(this.0.world.equipment()));
    let speeds: Vec<f64> = options.required("speed", on_table)?;
    let or_middle = |key: &'static str, parameter| {
        let given = options.optional(key, one_or_many(NumberOf(parameter)))?;
        Ok::<_, crate::fault::Fault>(given.map_or(vec![0.0], numbers))
    };
    let (sides, heights) = (or_middle("tip_side", TIP_SIDE)?, or_middle("tip_height", TIP_HEIGHT)?);
    let reach_rad = si(&options, "reach", REACH)?.unwrap_or(USUAL_REACH_RAD);
    let combinations: Vec<(f64, f64, f64)> = speeds
        .iter()
        .flat_map(|speed| sides.iter().map(move |side| (*speed, *side)))
        .flat_map(|(speed, side)| heights.iter().map(move |height| (speed, side, *height)))
        .collect();
    if combinations.len() > MOST {
        let message =
            format!("there are {} combinations; at most {MOST} are tried", combinations.len());
        return Err(options.complain_of_call(message).with_hint("give fewer of each").into());
    }
    let session = Session::of(lua)?;
    let found: Vec<Result<Way, NoWay>> = session.work(lua, combinations.len(), |tick| {
        combinations
            .par_iter()
            .flat_map_iter(|(speed, side, height)| {
                let one = other_ways(&setup, way, &[*speed], &[*side], &[*height], reach_rad);
                tick();
                one
            })
            .collect()
    })?;
    let list = lua.create_table()?;
    let mut widest: Option<(f64, Table)> = None;
    let mut made = 0;
    for ((speed, side, height), found) in combinations.iter().zip(&found) {
        let table = way_table(lua, &setup, (*speed, *side, *height), found)?;
        if let Ok(way) = found {
            made += 1;
            if widest.as_ref().is_none_or(|(most, _)| way.aims.width() > *most) {
                widest = Some((way.aims.width(), table.clone()));
            }
        }
        list.raw_push(table)?;
    }
    let table = lua.create_table()?;
    table.raw_set("count", found.len())?;
    table.raw_set("made", made)?;
    table.raw_set("all", list)?;
    table.raw_set("widest", widest.map(|(_, table)| table))?;
    members::seal(lua, table, "a list of ways", WAYS)
}

fn way_table(
    lua: &Lua,
    setup: &Setup<'_>,
    (speed, side, height): (f64, f64, f64),
    found: &Result<Way, NoWay>,
) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("made", false)?;
    match found {
        Ok(way) => {
            put_stroke(lua, &table, setup, way.stroke)?;
            put_verdict(&table, &way.verdict)?;
            table.raw_set("window", milliradians(way.aims.width())?)?;
        }
        Err(NoWay::Aim(why)) => table.raw_set("why_not", why.to_string())?,
        Err(NoWay::Kisses(stroke)) => {
            put_stroke(lua, &table, setup, *stroke)?;
            table.raw_set("kissed", true)?;
            table.raw_set("why_not", "the balls kiss at every aim that would make it")?;
        }
        Err(NoWay::Fails(stroke, verdict)) => {
            put_stroke(lua, &table, setup, *stroke)?;
            put_verdict(&table, verdict)?;
            let why = format!(
                "no aim near the line makes it; the line itself: {}",
                phrase(verdict.pocket.name())
            );
            table.raw_set("why_not", why)?;
        }
    }
    table.raw_set("speed", Quantity::new(speed, "m/s")?)?;
    table.raw_set("tip_side", side)?;
    table.raw_set("tip_height", height)?;
    members::seal(lua, table, "a way", WAY)
}

//! `layout:aim`, `:gear`, `:overcut` and `:compare`: the stroke for a bank. Where there is no
//! answer the table that comes back has only `why_not`.

use super::layout::{LayoutObject, ScenarioLayout};
use super::stroke::{StrokeObject, checked, level, way};
use crate::fault::Fault;
use crate::lua::options::Options;
use crate::lua::quantity::Quantity;
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::caution::{Caution, Cautions};
use mlua::{Lua, Table, Value};
use railproof_engine::aim::{
    Aim, NoAim, Setup, StrokeStudy, aim_along, compare as compare_both, gear as gear_side,
    overcut as overcut_aim,
};
use railproof_engine::stroke::Stroke;
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::ShotVerdict;

const KEYS: &[&str] = &["speed", "tip_side", "tip_height", "elevation", "allow_miscue", "send"];
/// Gearing finds the side.
const GEAR_KEYS: &[&str] = &["speed", "tip_height", "elevation", "allow_miscue", "send"];

const ANSWER: &[&str] = &[
    "why_not",
    "stroke",
    "aim",
    "tip_side",
    "correction",
    "throw",
    "squirt",
    "cut",
    "overcut",
    "at_ball",
    "verdict",
    "made",
    "miss",
    "kissed",
    "cautions",
];
const COMPARED: &[&str] = &[
    "why_not",
    "stroke",
    "aim",
    "tip_side",
    "verdict",
    "made",
    "miss",
    "kissed",
    "cautions",
    "window",
    "window_from",
    "window_to",
    "miss_per_mrad",
    "miss_per_mps",
    "miss_per_tenth_side",
];

/// A question about a bank that is to be struck.
pub(super) struct Question<'a> {
    pub setup: Setup<'a>,
    pub stroke: Stroke,
    pub way: Vec2,
}

/// Reads the stroke and the way of a question.
pub(super) fn question<'a>(
    options: &Options,
    laid: &'a ScenarioLayout,
) -> Result<Question<'a>, Fault> {
    let setup = laid.setup(options)?;
    let stroke = level(options, laid.world.equipment())?;
    checked(options, laid, &stroke)?;
    Ok(Question { setup, stroke, way: way(options, laid, "send")? })
}

/// Solves with the script's clock stopped.
pub(super) fn solved<T: Send>(lua: &Lua, work: impl FnOnce() -> T) -> mlua::Result<T> {
    Ok(Session::of(lua)?.work(lua, 1, |_| work())?)
}

/// The answer that there is none.
pub(super) fn none(lua: &Lua, why: &NoAim, known: &'static [&'static str]) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("why_not", why.to_string())?;
    members::seal(lua, table, "an answer", known)
}

pub(super) fn degrees(radians: f64) -> mlua::Result<Quantity> {
    Ok(Quantity::new(radians / DEGREE_RAD + 0.0, "deg")?)
}

pub(super) fn milliradians(radians: f64) -> mlua::Result<Quantity> {
    Ok(Quantity::new(1e3 * radians + 0.0, "mrad")?)
}

pub(super) fn millimetres(metres: f64) -> mlua::Result<Quantity> {
    Ok(Quantity::new(1e3 * metres + 0.0, "mm")?)
}

/// Puts a stroke, the numbers read off it most and its cautions into a table.
pub(super) fn put_stroke(
    lua: &Lua,
    table: &Table,
    setup: &Setup<'_>,
    stroke: Stroke,
) -> mlua::Result<()> {
    let cautions = Cautions::of_stroke(&stroke, &setup.cue.ball, setup.world.equipment())
        .with(Caution::Obstacles, !setup.world.obstacles().is_empty());
    put_cautions(lua, table, &cautions)?;
    table.raw_set("stroke", StrokeObject(stroke))?;
    table.raw_set("aim", degrees(stroke.aim_rad)?)?;
    table.raw_set("tip_side", stroke.side_offset)
}

/// Puts what to be careful of into a table as sentences, and notes it for the run's summary.
pub(in crate::scenario) fn put_cautions(
    lua: &Lua,
    table: &Table,
    cautions: &Cautions,
) -> mlua::Result<()> {
    Session::of(lua)?.advise(cautions);
    table.raw_set("cautions", cautions.lines())
}

/// Puts a verdict into a table.
pub(super) fn put_verdict(table: &Table, verdict: &ShotVerdict) -> mlua::Result<()> {
    table.raw_set("verdict", verdict.pocket.name())?;
    table.raw_set("made", verdict.is_made())?;
    table.raw_set("kissed", verdict.kissed_at_s.is_some())?;
    if let Some(arrival) = &verdict.arrival {
        table.raw_set("miss", millimetres(arrival.miss_m)?)?;
    }
    Ok(())
}

fn aim_table(lua: &Lua, setup: &Setup<'_>, aim: &Aim) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    put_stroke(lua, &table, setup, aim.stroke)?;
    table.raw_set("correction", milliradians(aim.correction_rad())?)?;
    table.raw_set("throw", degrees(aim.hit.throw_rad())?)?;
    table.raw_set("cut", degrees(aim.hit.cut_rad())?)?;
    let cue = &setup.world.equipment().cue;
    if let Ok(struck) = aim.stroke.strike(&setup.cue.ball, cue) {
        table.raw_set("squirt", degrees(struck.squirt_rad)?)?;
    }
    Ok(table)
}

/// `layout:aim { … }`: the aim that sends the object ball along a line, throw and squirt in it.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn aim(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "aim", &argument, KEYS)?;
    let asked = question(&options, &this.0)?;
    let answer = solved(lua, || {
        let aim = aim_along(&asked.setup, &asked.stroke, asked.way)?;
        let (_, verdict) = asked.setup.judge(&aim.stroke)?;
        Ok((aim, verdict))
    })?;
    aimed(lua, &asked.setup, answer)
}

/// `layout:gear { … }`: the side with which the surfaces do not slip over each other.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn gear(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "gear", &argument, GEAR_KEYS)?;
    let Question { setup, stroke, way } = question(&options, &this.0)?;
    let answer = solved(lua, || {
        let aim = gear_side(&setup, &stroke, way)?;
        let (_, verdict) = setup.judge(&aim.stroke)?;
        Ok((aim, verdict))
    })?;
    aimed(lua, &setup, answer)
}

fn aimed(
    lua: &Lua,
    setup: &Setup<'_>,
    answer: Result<(Aim, ShotVerdict), NoAim>,
) -> mlua::Result<Table> {
    match answer {
        Ok((aim, verdict)) => {
            let table = aim_table(lua, setup, &aim)?;
            put_verdict(&table, &verdict)?;
            members::seal(lua, table, "an answer", ANSWER)
        }
        Err(why) => none(lua, &why, ANSWER),
    }
}

/// `layout:overcut { … }`: the thinner hit with which throw and side cancel at the pocket.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn overcut(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "overcut", &argument, KEYS)?;
    let asked = question(&options, &this.0)?;
    match solved(lua, || overcut_aim(&asked.setup, &asked.stroke, asked.way))? {
        Ok(found) => {
            let table = lua.create_table()?;
            put_stroke(lua, &table, &asked.setup, found.stroke)?;
            table.raw_set("overcut", milliradians(found.overcut_rad)?)?;
            table.raw_set("at_ball", millimetres(found.overcut_at_ball_m)?)?;
            put_verdict(&table, &found.verdict)?;
            members::seal(lua, table, "an answer", ANSWER)
        }
        Err(why) => none(lua, &why, ANSWER),
    }
}

/// `layout:compare { … }`: overcutting without side beside gearing.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn compare(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "compare", &argument, GEAR_KEYS)?;
    let Question { setup, stroke, way } = question(&options, &this.0)?;
    let both = solved(lua, || compare_both(&setup, &stroke, way))?;
    let table = lua.create_table()?;
    table.raw_set("overcut", compared(lua, &setup, both.overcut)?)?;
    table.raw_set("gearing", compared(lua, &setup, both.gearing)?)?;
    members::seal(lua, table, "a comparison of strokes", &["overcut", "gearing"])
}

fn compared(
    lua: &Lua,
    setup: &Setup<'_>,
    played: Result<StrokeStudy, NoAim>,
) -> mlua::Result<Table> {
    let played = match played {
        Ok(played) => played,
        Err(why) => return none(lua, &why, COMPARED),
    };
    let table = lua.create_table()?;
    put_stroke(lua, &table, setup, played.stroke)?;
    put_verdict(&table, &played.verdict)?;
    if let Some(aims) = played.aims {
        table.raw_set("window", milliradians(aims.width())?)?;
        table.raw_set("window_from", degrees(aims.from)?)?;
        table.raw_set("window_to", degrees(aims.to)?)?;
    }
    // Metres per radian are millimetres per milliradian.
    table.raw_set("miss_per_mrad", played.miss_per_aim_m_rad)?;
    table.raw_set("miss_per_mps", played.miss_per_speed_s.map(|slope| 1e3 * slope))?;
    table.raw_set("miss_per_tenth_side", played.miss_per_side_m.map(|slope| 100.0 * slope))?;
    members::seal(lua, table, "a stroke compared", COMPARED)
}

//! `layout:aims` and `:speeds`: the ranges of aim and of speed that make the bank.

use super::answers::{degrees, milliradians, none, put_cautions, solved};
use super::layout::{LayoutObject, ScenarioLayout};
use super::spots::si;
use super::stroke::{AimPlan, STROKE_KEYS, StrokePlan, stroke};
use crate::fault::Fault;
use crate::lua::options::Options;
use crate::lua::quantity::Quantity;
use crate::scenario::inputs::{Keys, SpeedOn};
use crate::scenario::members;
use crate::telling::caution::{Caution, Cautions};
use mlua::{Lua, Table, Value};
use railproof_engine::aim::{AimWindow, NoAim, Setup, aims_that_make, speeds_that_make};
use railproof_engine::equipment::Parameter;
use railproof_engine::stroke::Stroke;
use railproof_engine::units::Dimension;

static AIM_KEYS: Keys = Keys::new(|| [STROKE_KEYS.as_slice(), &["reach"]].concat());
static SPEED_KEYS: Keys = Keys::new(|| [STROKE_KEYS.as_slice(), &["from", "to"]].concat());

const WINDOWS: &[&str] = &["why_not", "count", "windows", "widest", "cautions"];
const WINDOW: &[&str] = &["from", "to", "width"];

const REACH: Parameter = Parameter::new("reach", Dimension::Angle, 0.01, 30.0, "deg");
/// The angle to either side within which aims are looked at unless said, rad.
const USUAL_REACH_RAD: f64 = 0.03;
/// The speeds that are looked at unless said, m/s.
const USUAL_SPEEDS_M_S: (f64, f64) = (0.5, 10.0);

fn planned(options: &Options, laid: &ScenarioLayout) -> Result<StrokePlan, Fault> {
    stroke(options, laid)?.ok_or_else(|| {
        options
            .complain_of_call("which stroke is meant?")
            .with_hint("give a `speed` and where the cue points, or a solved `stroke`")
    })
}

fn aimed(setup: &Setup<'_>, plan: &StrokePlan) -> Result<Stroke, NoAim> {
    match plan.aim {
        AimPlan::Given(_) | AimPlan::Ghost(..) => Ok(plan.stroke),
        AimPlan::Solved(by, way) => Ok(by.solve(setup, &plan.stroke, way)?.0),
    }
}

/// `layout:aims { … }`: the windows of aims around a stroke's own.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn aims(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "aims", &argument, &AIM_KEYS)?;
    let setup = this.0.setup(&options)?;
    let plan = planned(&options, &this.0)?;
    let reach_rad = si(&options, "reach", REACH)?.unwrap_or(USUAL_REACH_RAD);
    let found = solved(lua, || aims_that_make(&setup, &aimed(&setup, &plan)?, reach_rad))?;
    let cautions = |_: &AimWindow| advice(&this.0, &plan.stroke);
    windows(lua, found, degrees, milliradians, cautions)
}

/// `layout:speeds { … }`: the windows of speeds, the aim held.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn speeds(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "speeds", &argument, &SPEED_KEYS)?;
    let setup = this.0.setup(&options)?;
    let plan = planned(&options, &this.0)?;
    let speed = SpeedOn(this.0.world.equipment());
    let from = options.optional("from", speed)?.unwrap_or(USUAL_SPEEDS_M_S.0);
    let to = options.optional("to", speed)?.unwrap_or(USUAL_SPEEDS_M_S.1);
    if from >= to {
        let key = if options.has("to") { "to" } else { "from" };
        return Err(options.complain(key, "`from` must be below `to`").into());
    }
    let found = solved(lua, || speeds_that_make(&setup, &aimed(&setup, &plan)?, (from, to)))?;
    let speed = |value: f64| Ok(Quantity::new(value, "m/s")?);
    let cautions =
        |speeds: &AimWindow| advice(&this.0, &Stroke { speed_m_s: speeds.to, ..plan.stroke });
    windows(lua, found, speed, speed, cautions)
}

/// The cautions of a stroke of the cue ball on this layout.
fn advice(laid: &ScenarioLayout, stroke: &Stroke) -> Cautions {
    let cue = laid.cue().and_then(|cue| laid.layout.balls.get(cue));
    let ball = cue.map_or(laid.world.equipment().ball, |cue| cue.ball);
    Cautions::of_stroke(stroke, &ball, laid.world.equipment())
        .with(Caution::Obstacles, !laid.layout.obstacles.is_empty())
}

fn windows(
    lua: &Lua,
    found: Result<Vec<AimWindow>, NoAim>,
    edge: impl Fn(f64) -> mlua::Result<Quantity>,
    width: impl Fn(f64) -> mlua::Result<Quantity>,
    cautions: impl Fn(&AimWindow) -> Cautions,
) -> mlua::Result<Table> {
    let found = match found {
        Ok(found) => found,
        Err(why) => return none(lua, &why, WINDOWS),
    };
    let list = lua.create_table()?;
    let mut widest: Option<(f64, Table)> = None;
    let mut careful = Cautions::default();
    for interval in &found {
        careful.add(&cautions(interval));
        let table = lua.create_table()?;
        table.raw_set("from", edge(interval.from)?)?;
        table.raw_set("to", edge(interval.to)?)?;
        table.raw_set("width", width(interval.width())?)?;
        let table = members::seal(lua, table, "a window", WINDOW)?;
        if widest.as_ref().is_none_or(|(most, _)| interval.width() > *most) {
            widest = Some((interval.width(), table.clone()));
        }
        list.raw_push(table)?;
    }
    let table = lua.create_table()?;
    put_cautions(lua, &table, &careful)?;
    table.raw_set("count", found.len())?;
    table.raw_set("windows", list)?;
    table.raw_set("widest", widest.map(|(_, table)| table))?;
    members::seal(lua, table, "an answer", WINDOWS)
}

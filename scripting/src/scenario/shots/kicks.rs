//! `route { … }` and `layout:kick { … }`: ways round several rails.

use super::answers::{degrees, none, put_cautions, put_stroke, put_verdict, solved};
use super::layout::{LayoutObject, put_down};
use super::play::ScenarioShot;
use super::shot::{ShotObject, number_table};
use super::spots::{place, si};
use super::stroke::{checked, level};
use crate::fault::Fault;
use crate::layout::draft::{BallDraft, SpotDraft, TargetDraft};
use crate::layout::tables::SPIN_SIDE;
use crate::layout::{CUE, OBJECT};
use crate::lua::options::{Options, list, word};
use crate::lua::quantity::Quantity;
use crate::scenario::equipment::OneTable;
use crate::scenario::inputs::SpeedOn;
use crate::scenario::members;
use crate::telling::caution::Cautions;
use mlua::{Lua, Table, Value};
use railproof_engine::aim::{Route, SendOff, kick as kick_aims, route_start};
use railproof_engine::bank::Launch;
use railproof_engine::equipment::Parameter;
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::units::Dimension;
use railproof_engine::verdict::{numbers, verdict};
use std::sync::Arc;

const ROUTE_KEYS: &[&str] =
    &["equipment", "from", "rails", "pocket", "speed", "roll", "spin_side", "obstacles"];
const KICK_KEYS: &[&str] =
    &["rails", "speed", "tip_side", "tip_height", "elevation", "allow_miscue", "passes"];
const ROUTES: &[&str] = &["why_not", "count", "starts"];
const START: &[&str] =
    &["direction", "speed", "numbers", "shot", "verdict", "made", "miss", "kissed", "cautions"];
const KICKS: &[&str] = &["why_not", "count", "strokes"];
const KICK: &[&str] =
    &["stroke", "aim", "tip_side", "verdict", "made", "miss", "kissed", "cautions", "numbers"];

/// Most rails of one way: each further one spreads small errors so far that no start is found.
const MOST_RAILS: usize = 5;
const PASSES: Parameter = Parameter::new("passes", Dimension::Ratio, -1.0, 1.0, "");

fn rails(options: &Options) -> Result<Vec<Rail>, Fault> {
    let rails = options.required("rails", list(word::<Rail>()))?;
    if rails.len() > MOST_RAILS {
        let message = format!("there are {} rails; at most {MOST_RAILS} are followed", rails.len());
        return Err(options.complain("rails", message));
    }
    if let Some(at) = rails.windows(2).position(|pair| pair[0] == pair[1]) {
        let message = format!("a ball can't come off the {} rail twice running", rails[at].name());
        return Err(options.complain_of_item("rails", at + 2, message));
    }
    Ok(rails)
}

/// `route { … }`: every direction in which a ball comes off just these rails and through the middle
/// of the mouth.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn route(lua: &Lua, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "route", &argument, ROUTE_KEYS)?;
    let equipment = options.required("equipment", OneTable)?;
    let pocket = options.required("pocket", word::<Pocket>())?;
    let rails = rails(&options)?;
    let from = match place(&options, "from")? {
        Some(SpotDraft::Ball(_) | SpotDraft::Pocket(_)) => {
            return Err(options.complain("from", "`from` is a place on the table").into());
        }
        Some(spot) => spot,
        None => {
            return Err(options
                .complain_of_call("route needs `from`: where the ball lies")
                .with_hint("for instance from = { position = { metres(0.2), metres(-0.2) } }")
                .into());
        }
    };
    let send = SendOff {
        speed_m_s: options.required("speed", SpeedOn(&equipment.0))?,
        roll: si(&options, "roll", Launch::ROLL)?.unwrap_or(1.0),
        side: si(&options, "spin_side", SPIN_SIDE)?.unwrap_or(0.0),
    };
    let ball = BallDraft {
        name: OBJECT.to_owned(),
        spot: from,
        spot_key: "position",
        velocity: None,
        spin: None,
        launch: None,
        diameter_m: None,
        mass_kg: None,
    };
    let target = TargetDraft { pocket, ball: None };
    let laid = put_down(lua, &options, &equipment, vec![ball], Some(target), None)?;
    let (world, layout) = (&laid.0.world, &laid.0.layout);
    let place = layout.balls[0].state.position;
    let route = Route { rails, pocket };
    let found = match solved(lua, || route_start(world, place, send, &route))? {
        Ok(found) => found,
        Err(why) => return none(lua, &why, ROUTES),
    };
    let starts = lua.create_table()?;
    for start in &found {
        let mut layout = (**layout).clone();
        let radius_m = layout.balls[0].ball.radius_m();
        layout.balls[0].state = send.state(place, start.direction_rad, radius_m);
        let shot = start.shot.clone();
        let verdict = layout.verdict_target().map(|target| verdict(world, &shot, target));
        let table = lua.create_table()?;
        table.raw_set("direction", degrees(start.direction_rad)?)?;
        table.raw_set("speed", Quantity::new(send.speed_m_s, "m/s")?)?;
        let touches = lua.create_table()?;
        for touch in &start.touches {
            touches.raw_push(number_table(lua, *touch)?)?;
        }
        table.raw_set("numbers", touches)?;
        if let Some(verdict) = &verdict {
            put_verdict(&table, verdict)?;
        }
        put_cautions(lua, &table, &Cautions::of_shot(&layout, &shot))?;
        let played = ScenarioShot { layout, world: Arc::clone(world), shot, verdict };
        table.raw_set("shot", ShotObject::new(played))?;
        starts.raw_push(members::seal(lua, table, "a start", START)?)?;
    }
    let table = lua.create_table()?;
    table.raw_set("count", found.len())?;
    table.raw_set("starts", starts)?;
    members::seal(lua, table, "an answer", ROUTES)
}

/// `layout:kick { … }`: every aim with which the cue ball comes off just these rails and then meets
/// the object ball.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn kick(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "kick", &argument, KICK_KEYS)?;
    let setup = this.0.setup(&options)?;
    let rails = rails(&options)?;
    let stroke = level(&options, this.0.world.equipment())?;
    checked(&options, &this.0, &stroke)?;
    let passes = si(&options, "passes", PASSES)?.unwrap_or(0.0);
    let found = solved(lua, || {
        let strokes = kick_aims(&setup, &stroke, &rails, passes)?;
        strokes
            .into_iter()
            .map(|stroke| setup.judge(&stroke).map(|judged| (stroke, judged)))
            .collect::<Result<Vec<_>, _>>()
    })?;
    let found = match found {
        Ok(found) => found,
        Err(why) => return none(lua, &why, KICKS),
    };
    let strokes = lua.create_table()?;
    for (stroke, (shot, verdict)) in &found {
        let table = lua.create_table()?;
        put_stroke(lua, &table, &setup, *stroke)?;
        put_verdict(&table, verdict)?;
        let touches = lua.create_table()?;
        let equipment = setup.world.equipment();
        for touch in numbers(equipment, shot, railproof_engine::aim::CUE, setup.pocket) {
            touches.raw_push(number_table(lua, touch)?)?;
        }
        table.raw_set("numbers", touches)?;
        strokes.raw_push(members::seal(lua, table, "a kick", KICK)?)?;
    }
    let table = lua.create_table()?;
    table.raw_set("count", found.len())?;
    table.raw_set("strokes", strokes)?;
    debug_assert!(this.0.layout.balls.iter().any(|ball| ball.name == CUE));
    members::seal(lua, table, "an answer", KICKS)
}

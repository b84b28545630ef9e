//! What became of a bank, as a read-only table with units.

use super::map::Map;
use super::members;
use super::picked::Dimension;
use super::why::why_table;
use crate::lua::quantity::Quantity;
use crate::telling::caution::{Caution, Cautions};
use mlua::{Lua, Table, Value};
use railproof_engine::attribution::of_bank;
use railproof_engine::bank::{Arrival, AtRail, Bank, Direction, Outcome, Rebounded, Verdict};
use railproof_engine::motion::BallState;
use railproof_engine::rail::Line;
use railproof_engine::sweep::{Input, Row};

const FIELDS: &[&str] = &[
    "verdict",
    "holds",
    "long_or_short",
    "miss",
    "miss_diamonds",
    "why",
    "clearance",
    "flagged",
    "cautions",
    "at_rail",
    "rebound",
    "arrival",
    "line_contact",
    "line_start",
    "rule",
    "on",
    "rail",
    "pocket",
    "rail_model",
    "contact",
    "start",
    "off_rail",
    "speed",
    "lag",
    "spin",
    "roll",
    "side",
    "aim_error",
    "sliding_friction",
    "rolling_resistance",
    "pivot_deceleration",
    "restitution",
    "restitution_loss",
    "cushion_friction",
    "impact_cloth_friction",
    "nose_height",
    "contact_time",
    "ball_diameter",
    "corner_mouth",
    "side_mouth",
    "gravity",
];
const AT_RAIL: &[&str] = &["speed", "roll_fraction", "side", "incidence", "contact", "time"];
const REBOUND: &[&str] = &[
    "speed",
    "roll_fraction",
    "side",
    "angle",
    "angle_difference",
    "bend",
    "restitution",
    "held",
    "departure",
    "hop",
    "outside_checked_speed",
];
const ARRIVAL: &[&str] = &["speed", "time", "clearance_long", "clearance_short"];

fn quantity(amount: f64, unit: &str) -> mlua::Result<Quantity> {
    Ok(Quantity::new(amount, unit)?)
}

/// The outcome of a bank that was played on this table.
pub fn outcome_table(lua: &Lua, bank: &Bank, line: Line, outcome: &Outcome) -> mlua::Result<Table> {
    let table = unsealed(lua, bank, line, outcome)?;
    members::seal(lua, table, "an outcome", FIELDS)
}

fn unsealed(lua: &Lua, bank: &Bank, line: Line, outcome: &Outcome) -> mlua::Result<Table> {
    let verdict = outcome.verdict();
    let table = lua.create_table()?;
    table.raw_set("verdict", verdict.name())?;
    table.raw_set("holds", verdict == Verdict::Holds)?;
    if let Some(direction) = verdict.direction() {
        let word = match direction {
            Direction::Long => "long",
            Direction::Short => "short",
        };
        table.raw_set("long_or_short", word)?;
    }
    if let Some(miss_m) = outcome.miss_m() {
        table.raw_set("miss", quantity(1e3 * miss_m, "mm")?)?;
        table.raw_set("miss_diamonds", miss_m / bank.geometry().diamond_m)?;
    }
    if let Some(clearance_m) = outcome.clearance_m() {
        table.raw_set("clearance", quantity(1e3 * clearance_m, "mm")?)?;
    }
    table.raw_set("flagged", outcome.flagged())?;
    let (own_bank, own) = (bank.clone(), *outcome);
    let why = move |lua: &Lua, _: Value| why_table(lua, &of_bank(&own_bank, line, &own));
    table.raw_set("why", lua.create_function(why)?)?;
    let hop = outcome.rebound.is_some_and(|rebound| rebound.hop);
    let cautions = Cautions::of_speed(outcome.launch.velocity.norm()).with(Caution::Hop, hop);
    table.raw_set("cautions", cautions.lines())?;
    table.raw_set("line_contact", line.contact)?;
    table.raw_set("line_start", line.start)?;
    let radius_m = bank.equipment().ball.radius_m();
    if let Some(at_rail) = &outcome.at_rail {
        table.raw_set("at_rail", at_rail_table(lua, at_rail, radius_m)?)?;
        if let Some(rebound) = &outcome.rebound {
            table.raw_set("rebound", rebound_table(lua, outcome, at_rail, rebound, radius_m)?)?;
        }
    }
    if let Some(arrival) = &outcome.arrival {
        table.raw_set("arrival", arrival_table(lua, arrival)?)?;
    }
    Ok(table)
}

/// Spin about the level axis square to the travel as a fraction of natural roll.
fn roll_fraction(state: &BallState, radius_m: f64) -> f64 {
    let (v, spin) = (state.velocity, state.spin);
    let speed_squared = v.x * v.x + v.y * v.y;
    if speed_squared == 0.0 {
        return 0.0;
    }
    radius_m * (spin.y * v.x - spin.x * v.y) / speed_squared
}

/// Side spin as R·wz/v, positive running, for a ball that travels (or came) this way along the rail.
fn side(state: &BallState, along: f64, radius_m: f64) -> f64 {
    let speed = state.velocity.norm();
    let sense = if along > 0.0 { 1.0 } else { -1.0 };
    if speed == 0.0 { 0.0 } else { sense * radius_m * state.spin.z / speed }
}

fn at_rail_table(lua: &Lua, at_rail: &AtRail, radius_m: f64) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    let state = &at_rail.state;
    table.raw_set("speed", quantity(state.velocity.norm(), "m/s")?)?;
    table.raw_set("roll_fraction", roll_fraction(state, radius_m))?;
    table.raw_set("side", side(state, state.velocity.x, radius_m))?;
    table.raw_set("incidence", quantity(at_rail.incidence_rad().to_degrees(), "deg")?)?;
    table.raw_set("contact", at_rail.contact)?;
    table.raw_set("time", quantity(at_rail.time_s, "s")?)?;
    members::seal(lua, table, "the ball at the rail", AT_RAIL)
}

fn rebound_table(
    lua: &Lua,
    outcome: &Outcome,
    at_rail: &AtRail,
    rebound: &Rebounded,
    radius_m: f64,
) -> mlua::Result<Table> {
    let incoming = at_rail.state.velocity;
    let table = lua.create_table()?;
    table.raw_set("speed", quantity(rebound.state.velocity.norm(), "m/s")?)?;
    table.raw_set("roll_fraction", roll_fraction(&rebound.state, radius_m))?;
    table.raw_set("side", side(&rebound.state, incoming.x, radius_m))?;
    table.raw_set("angle", quantity(rebound.angle_rad(incoming).to_degrees(), "deg")?)?;
    if let Some(difference) = outcome.angle_difference_rad() {
        table.raw_set("angle_difference", quantity(difference.to_degrees(), "deg")?)?;
    }
    table.raw_set("bend", quantity(rebound.bend_rad(incoming).to_degrees(), "deg")?)?;
    table.raw_set("restitution", rebound.restitution)?;
    table.raw_set("held", quantity(1e3 * rebound.held_s, "ms")?)?;
    table.raw_set("departure", rebound.departure)?;
    table.raw_set("hop", rebound.hop)?;
    table.raw_set("outside_checked_speed", rebound.outside_checked_speed)?;
    members::seal(lua, table, "the rebound", REBOUND)
}

fn arrival_table(lua: &Lua, arrival: &Arrival) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("speed", quantity(arrival.state.velocity.norm(), "m/s")?)?;
    table.raw_set("time", quantity(arrival.time_s, "s")?)?;
    table.raw_set("clearance_long", quantity(1e3 * arrival.clearance_long_m, "mm")?)?;
    table.raw_set("clearance_short", quantity(1e3 * arrival.clearance_short_m, "mm")?)?;
    members::seal(lua, table, "the arrival", ARRIVAL)
}

/// The last table that rows were played on, kept for the next row.
#[derive(Debug, Default)]
pub struct Tables(Option<(Vec<usize>, Bank)>);

impl Tables {
    fn of<'a>(&'a mut self, map: &Map, digits: &[usize]) -> mlua::Result<&'a Bank> {
        if self.0.as_ref().is_none_or(|(known, _)| known != digits) {
            let bank = map
                .picked
                .plan()
                .bank(digits)
                .map_err(|error| crate::fault::Fault::bad_input(error.to_string()))?;
            self.0 = Some((digits.to_vec(), bank));
        }
        match &self.0 {
            Some((_, bank)) => Ok(bank),
            None => Err(crate::fault::Fault::bad_input("the table is gone").into()),
        }
    }
}

/// A row of a comparison: its inputs as they were written, and its outcome.
pub fn row_table(
    lua: &Lua,
    map: &Map,
    tables: &mut Tables,
    at: usize,
    row: &Row,
) -> mlua::Result<Table> {
    let picked = &map.picked;
    let digits = picked.plan().digits(row.point);
    let bank = tables.of(map, &digits)?;
    let table = unsealed(lua, bank, row.line, &row.outcome)?;
    for (axis, place) in digits.iter().enumerate() {
        let text = picked.text(axis);
        table.raw_set(text.input.name(), text.lua_value(lua, *place)?)?;
        if text.input == Input::Lag {
            table.raw_set("speed", text.lua_value(lua, *place)?)?;
        }
        if text.input == Input::Roll && text.by_word {
            table.raw_set("spin", text.ticks[*place].as_str())?;
        }
    }
    if !picked.rules.is_empty() {
        table.raw_set("rule", picked.say(Dimension::Rules, at % picked.rules.len()))?;
    }
    members::seal(lua, table, "a row", FIELDS)
}

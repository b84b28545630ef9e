//! `shots { over, shot }`: a function makes a shot of every point of a grid, then all are played.

use super::axes::{axes, lua_value, say};
use super::layout_object::LayoutObject;
use super::play::{PreparedShot, ready};
use super::set::{ShotsObject, taken};
use super::stroke::STROKE_KEYS;
use crate::fault::Fault;
use crate::lua::options::{Options, function};
use crate::lua::quantity::kind_of;
use crate::playing::{shot_outcome, shot_result};
use crate::record::{ShotAxis, ShotRow, ShotsRecord};
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::caution::Cautions;
use mlua::{Function, Lua, MultiValue, Table, Value};
use railproof_engine::equipment::Equipment;
use railproof_engine::results::ShotResult;
use rayon::prelude::*;
use std::sync::Arc;

const KEYS: &[&str] = &["over", "shot", "name"];

/// The most shots of one sweep: their layouts are held together until they are played.
pub(super) const MOST_SHOTS: usize = 100_000;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn shots(lua: &Lua, argument: Value) -> mlua::Result<ShotsObject> {
    let options = Options::open(lua, "shots", &argument, KEYS)?;
    let taken: Vec<&str> = taken().collect();
    let axes = axes(&options, &taken)?;
    let make = options.required("shot", function())?;
    let mut count = 1_usize;
    for axis in &axes {
        count = count.saturating_mul(axis.values.len());
    }
    if count > MOST_SHOTS {
        let message =
            format!("this sweep would have {count} shots; at most {MOST_SHOTS} are played");
        return Err(options
            .complain("over", message)
            .with_hint("take coarser steps, or several sweeps")
            .into());
    }
    let session = Session::of(lua)?;
    session.check_room(count)?;
    let name = session.name(&options, "shots")?;
    let mut record = ShotsRecord {
        name,
        axes,
        equipment: Vec::new(),
        made_by: text_of(&options),
        rows: Vec::new(),
    };

    let mut readied: Vec<(usize, PreparedShot)> = Vec::with_capacity(count);
    for point in 0..count {
        let ready = made(lua, &options, &make, &record, point)?;
        let table = table_of(&mut record.equipment, &ready.layout.equipment);
        readied.push((table, ready));
    }
    record.rows = session.work(lua, count, |tick| {
        readied
            .par_iter()
            .map(|(table, ready)| {
                let row = row(*table, ready);
                tick();
                row
            })
            .collect()
    })?;
    let record = Arc::new(record);
    session.add_shots(&record);
    Ok(ShotsObject::whole(record))
}

/// The text of the function, so that what was played can be told from the record.
fn text_of(options: &Options) -> String {
    options
        .place_of_value("shot")
        .map_or_else(String::new, |place| place.source()[place.span()].to_owned())
}

/// The place of a table among those played on; it is added when it is new.
fn table_of(tables: &mut Vec<Equipment>, one: &Equipment) -> usize {
    tables.iter().position(|known| known == one).unwrap_or_else(|| {
        tables.push(one.clone());
        tables.len() - 1
    })
}

/// The layout that the function makes of a point.
fn made(
    lua: &Lua,
    options: &Options,
    make: &Function,
    record: &ShotsRecord,
    point: usize,
) -> mlua::Result<PreparedShot> {
    let digits = record.digits(point);
    let table = point_table(lua, &record.axes, &digits)?;
    let given: MultiValue = make.call(table)?;
    let at = |fault: Fault| {
        let said: Vec<String> =
            record.axes.iter().zip(&digits).map(|(axis, digit)| say(axis, *digit)).collect();
        Fault { message: format!("at {}: {}", said.join(", "), fault.message), ..fault }
    };
    let first = given.front().cloned().unwrap_or(Value::Nil);
    let Value::UserData(data) = &first else {
        return Err(at(wrong_return(options, &first)).into());
    };
    let Ok(laid) = data.borrow::<LayoutObject>().map(|laid| laid.clone()) else {
        return Err(at(wrong_return(options, &first)).into());
    };
    let stroke = match given.get(1).cloned().unwrap_or(Value::Nil) {
        Value::Nil => Value::Table(lua.create_table()?),
        given => given,
    };
    let inside = Options::open(lua, "shots", &stroke, &STROKE_KEYS).map_err(at)?;
    let ready = ready(&inside, &laid.0).map_err(at)?;
    if ready.layout.target.is_none() {
        return Err(at(options
            .complain("shot", "this layout has no pocket, so nothing can be said of the shot")
            .with_hint("give the layout a `pocket`"))
        .into());
    }
    Ok(ready)
}

fn wrong_return(options: &Options, value: &Value) -> Fault {
    options
        .complain("shot", format!("`shot` must return a layout, not {}", kind_of(value)))
        .with_hint("return bank_shot { … }, { speed = point.speed, send = \"line\" }")
}

fn point_table(lua: &Lua, axes: &[ShotAxis], digits: &[usize]) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    for (axis, digit) in axes.iter().zip(digits) {
        table.raw_set(axis.name.as_str(), lua_value(lua, &axis.values, *digit)?)?;
    }
    members::seal_named(lua, table, "a point", axes.iter().map(|axis| axis.name.clone()).collect())
}

fn row(equipment: usize, ready: &PreparedShot) -> ShotRow {
    match ready.play() {
        Ok(played) => {
            let verdict = played.verdict.ok_or_else(|| "it has no target".to_owned());
            let outcome =
                verdict.map(|verdict| shot_outcome(&played.layout, &played.shot, verdict));
            let ShotResult { cue, object, stroke, .. } = shot_result(&played.layout, None);
            let cautions = Cautions::of_shot(&played.layout, &played.shot);
            ShotRow { equipment, cue, object, stroke, cautions, outcome }
        }
        Err(why) => {
            let ShotResult { cue, object, .. } = shot_result(&ready.layout, None);
            ShotRow {
                equipment,
                cue,
                object,
                stroke: ready.stroke.map(|(_, plan)| plan.stroke),
                cautions: Cautions::default(),
                outcome: Err(why.to_string()),
            }
        }
    }
}

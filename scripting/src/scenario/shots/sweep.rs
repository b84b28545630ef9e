//! `shots { over, shot }`: a function makes a shot of every point of a grid, then all are played; and
//! `shots { over, layout }`, where what varies are keys of a layout's file.

use super::axes::{axes, lua_value, say};
use super::layout_object::LayoutObject;
use super::play::{PreparedShot, ready};
use super::set::{ShotsObject, taken};
use super::stroke::STROKE_KEYS;
use crate::fault::Fault;
use crate::files::ordinary;
use crate::lua::options::{Options, Within, function, text};
use crate::lua::quantity::kind_of;
use crate::plan::{ShotAxis, ShotsPlan};
use crate::playing::{shot_outcome, shot_result};
use crate::record::ShotsRecord;
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::caution::Cautions;
use crate::whole_shots::{ShotPlayer, ShotRow};
use crate::yaml::LARGEST_FILE;
use mlua::{Function, Lua, MultiValue, Table, Value};
use railproof_engine::equipment::Equipment;
use railproof_engine::results::ShotResult;
use rayon::prelude::*;
use std::path::Path;
use std::sync::Arc;

const KEYS: &[&str] = &["over", "shot", "layout", "name"];

/// The most shots of one sweep: their layouts are held together until they are played.
pub(super) const MOST_SHOTS: usize = 100_000;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn shots(lua: &Lua, argument: Value) -> mlua::Result<ShotsObject> {
    let options = Options::open(lua, "shots", &argument, KEYS)?;
    let planned = match (options.has("layout"), options.has("shot")) {
        (true, false) => Some(shots_of_layout(lua, &options)?),
        (false, _) => None,
        (true, true) => {
            let fault = options.complain("layout", "`layout` and `shot` both say what is played");
            return Err(fault.with_hint("take one of them out").into());
        }
    };
    let axes = match &planned {
        Some(plan) => plan.axes().to_vec(),
        None => axes(&options, &taken().collect::<Vec<_>>(), false)?,
    };
    let mut count = 1_usize;
    for axis in &axes {
        count = count.saturating_mul(axis.values.len());
    }
    if count > MOST_SHOTS {
        let message =
            format!("this sweep would have {count} shots; at most {MOST_SHOTS} are played");
        return Err(options
            .complain("over", message)
            .with_hint("take coarser steps, several sweeps, or plan { … } and `railproof sweep`")
            .into());
    }
    let session = Session::of(lua)?;
    let make = match planned {
        Some(_) => None,
        None => Some(options.required("shot", function())?),
    };
    session.check_room(count)?;
    let name = session.name(&options, "shots")?;
    let made_by = planned.as_ref().map_or_else(|| text_of(&options), |plan| plan.text().to_owned());
    let (equipment, rows) = (Vec::new(), Vec::new());
    let mut record = ShotsRecord { name, axes, equipment, made_by, rows };
    record.rows = match (&planned, make) {
        (Some(plan), _) => session.work(lua, count, |tick| {
            let points = (0..count).into_par_iter();
            points
                .map_init(
                    || ShotPlayer::new(plan),
                    |player, point| {
                        let row = player.row(point as u64);
                        tick();
                        row
                    },
                )
                .collect()
        })?,
        (None, Some(make)) => made_rows(lua, &session, &options, &make, &record, count)?,
        (None, None) => Vec::new(),
    };
    record.equipment = ShotsRecord::tables(&record.rows);
    let record = Arc::new(record);
    session.add_shots(&record);
    Ok(ShotsObject::whole(record))
}

/// The shots that a function makes, played.
fn made_rows(
    lua: &Lua,
    session: &Session,
    options: &Options,
    make: &Function,
    record: &ShotsRecord,
    count: usize,
) -> mlua::Result<Vec<ShotRow>> {
    let mut tables: Vec<Arc<Equipment>> = Vec::new();
    let mut readied: Vec<(Arc<Equipment>, PreparedShot)> = Vec::with_capacity(count);
    for point in 0..count {
        let ready = made(lua, options, make, record, point)?;
        let table = table_of(&mut tables, &ready.layout.equipment);
        readied.push((table, ready));
    }
    Ok(session.work(lua, count, |tick| {
        readied
            .par_iter()
            .map(|(table, ready)| {
                let row = row(Arc::clone(table), ready);
                tick();
                row
            })
            .collect()
    })?)
}

/// `plan { over = …, layout = "…" }`: the shots, and the name they were given.
pub fn planned_shots(lua: &Lua, argument: &Value) -> mlua::Result<(ShotsPlan, Option<String>)> {
    let options = Options::open(lua, "plan", argument, KEYS)?;
    if options.has("shot") {
        return Err(options
            .complain("shot", "a plan takes a layout's file; a function is played by shots { … }")
            .with_hint("write the layout to a file, and name the keys that vary in `over`")
            .into());
    }
    let plan = shots_of_layout(lua, &options)?;
    Ok((plan, options.optional("name", text())?))
}

/// The shots over the keys of a layout's file.
fn shots_of_layout(lua: &Lua, options: &Options) -> mlua::Result<ShotsPlan> {
    let name = options.required("layout", text())?;
    let axes = axes(options, &taken().collect::<Vec<_>>(), true)?;
    let path = Session::of(lua)?.folder().join(&name);
    let label = path.display().to_string();
    let bytes = ordinary::read_at_most(&path, LARGEST_FILE + 1).map_err(|error| {
        options.complain("layout", format!("can't read the layout `{label}`: {error}"))
    })?;
    let layout = String::from_utf8(bytes)
        .map_err(|_| options.complain("layout", format!("`{label}` is not UTF-8 text")))?;
    let names: Vec<String> = axes.iter().map(|axis| axis.name.clone()).collect();
    let folder = path.parent().unwrap_or(Path::new(""));
    ShotsPlan::new(&label, &layout, folder, axes).map_err(|(axis, fault)| {
        let Some(at) = axis else { return fault.into() };
        let within = [Within::Key("over".to_owned()), Within::Key(names[at].clone())];
        let told = options.complain_within(&within, fault.message);
        match fault.hint {
            Some(hint) => told.with_hint(hint),
            None => told,
        }
        .into()
    })
}

/// The text of the function, so that what was played can be told from the record.
fn text_of(options: &Options) -> String {
    options
        .place_of_value("shot")
        .map_or_else(String::new, |place| place.source()[place.span()].to_owned())
}

/// A table, once for all shots on it.
fn table_of(tables: &mut Vec<Arc<Equipment>>, one: &Equipment) -> Arc<Equipment> {
    if let Some(known) = tables.iter().find(|known| ***known == *one) {
        return Arc::clone(known);
    }
    let table = Arc::new(one.clone());
    tables.push(Arc::clone(&table));
    table
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

fn row(equipment: Arc<Equipment>, ready: &PreparedShot) -> ShotRow {
    match ready.play() {
        Ok(played) => {
            let verdict = played.verdict.ok_or_else(|| "it has no target".to_owned());
            let outcome =
                verdict.map(|verdict| shot_outcome(&played.layout, &played.shot, verdict));
            let ShotResult { cue, object, stroke, .. } = shot_result(&played.layout, None);
            let cautions = Cautions::of_shot(&played.layout, &played.shot);
            let equipment = Some(equipment);
            ShotRow { equipment, cue, object, stroke, cautions, outcome }
        }
        Err(why) => {
            let ShotResult { cue, object, .. } = shot_result(&ready.layout, None);
            ShotRow {
                equipment: Some(equipment),
                cue,
                object,
                stroke: ready.stroke.map(|(_, plan)| plan.stroke),
                cautions: Cautions::default(),
                outcome: Err(why.to_string()),
            }
        }
    }
}

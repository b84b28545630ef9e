//! `shots { over, shot }`: a function makes a shot of every point of a grid, then all are played; and
//! `shots { over, layout }`, where what varies are keys of a layout's file.

use super::axes::{axes, say};
use super::function_shots::{FunctionShots, given_table, made_shot, point_table, row};
use super::play::PreparedShot;
use super::set::ShotsObject;
use crate::called;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::ordinary;
use crate::lua::WorkerFunction;
use crate::lua::options::{Options, Within, function, name, text};
use crate::lua::place;
use crate::lua::quantity::kind_of;
use crate::lua::worker::{CallLimits, FunctionKind};
use crate::plan::ShotsPlan;
use crate::record::ShotsRecord;
use crate::scenario::equipment::EquipmentObject;
use crate::scenario::session::Session;
use crate::whole_shots::{ShotPlayer, ShotRow};
use crate::yaml::LARGEST_FILE;
use mlua::{Function, Lua, Table, Value};
use railproof_engine::equipment::Equipment;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

const KEYS: &[&str] = &["over", "shot", "with", "layout", "name"];

/// The most shots of one sweep: their layouts are held together until they are played.
pub(super) const MOST_SHOTS: usize = 100_000;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn shots(lua: &Lua, argument: Value) -> mlua::Result<ShotsObject> {
    let options = Options::open(lua, "shots", &argument, KEYS)?;
    let planned = match (options.has("layout"), options.has("shot")) {
        (true, false) => Some(shots_of_layout(lua, &options)?),
        (false, _) => None,
        (true, true) => return Err(both(&options).into()),
    };
    let axes = match &planned {
        Some(plan) => plan.axes().to_vec(),
        None => axes(&options, false)?,
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
            .with_hint(format!(
                "take coarser steps, several sweeps, or plan {{ … }} and `{}`",
                called::command("sweep")
            ))
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
    let mut record = ShotsRecord { name, axes, equipment, made_by, rows, units: session.units() };
    record.rows = match (&planned, make) {
        (Some(plan), _) => session.work(lua, count, |tick| {
            let points = (0..count).into_par_iter();
            points
                .map_init(
                    || ShotPlayer::new(plan, &FunctionShots),
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
    let given = given_table(lua, &equipment_with(options)?)?;
    let mut tables: Vec<Arc<Equipment>> = Vec::new();
    let mut readied: Vec<Result<(Arc<Equipment>, PreparedShot), String>> =
        Vec::with_capacity(count);
    let mut failed: Vec<Fault> = Vec::new();
    for point in 0..count {
        readied.push(match made(lua, options, make, record, &given, point) {
            Ok(ready) => Ok((table_of(&mut tables, &ready.layout.equipment), ready)),
            Err(error) => {
                let fault = place::fault(lua, &error);
                // A slip of Lua's own is no answer about a shot.
                let slip = matches!(error, mlua::Error::RuntimeError(_));
                if slip || fault.exit != Exit::BadInput {
                    return Err(error);
                }
                failed.push(fault.clone());
                Err(fault.message)
            }
        });
    }
    // As in a plan, a point at which there is no shot is a row that says why. A function that makes none at
    // all is a slip.
    if let Some(first) = failed.first() {
        if failed.len() == count {
            return Err(first.clone().into());
        }
        let none = failed.len();
        place::remark(lua, &format!("{none} of {count} points have no shot: {}", first.message));
    }
    Ok(session.work(lua, count, |tick| {
        readied
            .par_iter()
            .map(|ready| {
                let row = match ready {
                    Ok((table, ready)) => row(Arc::clone(table), ready),
                    Err(why) => ShotRow::without_layout(why.clone()),
                };
                tick();
                row
            })
            .collect()
    })?)
}

/// `plan { over = …, layout = "…" }` or `plan { over = …, shot = function … }`: the shots, and the name they were given.
pub fn planned_shots(lua: &Lua, argument: &Value) -> mlua::Result<(ShotsPlan, Option<String>)> {
    let options = Options::open(lua, "plan", argument, KEYS)?;
    let plan = match (options.has("layout"), options.has("shot")) {
        (true, true) => return Err(both(&options).into()),
        (false, true) => shots_of_function(lua, &options)?,
        (_, false) => shots_of_layout(lua, &options)?,
    };
    Ok((plan, options.optional("name", name())?))
}

fn both(options: &Options) -> Fault {
    options
        .complain("layout", "`layout` and `shot` both say what is played")
        .with_hint("take one of them out")
}

/// The shots that a function makes, whose text goes into the plan.
fn shots_of_function(lua: &Lua, options: &Options) -> mlua::Result<ShotsPlan> {
    let make = options.required("shot", function())?;
    let axes = axes(options, false)?;
    let limits = CallLimits::default();
    let captured = WorkerFunction::capture(lua, &make, limits, FunctionKind::Shot)?;
    let plan = ShotsPlan::of_function(captured, equipment_with(options)?, axes);
    Ok(plan.map_err(|why| options.complain_of_call(why))?)
}

/// The shots over the keys of a layout's file.
fn shots_of_layout(lua: &Lua, options: &Options) -> mlua::Result<ShotsPlan> {
    if options.has("with") {
        let fault =
            options.complain("with", "`with` is for a function: a layout names its equipment");
        return Err(fault.with_hint("take it out, or give a function at `shot`").into());
    }
    let name = options.required("layout", text())?;
    let axes = axes(options, true)?;
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

/// The shot that the function makes of a point.
fn made(
    lua: &Lua,
    options: &Options,
    make: &Function,
    record: &ShotsRecord,
    given: &Table,
    point: usize,
) -> mlua::Result<PreparedShot> {
    let digits = record.digits(point);
    let made = make.call((point_table(lua, &record.axes, &digits)?, given))?;
    made_shot(lua, &made, &|message| options.complain("shot", message)).map_err(|fault| {
        let said: Vec<String> =
            record.axes.iter().zip(&digits).map(|(axis, digit)| say(axis, *digit)).collect();
        Fault { message: format!("at {}: {}", said.join(", "), fault.message), ..fault }.into()
    })
}

/// The equipment at `with`, by its names.
fn equipment_with(options: &Options) -> mlua::Result<BTreeMap<String, Equipment>> {
    let mut all = BTreeMap::new();
    for (name, value) in options.named_values("with")?.unwrap_or_default() {
        let Some(one) = EquipmentObject::of(&value) else {
            let within = [Within::Key("with".to_owned()), Within::Key(name.clone())];
            let message = format!("`{name}` must be equipment, not {}", kind_of(&value));
            return Err(options
                .complain_within(&within, message)
                .with_hint("write with = { hall = equipment \"nine-foot\" }")
                .into());
        };
        all.insert(name, one);
    }
    Ok(all)
}

//! `exact_starts(banks)`: the start number that sends each bank through the middle of the mouth.

use super::axis_text::lua_value;
use super::compare::banks_argument;
use super::draw;
use super::inputs::{Keys, input_keys};
use super::left_out::{add_picture, add_selection};
use super::members;
use super::point_selection::PointSelection;
use super::results::few_enough;
use super::selection::narrowed;
use super::session::{Session, fault_here, here};
use crate::fault::Fault;
use crate::lua::place::Placed;
use crate::record::StartsRecord;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::sweep::{
    Input, LineFit, StartRow, exact_starts, fit_through_origin, fit_with_offset,
};
use std::collections::BTreeMap;
use std::sync::Arc;

const CALL: &str = "exact_starts";

/// Exact start numbers, or some of them.
#[derive(Debug, Clone)]
pub struct Starts {
    pub record: Arc<StartsRecord>,
    pub picked: PointSelection,
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        CALL,
        lua.create_function(|lua, banks: Value| {
            let banks = banks_argument(lua, CALL, Some(&banks))?;
            let plan = &banks.0.plan;
            let complain = |message: String| Fault::bad_input(message).placed(here(lua, CALL));
            if plan.axis(Input::Start).is_some() {
                return Err(complain(
                    "the sweep gives `start` itself; leave it out to have the exact ones found"
                        .into(),
                )
                .into());
            }
            let points = plan.checked_len(1).map_err(|error| complain(error.to_string()))?;
            let session = Session::of(lua)?;
            let rows = session
                .work(lua, points, |tick| exact_starts(plan, &|| tick()))?
                .map_err(|error| complain(error.to_string()))?;
            let name = match &banks.0.name {
                Some(name) => session.fresh_name(&format!("{name}-starts")),
                None => session.fresh_name("starts"),
            };
            let record = Arc::new(StartsRecord { name, plan: plan.clone(), rows });
            session.add_starts(&record);
            Ok(Starts { record, picked: PointSelection::all(&banks.0, Vec::new()) })
        })?,
    )
}

impl Starts {
    /// The kept rows, in order.
    pub fn rows(&self) -> impl Iterator<Item = &StartRow> {
        self.picked.points().into_iter().filter_map(|point| self.record.rows.get(point))
    }

    /// (contact, start) of the kept rows that have an answer.
    pub fn pairs(&self) -> Vec<(f64, f64)> {
        self.rows()
            .filter_map(|row| row.start.as_ref().ok().map(|start| (row.contact, *start)))
            .collect()
    }
}

const FIT: &[&str] = &["slope", "offset", "rms", "worst", "count"];
const MEMBERS: &[&str] =
    &["where", "at", "fit", "fit_with_offset", "unsolved", "rows", "count", "draw_lines"];

fn fit_table(
    lua: &Lua,
    this: &Starts,
    call: &str,
    fit: fn(&[(f64, f64)]) -> Option<LineFit>,
    needs: &str,
) -> mlua::Result<Table> {
    let Some(fit) = fit(&this.pairs()) else {
        return Err(fault_here(
            lua,
            call,
            format!("a line needs {needs} that have an exact start"),
        )
        .into());
    };
    let table = lua.create_table()?;
    table.raw_set("slope", fit.slope)?;
    table.raw_set("offset", fit.offset)?;
    table.raw_set("rms", fit.rms)?;
    table.raw_set("worst", fit.worst)?;
    table.raw_set("count", fit.count)?;
    members::seal(lua, table, "a fitted line", FIT)
}

impl UserData for Starts {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "list of exact starts");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("the exact starts of {}", this.picked.subject()))
        });
        methods.add_method("count", |_, this, ()| Ok(this.picked.count() as f64));
        add_selection(methods, "where", |lua, this, argument: Value| {
            let picked = narrowed(lua, "where", &this.picked, &argument)?;
            Ok(Self { record: Arc::clone(&this.record), picked })
        });
        methods.add_method("fit", |lua, this, ()| {
            fit_table(lua, this, "fit", fit_through_origin, "at least one contact off zero")
        });
        methods.add_method("fit_with_offset", |lua, this, ()| {
            fit_table(lua, this, "fit_with_offset", fit_with_offset, "two different contacts")
        });
        methods.add_method("at", at);
        methods.add_method("unsolved", unsolved);
        methods.add_method("rows", rows);
        add_picture(methods, "draw_lines", draw::starts::draw_lines);
        members::only(methods, "a list of exact starts", MEMBERS);
    }
}

/// `starts:at { contact = 2 }`: the one start number there.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn at(lua: &Lua, this: &Starts, argument: Value) -> mlua::Result<f64> {
    let picked = narrowed(lua, "at", &this.picked, &argument)?;
    let only = Starts { record: Arc::clone(&this.record), picked };
    if only.picked.count() > 1 {
        let varying: Vec<&str> =
            only.picked.varying().into_iter().map(|what| only.picked.name_of(what)).collect();
        return Err(fault_here(
            lua,
            "at",
            format!("this leaves {} points; `at` needs one", only.picked.count()),
        )
        .with_hint(format!("say also: {}", varying.join(", ")))
        .into());
    }
    match only.rows().next().map(|row| &row.start) {
        Some(Ok(start)) => Ok(*start),
        Some(Err(why)) => Err(fault_here(lua, "at", why.to_string()).into()),
        None => Err(fault_here(lua, "at", "there is no such point").into()),
    }
}

fn unsolved(lua: &Lua, this: &Starts, (): ()) -> mlua::Result<Table> {
    let mut reasons: BTreeMap<String, usize> = BTreeMap::new();
    let mut count = 0_usize;
    for row in this.rows() {
        if let Err(why) = &row.start {
            count += 1;
            *reasons.entry(why.to_string()).or_default() += 1;
        }
    }
    let table = lua.create_table()?;
    table.raw_set("count", count)?;
    let list = lua.create_table()?;
    for (reason, times) in reasons.into_iter().take(100) {
        let entry = if times == 1 { reason } else { format!("{reason} ({times} points)") };
        list.raw_push(entry)?;
    }
    table.raw_set("reasons", list)?;
    members::seal(lua, table, "what is unsolved", &["count", "reasons"])
}

fn rows(lua: &Lua, this: &Starts, (): ()) -> mlua::Result<Table> {
    static ROW: Keys = Keys::new(|| input_keys(&["why_not"]));
    let count = this.picked.count();
    few_enough(lua, count, "")?;
    let list = lua.create_table_with_capacity(count, 0)?;
    for row in this.rows() {
        let table = lua.create_table()?;
        for (axis, place) in this.picked.plan().digits(row.point).iter().enumerate() {
            let text = this.picked.text(axis);
            table.raw_set(text.input.name(), lua_value(text, lua, *place)?)?;
        }
        match &row.start {
            Ok(start) => table.raw_set("start", *start)?,
            Err(why) => table.raw_set("why_not", why.to_string())?,
        }
        list.raw_push(members::seal(lua, table, "a row", &ROW)?)?;
    }
    Ok(list)
}

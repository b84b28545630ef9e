//! `mine:exact_starts(banks)`: the start through the middle of the mouth, from where to where it lies on the
//! tables that yours could be.

use super::question::EnsembleQuestion;
use super::words::{INTERVAL, interval};
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::place::Placed;
use crate::scenario::compare::any_banks_argument;
use crate::scenario::draw;
use crate::scenario::left_out::{add_picture, add_selection};
use crate::scenario::members;
use crate::scenario::point_selection::PointSelection;
use crate::scenario::selection::narrowed;
use crate::scenario::session::{Session, fault_here, here};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::ask::{CredibleInterval, EnsembleStarts, StartOnTables};
use railproof_engine::sweep::{Input, LineFit, fit_through_origin, fit_with_offset};
use std::rc::Rc;

const CALL: &str = "exact_starts";
/// A search for a start plays about so many banks.
const BANKS_A_SEARCH: usize = 30;

/// Exact starts over many tables, or some of them.
#[derive(Debug, Clone)]
pub struct KnownStarts {
    pub known: Rc<MeasuredTable>,
    pub found: Rc<EnsembleStarts>,
    pub picked: PointSelection,
}

pub fn exact_starts(
    lua: &Lua,
    known: &Rc<MeasuredTable>,
    arguments: &[Value],
) -> mlua::Result<KnownStarts> {
    let complain = |message: String| Fault::bad_input(message).placed(here(lua, CALL));
    let banks = any_banks_argument(lua, CALL, arguments.first())?;
    if arguments.len() > 1 {
        return Err(complain("exact_starts takes a grid and nothing else".into()).into());
    }
    if banks.0.plan.axis(Input::Start).is_some() {
        return Err(complain(
            "the sweep gives `start` itself; leave it out to have the exact ones found".into(),
        )
        .into());
    }
    let asked = EnsembleQuestion { known: Rc::clone(known), banks, rules: Vec::new() }
        .checked(|fault| fault.placed(here(lua, CALL)))?;
    let set_ups = asked.set_ups(lua, CALL, BANKS_A_SEARCH, false)?;
    let found = Session::of(lua)?
        .work(lua, known.ensemble.len(), |tick| {
            EnsembleStarts::of(&known.table, known.model, &known.ensemble, &set_ups, tick)
        })?
        .map_err(|error| complain(error.to_string()))?;
    Ok(KnownStarts {
        known: Rc::clone(known),
        found: Rc::new(found),
        picked: PointSelection::all(&asked.banks.0, Vec::new()),
    })
}

const MEMBERS: &[&str] = &["where", "at", "count", "fit", "fit_with_offset", "draw_lines"];
const START: &[&str] = &["middle", "from", "to", "half_from", "half_to", "share", "error"];
const FIT: &[&str] = &["slope", "offset", "share", "error"];

impl KnownStarts {
    /// The kept starts, in order.
    pub fn kept(&self) -> impl Iterator<Item = (usize, StartOnTables)> {
        self.picked.points().into_iter().map(|point| (point, self.found.start(point)))
    }

    /// The slope of a line through the origin over the kept banks.
    pub fn slope(&self) -> Option<CredibleInterval> {
        let lines = self.found.lines(&self.picked.points(), fit_through_origin);
        self.found.interval(&lines, |line| line.slope)
    }
}

impl UserData for KnownStarts {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "list of exact starts over tables");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("the exact starts of {} over tables", this.picked.subject()))
        });
        methods.add_method("count", |_, this, ()| Ok(this.picked.count() as f64));
        add_selection(methods, "where", |lua, this, argument: Value| {
            let picked = narrowed(lua, "where", &this.picked, &argument)?;
            Ok(Self { picked, ..this.clone() })
        });
        methods.add_method("at", at);
        methods.add_method("fit", |lua, this, ()| fit(lua, this, "fit", fit_through_origin));
        methods.add_method("fit_with_offset", |lua, this, ()| {
            fit(lua, this, "fit_with_offset", fit_with_offset)
        });
        add_picture(methods, "draw_lines", draw::starts::draw_known);
        members::only(methods, "a list of exact starts over tables", MEMBERS);
    }
}

/// `starts:at { contact = 2 }`: the one start there, with the share of tables that have one.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn at(lua: &Lua, this: &KnownStarts, argument: Value) -> mlua::Result<Table> {
    let picked = narrowed(lua, "at", &this.picked, &argument)?;
    let points = picked.points();
    let [point] = points.as_slice() else {
        let message = format!("this leaves {} banks; `at` needs one", points.len());
        return Err(fault_here(lua, "at", message).into());
    };
    let StartOnTables { start, has_start } = this.found.start(*point);
    let table = match start {
        Some(start) => interval(lua, start)?,
        None => lua.create_table()?,
    };
    table.raw_set("share", has_start.share)?;
    table.raw_set("error", has_start.error)?;
    members::seal(lua, table, "a start", START)
}

/// A line fitted to the kept starts on each table, its numbers as intervals.
fn fit(
    lua: &Lua,
    this: &KnownStarts,
    call: &str,
    fit: fn(&[(f64, f64)]) -> Option<LineFit>,
) -> mlua::Result<Table> {
    let lines = this.found.lines(&this.picked.points(), fit);
    let numbers = (
        this.found.interval(&lines, |line| line.slope),
        this.found.interval(&lines, |line| line.offset),
    );
    let (Some(slope), Some(offset)) = numbers else {
        let message = "a line needs banks that all have an exact start on one table at least, and \
                       contacts that give a line";
        return Err(fault_here(lua, call, message).into());
    };
    let share = this.found.share_of(&lines);
    let table = lua.create_table()?;
    for (name, number) in [("slope", slope), ("offset", offset)] {
        let number = members::seal(lua, interval(lua, number)?, "an interval", INTERVAL)?;
        table.raw_set(name, number)?;
    }
    table.raw_set("share", share.share)?;
    table.raw_set("error", share.error)?;
    members::seal(lua, table, "a fitted line over tables", FIT)
}

//! A comparison in a script's hands: its totals, and its rows. A selection is a map of fewer
//! rows.

use super::draw;
use super::members;
use super::outcome::row_table;
use super::point_selection::PointSelection;
use super::ranking;
use super::results::{ResultAxis, ResultTable, Results};
use super::selection::narrowed;
use super::session::fault_here;
use crate::fault::Fault;
use crate::lua::quantity::Quantity;
use crate::record::MapRecord;
use crate::telling::bank_outcome;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::{Row, Tables, Tally};
use std::cell::RefCell;
use std::sync::Arc;

/// The most rows that `rows` gives at once.
pub const MOST_ROWS: usize = 10_000;

/// A comparison, or some of its rows.
#[derive(Debug, Clone)]
pub struct Map {
    pub record: Arc<MapRecord>,
    pub picked: PointSelection,
}

impl Map {
    /// The kept rows, in order, each with its index.
    pub fn rows(&self) -> impl Iterator<Item = (usize, &Row)> {
        self.picked
            .rows()
            .into_iter()
            .filter_map(|at| self.record.rows.get(at).map(|row| (at, row)))
    }

    pub fn tally(&self) -> Tally {
        Tally::of(self.rows().map(|(_, row)| row))
    }

    /// The misses of the kept rows that have one, m.
    pub fn misses(&self) -> Vec<f64> {
        self.rows().filter_map(|(_, row)| row.outcome.miss_m()).collect()
    }

    /// Largest minus smallest miss, m.
    pub fn spread_m(&self) -> Option<f64> {
        let misses = self.misses();
        let least = misses.iter().copied().reduce(f64::min)?;
        let most = misses.iter().copied().reduce(f64::max)?;
        Some(most - least)
    }
}

impl ResultTable for Map {
    fn axes(&self) -> Vec<ResultAxis> {
        self.picked.axes()
    }

    fn axis(&self, name: &str) -> Result<usize, (String, String)> {
        self.picked.axis(name)
    }

    fn rows(&self) -> Vec<usize> {
        self.picked.rows()
    }
}

impl Results for Map {
    fn subject(&self) -> String {
        self.picked.subject()
    }

    fn noun(&self) -> &'static str {
        "bank"
    }

    fn outcomes(&self) -> &'static [&'static str] {
        &BankVerdict::NAMES
    }

    fn outcome(&self, row: usize) -> &'static str {
        self.record.rows.get(row).map_or("", |row| row.outcome.verdict().name())
    }

    fn miss_m(&self, row: usize) -> Option<f64> {
        self.record.rows.get(row)?.outcome.miss_m()
    }

    fn sees_kisses(&self) -> bool {
        false
    }

    fn kissed(&self, _: usize) -> Option<bool> {
        None
    }

    fn label(&self, row: usize) -> String {
        self.picked.say_row(row)
    }

    fn sentence(&self, row: usize) -> String {
        self.record.rows.get(row).map(|row| bank_outcome(&row.outcome)).unwrap_or_default()
    }
}

fn millimetres(
    lua: &Lua,
    this: &Map,
    call: &str,
    of: impl FnOnce(&Tally) -> Option<f64>,
) -> mlua::Result<Quantity> {
    let tally = this.tally();
    match of(&tally).filter(|_| tally.with_miss > 0) {
        Some(metres) => Ok(Quantity::new(1e3 * metres, "mm")?),
        None => Err(no_miss(lua, this, call).into()),
    }
}

fn no_miss(lua: &Lua, this: &Map, call: &str) -> Fault {
    fault_here(
        lua,
        call,
        format!(
            "none of these {} banks comes to the pocket's mouth, so none has a miss",
            this.picked.count()
        ),
    )
}

const MEMBERS: &[&str] = &[
    "name",
    "where",
    "count",
    "share",
    "worst",
    "rms",
    "mean",
    "spread",
    "rows",
    "each",
    "ranking",
    "draw",
    "draw_lines",
    "draw_difference",
];

impl UserData for Map {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "map");
        fields.add_field_method_get("name", |_, this| Ok(this.record.name.clone()));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("a map of {}", this.picked.subject()))
        });
        methods.add_method("where", |lua, this, argument: Value| {
            let picked = narrowed(lua, "where", &this.picked, &argument)?;
            Ok(Self { record: Arc::clone(&this.record), picked })
        });
        methods.add_method("count", |_, this, ()| Ok(this.picked.count() as f64));
        methods.add_method("share", |_, this, ()| Ok(this.tally().share_holding()));
        methods.add_method("worst", |lua, this, ()| {
            millimetres(lua, this, "worst", |tally| Some(tally.worst_miss_m))
        });
        methods.add_method("rms", |lua, this, ()| millimetres(lua, this, "rms", Tally::rms_miss_m));
        methods
            .add_method("mean", |lua, this, ()| millimetres(lua, this, "mean", Tally::mean_miss_m));
        methods.add_method("spread", |lua, this, ()| match this.spread_m() {
            Some(spread) => Ok(Quantity::new(1e3 * spread, "mm")?),
            None => Err(no_miss(lua, this, "spread").into()),
        });
        methods.add_method("rows", rows);
        methods.add_method("each", each);
        methods.add_method("ranking", |lua, this, ()| ranking::ranking(lua, this));
        methods.add_method("draw", draw::banks::draw);
        methods.add_method("draw_lines", draw::banks::draw_lines);
        methods.add_method("draw_difference", draw::difference::draw_difference);
        members::only(methods, "a map", MEMBERS);
    }
}

fn rows(lua: &Lua, this: &Map, (): ()) -> mlua::Result<Table> {
    let count = this.picked.count();
    if count > MOST_ROWS {
        return Err(fault_here(
            lua,
            "rows",
            format!("there are {count} rows; `rows` gives at most {MOST_ROWS}"),
        )
        .with_hint("select fewer with `where`, or go through them one by one with `each`")
        .into());
    }
    let mut tables = Tables::default();
    let list = lua.create_table_with_capacity(count, 0)?;
    for (at, row) in this.rows() {
        list.raw_push(row_table(lua, this, &mut tables, at, row)?)?;
    }
    Ok(list)
}

/// `for row in map:each() do … end`.
fn each(lua: &Lua, this: &Map, (): ()) -> mlua::Result<mlua::Function> {
    let map = this.clone();
    let state = RefCell::new((map.picked.rows().into_iter(), Tables::default()));
    lua.create_function(move |lua, _: mlua::MultiValue| {
        let mut state = state.borrow_mut();
        let (rows, tables) = &mut *state;
        match rows.next().and_then(|at| map.record.rows.get(at).map(|row| (at, row))) {
            Some((at, row)) => row_table(lua, &map, tables, at, row).map(Value::Table),
            None => Ok(Value::Nil),
        }
    })
}

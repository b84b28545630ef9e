//! A band in a script's hands.

use super::band::EnsembleBand;
use super::shares::state;
use super::words::line_words;
use crate::scenario::draw;
use crate::scenario::frontier::lua_value;
use crate::scenario::left_out::{add_picture, add_selection};
use crate::scenario::members;
use crate::scenario::selection::narrowed;
use crate::scenario::session::fault_here;
use crate::telling::{capital, count};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::ask::BandLine;

const MEMBERS: &[&str] = &["where", "at", "count", "sentences", "draw"];
const LINE: &[&str] = &["sentence", "stretches", "edges"];
const STRETCH: &[&str] = &["state", "from", "to"];
const EDGE: &[&str] = &["share", "at", "from", "to", "falls"];

impl EnsembleBand {
    /// The selection in words, to begin a sentence with.
    pub fn subject(&self) -> String {
        let lines = count(self.lines().count() as u64, "line", "lines");
        if self.picked.said.is_empty() {
            format!("all {lines}")
        } else {
            format!("{} ({lines})", self.picked.said.join("; "))
        }
    }

    /// A line's sentence: `Contact 2: sure to 3.1 in, depends to 5.6 in, misses beyond.`
    pub fn sentence(&self, (digits, line): &(Vec<usize>, BandLine)) -> String {
        let label = self.say_line(digits);
        let words = line_words(line, self.measured());
        let whole = if label.is_empty() { words } else { format!("{label}: {words}") };
        capital(&whole) + "."
    }

    /// A sentence for each line.
    pub fn sentences(&self) -> Vec<String> {
        self.lines().map(|line| self.sentence(line)).collect()
    }
}

impl UserData for EnsembleBand {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "frontier over tables");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods
            .add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.sentences().join("\n")));
        methods.add_method("count", |_, this, ()| Ok(this.lines().count()));
        methods.add_method("sentences", |_, this, ()| Ok(this.sentences()));
        add_selection(methods, "where", |lua, this, argument: Value| {
            let picked = narrowed(lua, "where", &this.picked, &argument)?;
            Ok(Self { picked, ..this.clone() })
        });
        methods.add_method("at", at);
        add_picture(methods, "draw", draw::band::draw);
        members::only(methods, "a frontier over tables", MEMBERS);
    }
}

/// `band:at { contact = 2 }`: the one line there, with its stretches and edges.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn at(lua: &Lua, this: &EnsembleBand, argument: Value) -> mlua::Result<Table> {
    let picked = narrowed(lua, "at", &this.picked, &argument)?;
    let only = EnsembleBand { picked, ..this.clone() };
    let mut lines = only.lines();
    let (Some(line), None) = (lines.next(), lines.next()) else {
        let message = format!("this leaves {} lines; `at` needs one", only.lines().count());
        return Err(fault_here(lua, "at", message).into());
    };
    let measured = this.measured();
    let value = |si: f64| lua_value(&measured, lua, si);
    let stretches = lua.create_table()?;
    for stretch in line.1.stretches() {
        let table = lua.create_table()?;
        table.raw_set("state", state(stretch.agreement))?;
        table.raw_set("from", value(stretch.from)?)?;
        table.raw_set("to", value(stretch.to)?)?;
        stretches.raw_push(members::seal(lua, table, "a stretch", STRETCH)?)?;
    }
    let edges = lua.create_table()?;
    for crossing in &line.1.crossings {
        let table = lua.create_table()?;
        table.raw_set("share", crossing.level.share())?;
        table.raw_set("at", value(crossing.place)?)?;
        table.raw_set("from", value(crossing.range.0)?)?;
        table.raw_set("to", value(crossing.range.1)?)?;
        table.raw_set("falls", crossing.falls)?;
        edges.raw_push(members::seal(lua, table, "an edge", EDGE)?)?;
    }
    let table = lua.create_table()?;
    table.raw_set("sentence", this.sentence(line))?;
    table.raw_set("stretches", stretches)?;
    table.raw_set("edges", edges)?;
    members::seal(lua, table, "a line of a band", LINE)
}

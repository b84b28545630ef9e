//! `mine:rank(banks, { rules })`: rules in the order of their success on all the tables that yours could be.

use super::question::EnsembleQuestion;
use super::words::of_hundred;
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::place::Placed;
use crate::lua::quantity::Quantity;
use crate::scenario::members;
use crate::scenario::ranked_rules::{self, RankedRules, put_place};
use crate::scenario::session::{Session, here};
use crate::telling::{AskedUnits, capital};
use mlua::{Lua, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::ask::{CredibleInterval, EnsembleStanding, PairedDifference, rank_on_tables};
use std::rc::Rc;

const CALL: &str = "rank";

/// Rules ranked over many tables.
#[derive(Debug, Clone)]
pub struct EnsembleRanking {
    pub standings: Rc<Vec<EnsembleStanding>>,
    pub names: Rc<Vec<String>>,
    units: AskedUnits,
    banks: usize,
    tables: usize,
}

pub fn rank(
    lua: &Lua,
    known: &Rc<MeasuredTable>,
    arguments: &[Value],
) -> mlua::Result<EnsembleRanking> {
    let asked = EnsembleQuestion::read(lua, CALL, known, arguments)?;
    let complain = |message: String| Fault::bad_input(message).placed(here(lua, CALL));
    if asked.rules.len() < 2 {
        return Err(complain("there is only one rule here, so nothing is ranked".into())
            .with_hint(
                "write mine:rank(banks, { one_rule, another }), or ask mine:shares(banks, rule)",
            )
            .into());
    }
    let set_ups = asked.set_ups(lua, CALL, 1, true)?;
    let rules = asked.rules.len();
    let session = Session::of(lua)?;
    let standings = session
        .work(lua, known.ensemble.len(), |tick| {
            rank_on_tables(&known.table, known.model, &known.ensemble, (&set_ups, rules), tick)
        })?
        .map_err(|error| complain(error.to_string()))?;
    Ok(EnsembleRanking {
        standings: Rc::new(standings),
        names: Rc::new(asked.rules.iter().map(|rule| rule.named.name.clone()).collect()),
        units: session.units(),
        banks: set_ups.len() / rules,
        tables: known.ensemble.len(),
    })
}

const ROW: &[&str] = &["rule", "share", "error", "behind", "behind_error", "tied", "rms"];
const RMS: &[&str] = &["middle", "from", "to"];

impl EnsembleRanking {
    fn name(&self, standing: &EnsembleStanding) -> &str {
        self.names.get(standing.rule).map_or("", String::as_str)
    }
}

impl RankedRules for EnsembleRanking {
    fn subject(&self) -> String {
        format!("{} banks on {} tables", self.banks, self.tables)
    }

    fn sentence(&self) -> String {
        let told: Vec<String> = self
            .standings
            .iter()
            .enumerate()
            .map(|(place, standing)| {
                let rms = standing.rms_miss_m.map_or_else(String::new, |rms_m| {
                    format!(
                        ", rms miss {} (nine times in ten {} to {})",
                        self.units.tenth(rms_m.middle),
                        self.units.tenth(rms_m.ninety.0),
                        self.units.tenth(rms_m.ninety.1)
                    )
                });
                let behind = standing.behind;
                let apart = format!(
                    "{:.1} ±{:.1} of a hundred behind",
                    100.0 * behind.difference,
                    200.0 * behind.error
                );
                let order = match place {
                    0 => String::new(),
                    _ if behind.is_tie() => format!("; tied with the first ({apart})"),
                    _ => format!("; {apart} the first"),
                };
                let holds = of_hundred(standing.holds);
                format!("{}: {holds} of a hundred hold{rms}{order}", self.name(standing))
            })
            .collect();
        capital(&told.join(". ")) + "."
    }

    fn order(&self) -> Vec<(&str, PairedDifference)> {
        self.standings.iter().map(|it| (self.name(it), it.behind)).collect()
    }

    fn row(&self, lua: &Lua, place: usize) -> mlua::Result<Table> {
        row(lua, self, &self.standings[place])
    }
}

impl UserData for EnsembleRanking {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "ranking over tables");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        ranked_rules::add_words(methods);
        members::only(methods, "a ranking over tables", ranked_rules::MEMBERS);
    }
}

fn row(lua: &Lua, this: &EnsembleRanking, standing: &EnsembleStanding) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    put_place(&table, this.name(standing), standing.behind)?;
    table.raw_set("share", standing.holds.share)?;
    table.raw_set("error", standing.holds.error)?;
    if let Some(rms_m) = standing.rms_miss_m {
        table.raw_set("rms", lengths(lua, this.units, rms_m)?)?;
    }
    members::seal(lua, table, "a rule's standing", ROW)
}

fn lengths(lua: &Lua, units: AskedUnits, interval_m: CredibleInterval) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    let ends = [interval_m.middle, interval_m.ninety.0, interval_m.ninety.1];
    for (name, metres) in RMS.iter().zip(ends) {
        let (amount, unit) = units.amount(metres);
        table.raw_set(*name, Quantity::new(amount, unit)?)?;
    }
    members::seal(lua, table, "an interval", RMS)
}

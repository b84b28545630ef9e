//! `me:chances(banks, rule…)` and `mine:chances(me, banks, rule…)`: how often a player makes each bank.
//!
//! The ball's place is kept: `contact` is its own number along the rail, and every rule sends it along its own line
//! through there.

use super::asked::{AskedTable, found, groups};
use super::edges::{ChanceEdges, KnownChances};
use super::ranking::ChanceRanking;
use super::rows;
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::place::{self, Placed};
use crate::player::PlayerProfile;
use crate::scenario::compare::{banks_argument, rules, rules_fit};
use crate::scenario::draw;
use crate::scenario::ensemble::question::EnsembleQuestion;
use crate::scenario::grid::Banks;
use crate::scenario::left_out::{add_picture, add_selection};
use crate::scenario::members;
use crate::scenario::point_selection::PointSelection;
use crate::scenario::rule_object::ScriptRule;
use crate::scenario::selection::narrowed;
use crate::scenario::session::{Session, fault_here, here};
use crate::telling::caution::Cautions;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::chance::Chance;
use std::rc::Rc;

const CALL: &str = "chances";
/// The most banks times tables.
const MOST_CURVES: usize = 200_000;

/// How often a player makes each bank of a sweep by each rule, or some of them.
#[derive(Debug, Clone)]
pub struct Chances {
    pub player: Rc<PlayerProfile>,
    pub known: Option<Rc<MeasuredTable>>,
    /// By point, then rule; `None` where the rule has no line through the ball.
    found: Rc<Vec<Option<Chance>>>,
    rules: Rc<Vec<Rc<ScriptRule>>>,
    /// The windows and targets behind them, for rankings.
    pub asked: Rc<Vec<AskedTable>>,
    pub picked: PointSelection,
}

pub fn chances(
    lua: &Lua,
    player: &Rc<PlayerProfile>,
    known: Option<&Rc<MeasuredTable>>,
    arguments: &[Value],
) -> mlua::Result<Chances> {
    let (banks, rules) = match known {
        Some(known) => {
            let asked = EnsembleQuestion::read(lua, CALL, known, arguments)?;
            (asked.banks, asked.rules)
        }
        None => read(lua, arguments)?,
    };
    let plan = &banks.0.plan;
    let complain = |message: String| Fault::bad_input(message).placed(here(lua, CALL));
    let ways = rules.len().max(1);
    let points = plan.checked_len(ways).map_err(|error| complain(error.to_string()))?;
    let tables = known.map_or(1, |known| known.ensemble.len());
    if points.saturating_mul(tables) > MOST_CURVES {
        let most = MOST_CURVES / tables;
        return Err(complain(format!("{points} banks on {tables} tables are too many"))
            .with_hint(format!("take coarser steps: at most {most} banks"))
            .into());
    }
    let groups = groups(plan, &banks.0.texts, points).map_err(&complain)?;
    let session = Session::of(lua)?;
    session.advise(&Cautions::of_part(plan, |_, _| true));
    let asked: Vec<AskedTable> = session
        .work(lua, groups.iter().map(|group| group.ticks(tables)).sum(), |tick| {
            groups
                .iter()
                .map(|group| group.ask(plan, player, known, &rules, tick))
                .collect::<Result<_, Fault>>()
        })?
        .map_err(|fault| fault.placed(place::argument(lua, CALL, 1)))?;
    let found = found(&asked, (points, ways), &player.skill);
    let names = rules.iter().map(|rule| rule.named.clone()).collect();
    let chances = Chances {
        player: Rc::clone(player),
        known: known.map(Rc::clone),
        found: Rc::new(found),
        rules: Rc::new(rules),
        asked: Rc::new(asked),
        picked: PointSelection::all(&banks.0, names),
    };
    let name = match &banks.0.name {
        Some(name) => session.fresh_name(&format!("{name}-chance-rows")),
        None => session.fresh_name("chance-rows"),
    };
    let table = rows::table(&chances.picked, |row| chances.of_row(row), name);
    session.add_answer_table(table);
    Ok(chances)
}

fn read(lua: &Lua, arguments: &[Value]) -> Result<(Banks, Vec<Rc<ScriptRule>>), Fault> {
    let banks = banks_argument(lua, CALL, arguments.first())?;
    let rules = rules(lua, CALL, arguments.get(1..).unwrap_or_default())?;
    rules_fit(lua, CALL, &banks.0.plan, rules.len())?;
    Ok((banks, rules))
}

const MEMBERS: &[&str] = &[
    "where",
    "at",
    "count",
    "rows",
    "least",
    "most",
    "mean",
    "rank",
    "edges",
    "draw",
    "draw_lines",
];
/// Of a ball that a rule has no line for.
const NEVER: Chance = Chance { chance: 0.0, error: 0.0 };
const CHANCE: &[&str] = &["chance", "error"];

impl Chances {
    /// The kept chances, in order.
    pub fn kept(&self) -> impl Iterator<Item = (usize, Chance)> {
        let rows = self.picked.rows().into_iter();
        rows.map(|row| (row, self.of_row(row).unwrap_or(NEVER)))
    }

    /// The chance of a row; `None` where its rule has no line through the ball.
    pub fn of_row(&self, row: usize) -> Option<Chance> {
        self.found.get(row).copied().flatten()
    }

    /// How many of the kept balls no start leads into the pocket, and why not the first of them.
    pub fn never(&self) -> Option<(usize, String)> {
        let points = self.picked.points();
        let why = self.asked.iter().flat_map(|table| table.points.iter().zip(&table.why_never));
        let mut why: Vec<(usize, &String)> = why
            .filter_map(|(point, why)| Some((*point, why.as_ref()?)))
            .filter(|(point, _)| points.contains(point))
            .collect();
        why.sort_unstable();
        let (point, first) = why.first()?;
        let ways = self.picked.rules.len().max(1);
        Some((why.len(), format!("{}: {first}", self.picked.say_row(point * ways))))
    }

    fn number(&self, of: fn(f64, f64) -> f64) -> Option<f64> {
        self.kept().map(|(_, it)| it.chance).reduce(of)
    }
}

impl UserData for Chances {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "list of chances");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("the chances of {} of {}", this.player.name, this.picked.subject()))
        });
        methods.add_method("count", |_, this, ()| Ok(this.picked.count() as f64));
        add_selection(methods, "where", |lua, this, argument: Value| {
            let picked = narrowed(lua, "where", &this.picked, &argument)?;
            Ok(Self { picked, ..this.clone() })
        });
        methods.add_method("at", at);
        methods.add_method("rows", |lua, this, ()| {
            rows::rows(lua, &this.picked, |row| this.of_row(row))
        });
        methods.add_method("least", |_, this, ()| Ok(this.number(f64::min)));
        methods.add_method("most", |_, this, ()| Ok(this.number(f64::max)));
        methods.add_method("mean", |_, this, ()| {
            Ok(this.number(|sum, it| sum + it).map(|sum| sum / this.picked.count() as f64))
        });
        methods.add_method("rank", |lua, this, ()| {
            ChanceRanking::of(lua, &this.asked, &this.picked, &this.player)
        });
        methods.add_method("edges", |lua, this, argument: Value| {
            let chances = KnownChances {
                player: &this.player,
                known: this.known.as_ref(),
                rules: &this.rules,
                of_row: &|row| this.of_row(row),
                picked: &this.picked,
            };
            ChanceEdges::of(lua, &chances, &argument)
        });
        add_picture(methods, "draw", draw::chances::draw);
        add_picture(methods, "draw_lines", draw::chances::draw_lines);
        members::only(methods, "a list of chances", MEMBERS);
    }
}

/// `chances:at { contact = 2 }`: the one chance there.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn at(lua: &Lua, this: &Chances, argument: Value) -> mlua::Result<Table> {
    let picked = narrowed(lua, "at", &this.picked, &argument)?;
    let only = Chances { picked, ..this.clone() };
    let mut kept = only.kept();
    let (Some((_, chance)), None) = (kept.next(), kept.next()) else {
        let message = format!("this leaves {} banks; `at` needs one", only.picked.count());
        return Err(fault_here(lua, "at", message).into());
    };
    let table = lua.create_table()?;
    table.raw_set("chance", chance.chance)?;
    table.raw_set("error", chance.error)?;
    members::seal(lua, table, "a chance", CHANCE)
}

//! `me:chances(banks, rule…)` and `mine:chances(me, banks, rule…)`: how often a player makes each bank.
//!
//! The ball's place is kept: `contact` is its own number along the rail, and every rule sends it along its own line
//! through there.

use super::player::OnePlayer;
use super::ranking::ChanceRanking;
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::options::Kind;
use crate::lua::place::{self, Placed};
use crate::player::PlayerProfile;
use crate::scenario::compare::{banks_argument, rules, rules_fit};
use crate::scenario::draw;
use crate::scenario::ensemble::question::{EnsembleQuestion, set_up};
use crate::scenario::grid::Banks;
use crate::scenario::left_out::{add_picture, add_selection};
use crate::scenario::members;
use crate::scenario::point_selection::PointSelection;
use crate::scenario::rule_object::ScriptRule;
use crate::scenario::selection::narrowed;
use crate::scenario::session::{Session, fault_here, here};
use crate::telling::caution::Cautions;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::chance::{
    Chance, Condition, HoldWindows, PossibleTables, SpreadNodes, Target,
};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::sweep::{Input, Plan};
use std::rc::Rc;

const CALL: &str = "chances";
/// The most banks times tables.
const MOST_CURVES: usize = 200_000;

/// How often a player makes each bank of a sweep by each rule, or some of them.
#[derive(Debug, Clone)]
pub struct Chances {
    pub player: Rc<PlayerProfile>,
    pub known: Option<Rc<MeasuredTable>>,
    /// By point, then rule.
    pub found: Rc<Vec<Chance>>,
    /// The windows and targets behind them, for rankings.
    pub asked: Rc<Vec<AskedTable>>,
    pub picked: PointSelection,
}

/// The points of a sweep on one table, or on all that it could be.
#[derive(Debug)]
pub struct AskedTable {
    /// Which points, in order.
    pub points: Vec<usize>,
    pub windows: HoldWindows,
    /// By rule, then point.
    pub targets: Vec<Vec<Option<Target>>>,
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
    let groups = groups(plan, points).map_err(&complain)?;
    let session = Session::of(lua)?;
    session.advise(&Cautions::of_part(plan, |_, _| true));
    let asked: Vec<AskedTable> = session
        .work(lua, groups.len(), |tick| {
            groups
                .iter()
                .map(|group| {
                    tick();
                    group.ask(plan, player, known, &rules)
                })
                .collect::<Result<_, String>>()
        })?
        .map_err(|message| Fault::bad_input(message).placed(place::argument(lua, CALL, 1)))?;
    let mut found = vec![Chance { chance: 0.0, error: 0.0 }; points * ways];
    for table in &asked {
        for (way, targets) in table.targets.iter().enumerate() {
            for (at, (point, target)) in table.points.iter().zip(targets).enumerate() {
                if let Some(target) = target {
                    found[point * ways + way] = table.windows.chance(at, *target, &player.skill);
                }
            }
        }
    }
    let names = rules.iter().map(|rule| rule.named.name.clone()).collect();
    Ok(Chances {
        player: Rc::clone(player),
        known: known.map(Rc::clone),
        found: Rc::new(found),
        asked: Rc::new(asked),
        picked: PointSelection::all(&banks.0, names),
    })
}

/// `mine:chances(me, banks, rule…)`: over all the tables that yours could be.
pub fn chances_on_tables(
    lua: &Lua,
    known: &Rc<MeasuredTable>,
    arguments: &[Value],
) -> mlua::Result<Chances> {
    let player = OnePlayer.read(arguments.first().unwrap_or(&Value::Nil)).map_err(|mismatch| {
        let fault = Fault::bad_input(format!("what {CALL} takes first {}", mismatch.message));
        let hint = "write mine:chances(player \"club\", banks, rule)".to_owned();
        fault.with_hint(mismatch.hint.unwrap_or(hint)).placed(place::argument(lua, CALL, 1))
    })?;
    chances(lua, &player.0, Some(known), arguments.get(1..).unwrap_or_default())
}

fn read(lua: &Lua, arguments: &[Value]) -> Result<(Banks, Vec<Rc<ScriptRule>>), Fault> {
    let banks = banks_argument(lua, CALL, arguments.first())?;
    let rules = rules(lua, CALL, arguments.get(1..).unwrap_or_default())?;
    rules_fit(lua, CALL, &banks.0.plan, rules.len())?;
    Ok((banks, rules))
}

/// Points that share a table.
struct Group {
    equipment: Equipment,
    model: RailModel,
    points: Vec<(usize, Condition)>,
}

fn groups(plan: &Plan, points: usize) -> Result<Vec<Group>, String> {
    let mut groups: Vec<Group> = Vec::new();
    for point in 0..points {
        let digits = plan.digits(point);
        let bank = plan.bank(&digits).map_err(|error| error.to_string())?;
        if bank.model() == RailModel::Compliant {
            return Err("a stepped rail model is too slow for chances".to_owned());
        }
        let asked = set_up(plan, &digits, None, (None, false))?;
        let condition = Condition {
            rail: asked.rail,
            pocket: asked.pocket,
            number: plan.number(Input::Contact, &digits).unwrap_or_default(),
            off_rail_m: asked.off_rail_m,
            speed: asked.speed,
            roll: asked.roll,
            side: asked.side,
        };
        let own = |group: &&mut Group| {
            group.model == bank.model() && group.equipment == *bank.equipment()
        };
        match groups.iter_mut().find(own) {
            Some(group) => group.points.push((point, condition)),
            None => groups.push(Group {
                equipment: bank.equipment().clone(),
                model: bank.model(),
                points: vec![(point, condition)],
            }),
        }
    }
    Ok(groups)
}

impl Group {
    fn ask(
        &self,
        plan: &Plan,
        player: &PlayerProfile,
        known: Option<&Rc<MeasuredTable>>,
        rules: &[Rc<ScriptRule>],
    ) -> Result<AskedTable, String> {
        let tables = match known {
            Some(known) => PossibleTables::of(&known.table, &known.ensemble),
            None => PossibleTables::one(self.equipment.clone()),
        };
        let skill = &player.skill;
        let nodes = SpreadNodes::of(skill, SpreadNodes::USUAL);
        let conditions: Vec<Condition> = self.points.iter().map(|(_, it)| *it).collect();
        let windows = HoldWindows::find(&tables, self.model, nodes, &conditions)
            .map_err(|error| error.to_string())?;
        let of_rule = |rule: &Rc<ScriptRule>| {
            let target = |(at, condition): (usize, &Condition)| {
                Target::by_rule(&rule.named.rule, condition, skill, windows.geometry(at)).ok()
            };
            conditions.iter().enumerate().map(target).collect::<Vec<_>>()
        };
        let mut targets: Vec<Vec<Option<Target>>> = rules.iter().map(of_rule).collect();
        if rules.is_empty() {
            let start = |(at, (point, _)): (usize, &(usize, Condition))| {
                let start = plan.number(Input::Start, &plan.digits(*point))?;
                Some(Target::at_start(start, skill, windows.geometry(at)))
            };
            targets.push(self.points.iter().enumerate().map(start).collect());
        }
        let points = self.points.iter().map(|(point, _)| *point).collect();
        Ok(AskedTable { points, windows, targets })
    }
}

const MEMBERS: &[&str] =
    &["where", "at", "count", "least", "most", "mean", "rank", "draw", "draw_lines"];
const CHANCE: &[&str] = &["chance", "error"];

impl Chances {
    /// The kept chances, in order.
    pub fn kept(&self) -> impl Iterator<Item = (usize, Chance)> {
        let rows = self.picked.rows().into_iter();
        rows.filter_map(|row| self.found.get(row).map(|chance| (row, *chance)))
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
        methods.add_method("least", |_, this, ()| Ok(this.number(f64::min)));
        methods.add_method("most", |_, this, ()| Ok(this.number(f64::max)));
        methods.add_method("mean", |_, this, ()| {
            Ok(this.number(|sum, it| sum + it).map(|sum| sum / this.picked.count() as f64))
        });
        methods.add_method("rank", |lua, this, ()| ChanceRanking::of(lua, this));
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

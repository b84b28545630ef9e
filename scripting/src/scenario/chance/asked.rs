//! The points of a sweep as balls for a player, table by table.

use crate::fitting::MeasuredTable;
use crate::player::PlayerProfile;
use crate::scenario::ensemble::question::set_up;
use crate::scenario::rule_object::ScriptRule;
use railproof_engine::chance::{
    AimedStart, Chance, Condition, HoldWindows, PossibleTables, Skill, SpreadNodes,
};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::sweep::{Input, Plan};
use std::rc::Rc;

/// The points of a sweep on one table, or on all that it could be.
#[derive(Debug)]
pub struct AskedTable {
    /// Which points, in order.
    pub points: Vec<usize>,
    pub windows: HoldWindows,
    /// By rule, then point.
    pub targets: Vec<Vec<Option<AimedStart>>>,
}

/// The chances by point, then way; `None` where a rule has no line through the ball.
pub fn found(
    asked: &[AskedTable],
    (points, ways): (usize, usize),
    skill: &Skill,
) -> Vec<Option<Chance>> {
    let mut found = vec![None; points * ways];
    for table in asked {
        for (way, targets) in table.targets.iter().enumerate() {
            for (at, (point, target)) in table.points.iter().zip(targets).enumerate() {
                let chance = |target| table.windows.chance(at, target, skill);
                found[point * ways + way] = target.map(chance);
            }
        }
    }
    found
}

/// Points that share a table.
pub struct TableGroup {
    equipment: Equipment,
    model: RailModel,
    points: Vec<(usize, Condition)>,
}

pub fn groups(plan: &Plan, points: usize) -> Result<Vec<TableGroup>, String> {
    let mut groups: Vec<TableGroup> = Vec::new();
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
        let own = |group: &&mut TableGroup| {
            group.model == bank.model() && group.equipment == *bank.equipment()
        };
        match groups.iter_mut().find(own) {
            Some(group) => group.points.push((point, condition)),
            None => groups.push(TableGroup {
                equipment: bank.equipment().clone(),
                model: bank.model(),
                points: vec![(point, condition)],
            }),
        }
    }
    Ok(groups)
}

impl TableGroup {
    /// Looks for the windows, and aims by every rule.
    pub fn ask(
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
        let nodes = SpreadNodes::on_tables(skill, tables.len());
        let conditions: Vec<Condition> = self.points.iter().map(|(_, it)| *it).collect();
        let windows = HoldWindows::find(&tables, self.model, nodes, &conditions)
            .map_err(|error| error.to_string())?;
        let of_rule = |rule: &Rc<ScriptRule>| {
            let target = |(at, condition): (usize, &Condition)| {
                AimedStart::by_rule(&rule.named.rule, condition, skill, windows.geometry(at)).ok()
            };
            conditions.iter().enumerate().map(target).collect::<Vec<_>>()
        };
        let mut targets: Vec<Vec<Option<AimedStart>>> = rules.iter().map(of_rule).collect();
        if rules.is_empty() {
            let start = |(at, (point, condition)): (usize, &(usize, Condition))| {
                let start = plan.number(Input::Start, &plan.digits(*point))?;
                Some(AimedStart::at_start(start, condition, skill, windows.geometry(at)))
            };
            targets.push(self.points.iter().enumerate().map(start).collect());
        }
        let points = self.points.iter().map(|(point, _)| *point).collect();
        Ok(AskedTable { points, windows, targets })
    }
}

//! The points of a sweep as balls for a player, table by table.

use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::player::PlayerProfile;
use crate::scenario::ensemble::question::set_up;
use crate::scenario::rule_answers::failed;
use crate::scenario::rule_object::ScriptRule;
use crate::telling::AxisText;
use railproof_engine::bank::{Bank, exact_start};
use railproof_engine::chance::{
    AimedStart, Chance, Condition, HoldWindows, PossibleTables, Skill, SpreadNodes,
};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::rule::RuleError;
use railproof_engine::sweep::{Input, Plan};
use rayon::prelude::*;
use std::rc::Rc;

/// The points of a sweep on one table, or on all that it could be.
#[derive(Debug)]
pub struct AskedTable {
    /// Which points, in order.
    pub points: Vec<usize>,
    pub windows: HoldWindows,
    /// By rule, then point.
    pub targets: Vec<Vec<Option<AimedStart>>>,
    /// By point, why no start leads into the pocket, where none does as it is meant.
    pub why_never: Vec<Option<String>>,
}

/// The chances by point, then way; `None` where a rule has no line through the ball.
pub fn found(
    asked: &[AskedTable],
    (points, ways): (usize, usize),
    skill: &Skill,
) -> Vec<Option<Chance>> {
    let mut found = vec![None; points * ways];
    for table in asked {
        let told: Vec<Vec<Option<Chance>>> = (0..table.points.len())
            .into_par_iter()
            .map(|at| {
                let targets: Vec<_> = table.targets.iter().map(|targets| targets[at]).collect();
                table.windows.told_of_each(at, &targets, skill)
            })
            .collect();
        for (point, told) in table.points.iter().zip(told) {
            found[point * ways..][..told.len()].copy_from_slice(&told);
        }
    }
    found
}

/// Points that share a table.
pub struct TableGroup {
    equipment: Equipment,
    model: RailModel,
    points: Vec<AskedPoint>,
}

/// A point of a sweep: its place, its ball, and how far the aim is always off, rad.
#[derive(Debug, Clone, Copy)]
struct AskedPoint {
    place: usize,
    ball: Condition,
    aim_error_rad: f64,
}

/// The points of a plan in groups that share a table; `texts` tell which speeds are words.
///
/// # Errors
/// A message where there is no such bank.
pub fn groups(plan: &Plan, texts: &[AxisText], points: usize) -> Result<Vec<TableGroup>, String> {
    let mut groups: Vec<TableGroup> = Vec::new();
    for point in 0..points {
        let digits = plan.digits(point);
        let bank = plan.bank(&digits).map_err(|error| error.to_string())?;
        if bank.model() == RailModel::Compliant {
            return Err("a stepped rail model is too slow for chances".to_owned());
        }
        let asked = set_up((plan, texts), &digits, None, (None, false))?;
        let ball = Condition {
            rail: asked.rail,
            pocket: asked.pocket,
            number: plan.number(Input::Contact, &digits).unwrap_or_default(),
            off_rail_m: asked.off_rail_m,
            speed: asked.speed,
            roll: asked.roll,
            side: asked.side,
        };
        let asked = AskedPoint { place: point, ball, aim_error_rad: asked.aim_error_rad };
        let own = |group: &&mut TableGroup| {
            group.model == bank.model() && group.equipment == *bank.equipment()
        };
        match groups.iter_mut().find(own) {
            Some(group) => group.points.push(asked),
            None => groups.push(TableGroup {
                equipment: bank.equipment().clone(),
                model: bank.model(),
                points: vec![asked],
            }),
        }
    }
    Ok(groups)
}

impl TableGroup {
    /// How often [`TableGroup::ask`] ticks on so many tables.
    pub fn ticks(&self, tables: usize) -> usize {
        HoldWindows::ticks(tables, self.points.len())
    }

    /// Looks for the windows, and aims by every rule.
    ///
    /// # Errors
    /// A [`Fault`] for balls that make no bank, or a rule whose function fails; that has its place.
    pub fn ask(
        &self,
        plan: &Plan,
        player: &PlayerProfile,
        known: Option<&Rc<MeasuredTable>>,
        rules: &[Rc<ScriptRule>],
        tick: &(dyn Fn() + Sync),
    ) -> Result<AskedTable, Fault> {
        let tables = match known {
            Some(known) => PossibleTables::of(&known.table, &known.ensemble),
            None => PossibleTables::one(self.equipment.clone()),
        };
        let skill = &player.skill;
        let nodes = SpreadNodes::on_tables(skill, tables.len());
        let conditions: Vec<Condition> = self.points.iter().map(|it| it.ball).collect();
        let windows = HoldWindows::find_with(&tables, self.model, nodes, &conditions, tick)
            .map_err(|error| Fault::bad_input(error.to_string()))?;
        let turned = |at: usize, target: AimedStart| {
            target.turned(&windows.places(at), self.points[at].aim_error_rad)
        };
        let of_rule = |rule: &Rc<ScriptRule>| {
            let target = |(at, condition): (usize, &Condition)| {
                let geometry = windows.geometry(at);
                let found = AimedStart::by_rule(&rule.named.rule, condition, skill, geometry);
                let found = RuleError::line_or_none(found).map_err(|error| failed(rule, &error))?;
                Ok(found.map(|target| turned(at, target)))
            };
            conditions.iter().enumerate().map(target).collect::<Result<Vec<_>, Fault>>()
        };
        let mut targets: Vec<Vec<Option<AimedStart>>> =
            rules.iter().map(of_rule).collect::<Result<_, _>>()?;
        if rules.is_empty() {
            let start = |(at, point): (usize, &AskedPoint)| {
                let start = plan.number(Input::Start, &plan.digits(point.place))?;
                let geometry = windows.geometry(at);
                Some(turned(at, AimedStart::at_start(start, &point.ball, skill, geometry)))
            };
            targets.push(self.points.iter().enumerate().map(start).collect());
        }
        let points = self.points.iter().map(|it| it.place).collect();
        let why_never = self.points.iter().enumerate().map(|(at, point)| {
            let never = windows.middle(at).is_nan();
            never.then(|| self.why_never(&point.ball)).flatten()
        });
        let why_never = why_never.collect();
        Ok(AskedTable { points, windows, targets, why_never })
    }

    /// Why no start leads a ball into the pocket, by the nearest to it.
    fn why_never(&self, ball: &Condition) -> Option<String> {
        let bank = Bank::new(&self.equipment, ball.rail, ball.pocket, self.model).ok()?;
        let launch = ball.launch(&self.equipment);
        exact_start(&bank, ball.number, launch).err().map(|why| why.to_string())
    }
}

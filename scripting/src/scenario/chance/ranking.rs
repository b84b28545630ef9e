//! `chances:rank()`: rules in the order of the balls that a player makes with them.

use super::asked::AskedTable;
use crate::fault::Fault;
use crate::lua::place::Placed;
use crate::player::PlayerProfile;
use crate::scenario::members;
use crate::scenario::point_selection::PointSelection;
use crate::scenario::ranked_rules::{self, RankedRules, put_place};
use crate::scenario::session::here;
use crate::telling::{behind_words, chance_words, count};
use mlua::{Lua, Table, UserData, UserDataFields, UserDataMethods};
use railproof_engine::ask::PairedDifference;
use railproof_engine::chance::{AimedStart, ChanceStanding, Condition, rank_by_chance};
use std::rc::Rc;

const CALL: &str = "rank";

/// Rules ranked by chance.
#[derive(Debug, Clone)]
pub struct ChanceRanking {
    pub standings: Rc<Vec<ChanceStanding>>,
    pub names: Rc<Vec<String>>,
    balls: Rc<Vec<Condition>>,
    player: String,
    banks: usize,
    tables: usize,
}

const ROW: &[&str] = &[
    "rule",
    "chance",
    "error",
    "behind",
    "behind_error",
    "tied",
    "best_on",
    "bias",
    "bias_by_number",
    "rms",
    "worst",
];

const BIAS: &[&str] = &["contact", "bias"];

impl ChanceRanking {
    /// Of the kept banks of one table, by the kept rules.
    pub fn of(
        lua: &Lua,
        asked: &[AskedTable],
        picked: &PointSelection,
        player: &PlayerProfile,
    ) -> mlua::Result<Self> {
        let complain = |message: &str| Fault::bad_input(message).placed(here(lua, CALL));
        let [asked] = asked else {
            return Err(complain("these banks are on several tables; a ranking needs one")
                .with_hint("give the grid one equipment, or ask each table in turn")
                .into());
        };
        if picked.kept_rules.len() < 2 {
            return Err(complain("there is only one rule here, so nothing is ranked")
                .with_hint("write me:chances(banks, one_rule, another):rank()")
                .into());
        }
        let points = picked.points();
        let kept: Vec<usize> =
            (0..asked.points.len()).filter(|at| points.contains(&asked.points[*at])).collect();
        let windows = asked.windows.of_conditions(&kept);
        let targets: Vec<Vec<Option<AimedStart>>> = picked
            .kept_rules
            .iter()
            .map(|&rule| kept.iter().map(|&at| asked.targets[rule][at]).collect())
            .collect();
        let standings = rank_by_chance(&windows, &player.skill, &targets);
        let names = picked.kept_rules.iter().map(|&rule| picked.rules[rule].name.clone()).collect();
        Ok(Self {
            standings: Rc::new(standings),
            balls: Rc::new(windows.conditions().to_vec()),
            names: Rc::new(names),
            player: player.name.clone(),
            banks: kept.len(),
            tables: asked.windows.weights().len(),
        })
    }

    fn name(&self, standing: &ChanceStanding) -> &str {
        self.names.get(standing.rule).map_or("", String::as_str)
    }
}

impl RankedRules for ChanceRanking {
    fn subject(&self) -> String {
        format!("{} on {}", self.player, count(self.banks as u64, "bank", "banks"))
    }

    fn sentence(&self) -> String {
        let told: Vec<String> = self
            .standings
            .iter()
            .enumerate()
            .map(|(place, standing)| {
                let apart = behind_words(standing.behind);
                let order = match place {
                    0 => String::new(),
                    _ if standing.behind.is_tie() => {
                        format!("; tied with the first ({apart} behind)")
                    }
                    _ => format!("; {apart} behind the first"),
                };
                let best_on = match self.tables {
                    1 => String::new(),
                    _ => format!("; the best on {:.0} % of the tables", 100.0 * standing.best_on),
                };
                format!(
                    "{}: {} of a hundred{}{order}{best_on}",
                    self.name(standing),
                    chance_words(standing.chance),
                    range_words(standing)
                )
            })
            .collect();
        told.join(". ") + "."
    }

    fn order(&self) -> Vec<(&str, PairedDifference)> {
        self.standings.iter().map(|it| (self.name(it), it.behind)).collect()
    }

    fn row(&self, lua: &Lua, place: usize) -> mlua::Result<Table> {
        row(lua, self, &self.standings[place])
    }
}

/// How much the banks differ: the mean's error says nothing of that.
fn range_words(standing: &ChanceStanding) -> String {
    let chances = || standing.conditions.iter().map(|it| 100.0 * it.chance);
    let (least, most) = (chances().fold(f64::INFINITY, f64::min), chances().fold(0.0, f64::max));
    if standing.conditions.len() < 2 {
        return String::new();
    }
    format!(" (bank by bank {least:.0} to {most:.0})")
}

impl UserData for ChanceRanking {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "ranking by chance");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        ranked_rules::add_words(methods);
        members::only(methods, "a ranking by chance", ranked_rules::MEMBERS);
    }
}

fn row(lua: &Lua, this: &ChanceRanking, standing: &ChanceStanding) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    put_place(&table, this.name(standing), standing.behind)?;
    table.raw_set("chance", standing.chance.chance)?;
    table.raw_set("error", standing.chance.error)?;
    table.raw_set("best_on", standing.best_on)?;
    let number = |value: f64| Some(value).filter(|value| value.is_finite());
    table.raw_set("bias", number(standing.bias()))?;
    let by_number = lua.create_table()?;
    for (contact, bias) in standing.bias_by_number(&this.balls) {
        let row = lua.create_table()?;
        row.raw_set("contact", contact)?;
        row.raw_set("bias", number(bias))?;
        by_number.raw_push(members::seal(lua, row, "a bias", BIAS)?)?;
    }
    table.raw_set("bias_by_number", by_number)?;
    table.raw_set("rms", number(standing.rms_off()))?;
    let worst = standing.worst().map(|at| standing.conditions[at].chance);
    table.raw_set("worst", worst)?;
    members::seal(lua, table, "a rule's standing", ROW)
}

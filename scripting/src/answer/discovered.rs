//! Rules that a search has found, for other programs.

use super::AnswerTable;
use crate::discovering::{CommonRule, DiscoverQuestion, Discovered};
use crate::telling::caution::Cautions;
use railproof_engine::ask::PairedDifference;
use railproof_engine::chance::Chance;
use railproof_engine::discover::{Corrections, FrontRule};
use serde::Serialize;

/// What was found.
#[derive(Debug, Clone, Serialize)]
pub struct DiscoveredAnswer {
    /// Who plays.
    pub player: String,
    /// On which table.
    pub table: String,
    /// The rail that is banked off.
    pub rail: &'static str,
    /// The target.
    pub pocket: &'static str,
    /// The rail model.
    pub rail_model: &'static str,
    /// The balls lie from this number along the rail.
    pub balls_from_diamonds: f64,
    /// Up to this one.
    pub balls_to_diamonds: f64,
    /// The most hands off it.
    pub most_hands: u8,
    /// Whether half of the balls roll.
    pub rolling: bool,
    /// Rules tried.
    pub rules_tried: u64,
    /// Balls of which chances are told.
    pub told_balls: usize,
    /// On how many tables.
    pub told_tables: usize,
    /// The chance that no rule of these slopes can beat.
    pub best_possible: f64,
    /// The place in `front` of the simplest rule that is as good as any.
    pub named: usize,
    /// Rules of growing effort.
    pub front: Vec<FrontRuleAnswer>,
    /// Rules in common use on the same balls.
    pub common: Vec<CommonRuleAnswer>,
    /// The cautions of the answer.
    pub cautions: Cautions,
}

/// A rule of the front.
#[derive(Debug, Clone, Serialize)]
pub struct FrontRuleAnswer {
    pub words: String,
    pub reading: &'static str,
    pub slope: f64,
    pub offset_diamonds: f64,
    /// The contact past which it has another slope, and that slope.
    pub bend_contact: Option<f64>,
    pub bend_slope: Option<f64>,
    /// What is added, in diamonds: for each hand off the rail, soft, firm, rolling.
    pub per_hand_diamonds: f64,
    pub soft_diamonds: f64,
    pub firm_diamonds: f64,
    pub rolling_diamonds: f64,
    pub operations: u8,
    pub numbers: u8,
    pub chance: ChanceAnswer,
    /// How much more the last rule of the front makes.
    pub behind: ChanceAnswer,
    pub tied_with_the_best: bool,
}

/// A rule in common use.
#[derive(Debug, Clone, Serialize)]
pub struct CommonRuleAnswer {
    pub name: String,
    pub chance: ChanceAnswer,
    /// How much more the named rule makes.
    pub behind: ChanceAnswer,
}

/// A share and its standard error.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct ChanceAnswer {
    pub share: f64,
    pub error: f64,
}

impl From<Chance> for ChanceAnswer {
    fn from(chance: Chance) -> Self {
        Self { share: chance.chance, error: chance.error }
    }
}

impl From<PairedDifference> for ChanceAnswer {
    fn from(behind: PairedDifference) -> Self {
        Self { share: behind.difference, error: behind.error }
    }
}

impl DiscoveredAnswer {
    /// Of a search.
    pub fn new(question: &DiscoverQuestion, found: &Discovered) -> Self {
        let balls = &question.asked.balls;
        Self {
            player: question.asked.player.name.clone(),
            table: question.asked.table.name.clone(),
            rail: balls.rail.name(),
            pocket: balls.pocket.name(),
            rail_model: question.asked.model.name(),
            balls_from_diamonds: balls.numbers.0,
            balls_to_diamonds: balls.numbers.1,
            most_hands: balls.hands,
            rolling: balls.rolling,
            rules_tried: found.rules,
            told_balls: found.told.0,
            told_tables: found.told.1,
            best_possible: found.best_possible,
            named: found.front.named,
            front: found.front.rules.iter().map(FrontRuleAnswer::from).collect(),
            common: found.common.iter().map(CommonRuleAnswer::from).collect(),
            cautions: question.asked.cautions(),
        }
    }
}

/// The front as a table of text, its numbers those of the JSON.
pub fn front_table(found: &Discovered, name: String) -> AnswerTable {
    let columns = [
        "rule",
        "reading",
        "slope",
        "offset_diamonds",
        "bend_contact",
        "bend_slope",
        "per_hand_diamonds",
        "soft_diamonds",
        "firm_diamonds",
        "rolling_diamonds",
        "steps",
        "numbers",
        "chance",
        "standard_error",
        "behind_the_last",
        "behind_standard_error",
        "named",
    ];
    let row = |(at, it): (usize, &FrontRule)| {
        let it = FrontRuleAnswer::from(it);
        let maybe = |value: Option<f64>| value.map_or_else(String::new, |it| it.to_string());
        vec![
            it.words,
            it.reading.to_owned(),
            it.slope.to_string(),
            it.offset_diamonds.to_string(),
            maybe(it.bend_contact),
            maybe(it.bend_slope),
            it.per_hand_diamonds.to_string(),
            it.soft_diamonds.to_string(),
            it.firm_diamonds.to_string(),
            it.rolling_diamonds.to_string(),
            it.operations.to_string(),
            it.numbers.to_string(),
            it.chance.share.to_string(),
            it.chance.error.to_string(),
            it.behind.share.to_string(),
            it.behind.error.to_string(),
            (at == found.front.named).to_string(),
        ]
    };
    let rows = found.front.rules.iter().enumerate().map(row).collect();
    AnswerTable { name, columns: columns.map(str::to_owned).to_vec(), rows }
}

impl From<&FrontRule> for FrontRuleAnswer {
    fn from(it: &FrontRule) -> Self {
        let tenths = Corrections::diamonds;
        let corrections = it.rule.corrections;
        Self {
            words: it.rule.words(),
            reading: it.rule.reading.name(),
            slope: it.rule.slope.value(),
            offset_diamonds: tenths(it.rule.offset),
            bend_contact: it.rule.bend.map(|bend| 0.5 * f64::from(bend.at)),
            bend_slope: it.rule.bend.map(|bend| bend.slope.value()),
            per_hand_diamonds: tenths(corrections.hand),
            soft_diamonds: tenths(corrections.soft),
            firm_diamonds: tenths(corrections.firm),
            rolling_diamonds: tenths(corrections.rolling),
            operations: it.effort.operations,
            numbers: it.effort.numbers,
            chance: it.chance.into(),
            behind: it.behind.into(),
            tied_with_the_best: it.is_tied(),
        }
    }
}

impl From<&CommonRule> for CommonRuleAnswer {
    fn from(it: &CommonRule) -> Self {
        Self { name: it.name.clone(), chance: it.chance.into(), behind: it.behind.into() }
    }
}

//! The rules that a search has found, and others beside them.

use super::DiscoverQuestion;
use crate::fault::Fault;
use railproof_engine::ask::PairedDifference;
use railproof_engine::chance::{AimedStart, Chance, HoldWindows, RuleChances, Skill};
use railproof_engine::discover::{
    EffortWeights, Ground, HeadRule, RuleFront, best_possible, search,
};
use railproof_engine::rule::{NamedRule, common_rules};

/// What was found.
#[derive(Debug, Clone)]
pub struct Discovered {
    /// The rules that are worth their effort.
    pub front: RuleFront,
    /// How many rules were tried; corrections that no ball asks for are not counted.
    pub rules: u64,
    /// The balls and tables on which they were searched, and of which their chances are told.
    pub searched: (usize, usize),
    /// The same of the other half.
    pub told: (usize, usize),
    /// The chance that no rule of these slopes can beat: every ball from its own best start, read as well as by the
    /// flattest of them.
    pub best_possible: f64,
    /// Rules in common use, the best first.
    pub common: Vec<CommonRule>,
    /// The front under other weights.
    pub other_weights: Vec<OtherWeights>,
}

/// A rule in common use on the told half.
#[derive(Debug, Clone)]
pub struct CommonRule {
    /// Its name.
    pub name: String,
    /// Its chance.
    pub chance: Chance,
    /// How much more the named rule of the front makes.
    pub behind: PairedDifference,
}

/// What changes under other weights of effort.
#[derive(Debug, Clone)]
pub struct OtherWeights {
    /// The weights.
    pub weights: EffortWeights,
    /// Rules that come in.
    pub enter: Vec<HeadRule>,
    /// Rules that go.
    pub leave: Vec<HeadRule>,
}

/// Weights that are tried beside those asked for: steps twice as dear, numbers twice as dear.
const OTHER_WEIGHTS: [(f64, f64); 2] = [(2.0, 1.0), (1.0, 2.0)];

impl Discovered {
    /// Searches.
    ///
    /// # Errors
    /// A [`Fault`] for balls that make no bank.
    pub fn of(question: &DiscoverQuestion) -> Result<Self, Fault> {
        let skill = &question.asked.player.skill;
        let halves = question.asked.halves()?;
        let steepest =
            question.grammar.slopes.iter().map(|slope| slope.value()).fold(1.0, f64::max);
        let best = search(&Ground::new(&halves.searched, skill, steepest), &question.grammar);
        let front = RuleFront::of(&best, question.weights, &halves.told, skill);
        let slopes = question.grammar.slopes.iter().map(|slope| slope.value());
        let best_possible = best_possible(&halves.told, skill, slopes.fold(steepest, f64::min));
        let named = front.named_chances.as_ref();
        let common = named.map_or_else(Vec::new, |named| common(&halves.told, skill, named));
        let other_weights = OTHER_WEIGHTS
            .map(|(operation, number)| EffortWeights {
                operation: operation * question.weights.operation,
                number: number * question.weights.number,
            })
            .map(|weights| {
                let (enter, leave) = front.changes(&best, weights);
                OtherWeights { weights, enter, leave }
            })
            .to_vec();
        Ok(Self {
            rules: best.tried(),
            searched: half_size(&halves.searched),
            told: half_size(&halves.told),
            best_possible,
            common,
            other_weights,
            front,
        })
    }
}

/// Balls and tables.
pub(super) fn half_size(half: &HoldWindows) -> (usize, usize) {
    (half.conditions().len(), half.weights().len())
}

fn common(told: &HoldWindows, skill: &Skill, named: &RuleChances) -> Vec<CommonRule> {
    let mut rules: Vec<CommonRule> = common_rules()
        .unwrap_or_default()
        .into_iter()
        .map(|NamedRule { name, rule }| {
            let own = RuleChances::by(told, skill, |ball, frame| {
                AimedStart::by_rule(&rule, ball, skill, frame).ok()
            });
            CommonRule { name, chance: own.chance(), behind: named.less(&own) }
        })
        .collect();
    rules.sort_by(|a, b| b.chance.chance.total_cmp(&a.chance.chance));
    rules
}

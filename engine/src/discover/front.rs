//! The rules that are worth their effort.

use super::{BestByEffort, DrawnBalls, Effort, EffortWeights, HeadRule};
use crate::ask::PairedDifference;
use crate::bank::BankError;
use crate::chance::{Chance, HoldWindows, PossibleTables, RuleChances, Skill, SpreadNodes};
use crate::equipment::RailModel;
use crate::rail::Reading;
use rayon::prelude::*;

/// Balls and tables in two halves: rules are searched on one, and what is told of them comes from the other.
///
/// Among many rules that are alike, the best on any balls is best partly by luck; on other balls and other tables
/// that luck is gone.
#[derive(Debug, Clone)]
pub struct Halves {
    /// On which rules are searched.
    pub searched: HoldWindows,
    /// Of which their chances are told.
    pub told: HoldWindows,
}

impl Halves {
    /// Looks for the windows of both halves of the balls, and of the tables where there are several.
    ///
    /// # Errors
    /// [`BankError`] for a rail and a pocket that make no bank.
    pub fn find(
        tables: &PossibleTables,
        model: RailModel,
        nodes: &SpreadNodes,
        balls: &[DrawnBalls; 2],
    ) -> Result<Self, BankError> {
        let [first, second] = balls;
        let [searched, told] = tables.halves();
        let find = |tables: &PossibleTables, balls: &DrawnBalls| {
            let found = HoldWindows::find(tables, model, nodes.clone(), &balls.balls)?;
            Ok::<_, BankError>(found.in_strata(balls.each))
        };
        Ok(Self { searched: find(&searched, first)?, told: find(&told, second)? })
    }
}

/// Rules of growing effort, each with more balls made than any of less effort.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleFront {
    /// By effort.
    pub rules: Vec<FrontRule>,
    /// The place among them of the simplest that is no worse than the last, which made most where it was searched.
    pub named: usize,
    /// The weights of its effort.
    pub weights: EffortWeights,
    /// The chances of the rule so named, ball by ball; `None` without rules.
    pub named_chances: Option<RuleChances>,
}

/// A rule of the front.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontRule {
    /// The rule.
    pub rule: HeadRule,
    /// Its effort.
    pub effort: Effort,
    /// Its mean chance where it was searched: too good, since it was chosen for it.
    pub searched: f64,
    /// Its mean chance on the other half.
    pub chance: Chance,
    /// How much more the last rule of the front makes there; 0 for the last itself.
    pub behind: PairedDifference,
}

impl FrontRule {
    /// True where it makes as many balls as the last rule of the front, as far as can be told.
    pub fn is_tied(&self) -> bool {
        self.behind.is_no_worse()
    }
}

impl RuleFront {
    /// The front of what a search has found.
    pub fn of(
        best: &BestByEffort,
        weights: EffortWeights,
        told: &HoldWindows,
        skill: &Skill,
    ) -> Self {
        let kept = worth_it(best, weights);
        let played: Vec<RuleChances> =
            kept.iter().map(|(_, _, rule)| chances(told, skill, rule)).collect();
        let behind: Vec<PairedDifference> =
            played.last().iter().flat_map(|last| played.iter().map(|own| last.less(own))).collect();
        let named = behind.iter().position(|behind| behind.is_no_worse()).unwrap_or(0);
        let rules = kept
            .into_iter()
            .zip(&played)
            .zip(behind)
            .map(|(((effort, searched, rule), own), behind)| FrontRule {
                rule,
                effort,
                searched,
                chance: own.chance(),
                behind,
            })
            .collect();
        Self { rules, named, weights, named_chances: played.into_iter().nth(named) }
    }

    /// The rules that other weights would put on the front and these do not, and those that they would leave out.
    pub fn changes(
        &self,
        best: &BestByEffort,
        weights: EffortWeights,
    ) -> (Vec<HeadRule>, Vec<HeadRule>) {
        let other: Vec<HeadRule> =
            worth_it(best, weights).into_iter().map(|(_, _, rule)| rule).collect();
        let own: Vec<HeadRule> = self.rules.iter().map(|it| it.rule).collect();
        let without = |these: &[HeadRule], those: &[HeadRule]| {
            these.iter().filter(|rule| !those.contains(rule)).copied().collect()
        };
        (without(&other, &own), without(&own, &other))
    }
}

/// The mean chance of whoever aims every ball from its own best start, and reads and reckons it no worse than by the
/// flattest of rules through the sights: no rule of such slopes can do better.
pub fn best_possible(windows: &HoldWindows, skill: &Skill, flattest: f64) -> f64 {
    let best = |at: usize| {
        let geometry = windows.geometry(at);
        let (off_rail_m, middle) = (windows.conditions()[at].off_rail_m, windows.middle(at));
        let mark = skill.mark_spread(off_rail_m, flattest, middle, geometry.high_end_number());
        let outside_m = geometry.read_outside_m(Reading::Sight);
        let read = mark * windows.places(at).start_per_mark(outside_m);
        windows.best_start(at, read, skill).map_or(0.0, |(_, best)| best.chance)
    };
    let balls = windows.conditions().len();
    let sum: f64 = (0..balls).into_par_iter().map(best).collect::<Vec<f64>>().iter().sum();
    sum / balls.max(1) as f64
}

/// How a rule of the head does on these balls and tables.
pub fn chances(windows: &HoldWindows, skill: &Skill, rule: &HeadRule) -> RuleChances {
    RuleChances::by(windows, skill, |ball, frame| rule.target(ball, skill, frame).ok())
}

/// Those of growing effort that make more than all of less.
fn worth_it(best: &BestByEffort, weights: EffortWeights) -> Vec<(Effort, f64, HeadRule)> {
    let mut all: Vec<(Effort, f64, HeadRule)> = best.iter().collect();
    all.sort_by(|a, b| {
        let by_effort = a.0.weighed(weights).total_cmp(&b.0.weighed(weights));
        by_effort.then(b.1.total_cmp(&a.1)).then(a.0.cmp(&b.0))
    });
    let mut most = f64::NEG_INFINITY;
    all.retain(|(_, chance, _)| {
        let more = *chance > most;
        most = most.max(*chance);
        more
    });
    all
}

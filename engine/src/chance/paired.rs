//! Rules compared by the chance that a person makes their balls with them.

use super::{AimedStart, Chance, Condition, HoldWindows, Skill};
use crate::ask::{PairedDifference, weighted_mean};
use crate::rail::BankGeometry;
use rayon::prelude::*;

/// A rule's place among others.
#[derive(Debug, Clone, PartialEq)]
pub struct ChanceStanding {
    /// Index of the rule.
    pub rule: usize,
    /// The mean chance over conditions and tables.
    pub chance: Chance,
    /// How much larger the first rule's chance is, ball by ball and table by table; 0 for the first itself.
    pub behind: PairedDifference,
    /// The weight of the tables on which no rule makes more; two that make as many share a table.
    pub best_on: f64,
    /// How it does in each condition.
    pub conditions: Vec<RuleInCondition>,
}

/// How a rule does in one condition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RuleInCondition {
    /// The chance over all tables; 0 where the rule has no line.
    pub chance: f64,
    /// The start number aimed from less the middle of what holds as it is meant, diamonds, over the tables; NaN
    /// where the rule has no line or nothing holds.
    pub off: f64,
}

impl ChanceStanding {
    /// The mean of how far it is off, diamonds; positive starts too far from the pocket.
    pub fn bias(&self) -> f64 {
        let (sum, count) =
            self.offs().fold((0.0, 0.0), |(sum, count), off| (sum + off, count + 1.0));
        sum / count
    }

    /// The root mean square of how far it is off, diamonds.
    pub fn rms_off(&self) -> f64 {
        let squares = self.offs().map(|off| off * off);
        let (sum, count) = squares.fold((0.0, 0.0), |(sum, count), it| (sum + it, count + 1.0));
        (sum / count).sqrt()
    }

    /// The condition in which its chance is least.
    pub fn worst(&self) -> Option<usize> {
        let chances = self.conditions.iter().map(|it| it.chance).enumerate();
        chances.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(at, _)| at)
    }

    fn offs(&self) -> impl Iterator<Item = f64> + '_ {
        self.conditions.iter().map(|it| it.off).filter(|off| off.is_finite())
    }
}

/// Ranks rules by their mean chance, then as given. `targets` holds each rule's target in each condition; `None`
/// where it has no line.
pub fn rank_by_chance(
    windows: &HoldWindows,
    skill: &Skill,
    targets: &[Vec<Option<AimedStart>>],
) -> Vec<ChanceStanding> {
    let middles: Vec<f64> =
        (0..windows.conditions().len()).map(|condition| windows.middle(condition)).collect();
    let played: Vec<RuleChances> =
        targets.par_iter().map(|targets| RuleChances::of(windows, skill, targets)).collect();
    let mut order: Vec<usize> = (0..targets.len()).collect();
    order.sort_by(|&a, &b| played[b].mean.total_cmp(&played[a].mean).then(a.cmp(&b)));
    let Some(&first) = order.first() else { return Vec::new() };
    let best_on = best_on(&played, windows.weights());
    order
        .into_iter()
        .map(|rule| {
            let own = &played[rule];
            let conditions = own
                .by_condition
                .iter()
                .zip(&targets[rule])
                .zip(&middles)
                .map(|((&chance, target), middle)| RuleInCondition {
                    chance,
                    off: target.map_or(f64::NAN, |target| target.start - middle),
                })
                .collect();
            ChanceStanding {
                rule,
                chance: own.chance(),
                behind: played[first].less(own),
                best_on: best_on[rule],
                conditions,
            }
        })
        .collect()
}

/// For each rule the weight of the tables on which it makes most.
fn best_on(played: &[RuleChances], weights: &[f64]) -> Vec<f64> {
    let mut shares = vec![0.0; played.len()];
    for (table, weight) in weights.iter().enumerate() {
        let made = |rule: &RuleChances| rule.by_table[table];
        let most = played.iter().map(made).fold(f64::NEG_INFINITY, f64::max);
        let best: Vec<usize> = (0..played.len()).filter(|&at| made(&played[at]) == most).collect();
        for &at in &best {
            shares[at] += weight / best.len() as f64;
        }
    }
    shares
}

/// The chances of one rule, ball by ball and table by table.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleChances {
    mean: f64,
    /// Over tables, a condition each.
    by_condition: Vec<f64>,
    /// Over conditions, a table each.
    by_table: Vec<f64>,
    weights: Vec<f64>,
}

impl RuleChances {
    /// Of a target in each condition; `None` makes no ball.
    pub fn of(windows: &HoldWindows, skill: &Skill, targets: &[Option<AimedStart>]) -> Self {
        let weights = windows.weights();
        let mut by_table = vec![0.0; weights.len()];
        let mut by_condition = Vec::with_capacity(targets.len());
        for (condition, target) in targets.iter().enumerate() {
            let Some(target) = target else {
                by_condition.push(0.0);
                continue;
            };
            let chances = windows.chances(condition, *target, skill);
            by_condition.push(chances.iter().zip(weights).map(|(it, weight)| weight * it).sum());
            for (sum, chance) in by_table.iter_mut().zip(chances) {
                *sum += chance;
            }
        }
        let count = targets.len().max(1) as f64;
        for sum in &mut by_table {
            *sum /= count;
        }
        // A sum of nothing is -0.
        let mean = by_condition.iter().sum::<f64>() / count + 0.0;
        Self { mean, by_condition, by_table, weights: weights.to_vec() }
    }

    /// The same of whatever aims every condition's ball in its frame.
    pub fn by(
        windows: &HoldWindows,
        skill: &Skill,
        target: impl Fn(&Condition, &BankGeometry) -> Option<AimedStart>,
    ) -> Self {
        let conditions = windows.conditions().iter().enumerate();
        let targets: Vec<Option<AimedStart>> =
            conditions.map(|(at, it)| target(it, windows.geometry(at))).collect();
        Self::of(windows, skill, &targets)
    }

    /// The mean chance. Its standard error is that over the balls, taken as drawn from all that could lie so, and
    /// that over the tables.
    pub fn chance(&self) -> Chance {
        Chance { chance: self.mean, error: self.error(&self.by_condition, &self.by_table) }
    }

    /// How much larger it is than another's, with the error of the difference itself: what both rules share drops
    /// out of it.
    pub fn less(&self, other: &Self) -> PairedDifference {
        let apart = |own: &[f64], its: &[f64]| -> Vec<f64> {
            own.iter().zip(its).map(|(own, its)| own - its).collect()
        };
        let balls = apart(&self.by_condition, &other.by_condition);
        let tables = apart(&self.by_table, &other.by_table);
        let error = self.error(&balls, &tables);
        PairedDifference { difference: self.mean - other.mean, error }
    }

    fn error(&self, balls: &[f64], tables: &[f64]) -> f64 {
        let even = vec![1.0 / balls.len().max(1) as f64; balls.len()];
        let (_, over_balls) = weighted_mean(balls.iter().copied(), &even);
        let (_, over_tables) = weighted_mean(tables.iter().copied(), &self.weights);
        libm::hypot(over_balls, over_tables)
    }
}

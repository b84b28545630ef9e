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

    /// The mean of how far it is off at each of these numbers along the rail, in order; `of` is the conditions' own.
    pub fn bias_by_number(&self, of: &[Condition]) -> Vec<(f64, f64)> {
        let mut numbers: Vec<f64> = of.iter().map(|it| it.number).collect();
        numbers.sort_by(f64::total_cmp);
        numbers.dedup();
        let mean = |number: f64| {
            let here = self.conditions.iter().zip(of).filter(|(_, it)| it.number == number);
            let offs = here.map(|(it, _)| it.off).filter(|off| off.is_finite());
            let (sum, count) = offs.fold((0.0, 0.0), |(sum, count), off| (sum + off, count + 1.0));
            sum / count
        };
        numbers.into_iter().map(|number| (number, mean(number))).collect()
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
    /// The same with fewer speeds and sides.
    rough_by_condition: Vec<f64>,
    /// Over conditions, a table each.
    by_table: Vec<f64>,
    weights: Vec<f64>,
    strata: Option<usize>,
    grain: f64,
}

impl RuleChances {
    /// Of a target in each condition; `None` makes no ball.
    pub fn of(windows: &HoldWindows, skill: &Skill, targets: &[Option<AimedStart>]) -> Self {
        let weights = windows.weights();
        let mut by_table = vec![0.0; weights.len()];
        let mut by_condition = Vec::with_capacity(targets.len());
        let mut rough_by_condition = Vec::with_capacity(targets.len());
        for (condition, target) in targets.iter().enumerate() {
            let (mut whole, mut whole_rough) = (0.0, 0.0);
            if let Some(target) = target {
                let chances = windows.integrated(condition, *target, skill);
                for ((sum, weight), (chance, rough)) in
                    by_table.iter_mut().zip(weights).zip(chances)
                {
                    *sum += chance;
                    whole += weight * chance;
                    whole_rough += weight * rough;
                }
            }
            by_condition.push(whole);
            rough_by_condition.push(whole_rough);
        }
        let count = targets.len().max(1) as f64;
        for sum in &mut by_table {
            *sum /= count;
        }
        // A sum of nothing is -0.
        let mean = by_condition.iter().sum::<f64>() / count + 0.0;
        Self {
            mean,
            by_condition,
            rough_by_condition,
            by_table,
            weights: weights.to_vec(),
            strata: windows.strata(),
            grain: windows.grain(),
        }
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

    /// The mean chance. Its standard error is that over the balls where they were drawn
    /// ([`HoldWindows::in_strata`]; balls that were not drawn stand for themselves and have none), that over the
    /// tables, and that of the integrals over speed and side.
    pub fn chance(&self) -> Chance {
        let steps = self.by_condition.iter().filter(|it| **it > 0.0 && **it < 1.0).count();
        let error = self.error(&self.by_condition, &self.rough_by_condition, &self.by_table);
        Chance { chance: self.mean, error: libm::hypot(error, self.grains(steps)) }
    }

    /// How much larger it is than another's, with the error of the difference itself: what both rules share drops
    /// out of it.
    pub fn less(&self, other: &Self) -> PairedDifference {
        let apart = |own: &[f64], its: &[f64]| -> Vec<f64> {
            own.iter().zip(its).map(|(own, its)| own - its).collect()
        };
        let balls = apart(&self.by_condition, &other.by_condition);
        let rough = apart(&self.rough_by_condition, &other.rough_by_condition);
        let tables = apart(&self.by_table, &other.by_table);
        let steps = balls.iter().filter(|it| **it != 0.0).count();
        let error = self.error(&balls, &rough, &tables);
        let error = libm::hypot(error, core::f64::consts::SQRT_2 * self.grains(steps));
        PairedDifference { difference: self.mean - other.mean, error }
    }

    fn error(&self, balls: &[f64], rough: &[f64], tables: &[f64]) -> f64 {
        let over_balls = self.strata.map_or(0.0, |each| stratified_error(balls, each));
        let (_, over_tables) = weighted_mean(tables.iter().copied(), &self.weights);
        // Signed: what the integrals of single balls leave out goes both ways.
        let left_out: f64 = balls.iter().zip(rough).map(|(whole, rough)| whole - rough).sum();
        let left_out = left_out / balls.len().max(1) as f64;
        libm::hypot(libm::hypot(over_balls, over_tables), left_out)
    }

    /// The error of so many chances that fall in steps, each on its own.
    fn grains(&self, steps: usize) -> f64 {
        self.grain * (steps as f64).sqrt() / self.by_condition.len().max(1) as f64
    }
}

/// The standard error of a mean over values that were drawn one in each stratum, `each` strata of a kind in a row.
///
/// The variance within strata is told by the second differences of neighbours, d = y₁ − 2y₂ + y₃: where the strata have
/// means μ and one variance σ², d²/6 has the mean σ² + (μ₁ − 2μ₂ + μ₃)²/6. So it is never too small, and too large only
/// by what bends from one stratum to the next. With fewer than three of a kind first differences serve, d²/2.
/// Differences of neighbours in a row: Wolter 2007, *Introduction to Variance Estimation*, chapter 8 (from memory).
fn stratified_error(values: &[f64], each: usize) -> f64 {
    let kinds = values.chunks(each.max(1));
    let of_kind = |kind: &[f64]| -> f64 {
        let (squares, differences) = match kind.len() {
            0 | 1 => return 0.0,
            2 => (0.5 * (kind[1] - kind[0]) * (kind[1] - kind[0]), 1),
            many => {
                let second = kind.windows(3).map(|it| it[0] - 2.0 * it[1] + it[2]);
                (second.map(|it| it * it / 6.0).sum(), many - 2)
            }
        };
        squares / differences as f64 * kind.len() as f64
    };
    kinds.map(of_kind).sum::<f64>().sqrt() / values.len().max(1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{Sample, Sampling};

    fn share(at: u64) -> f64 {
        let sample = Sample { how: Sampling::Random, points: 1 << 20, seed: 3, dimensions: 1 };
        let mut point = [0.0];
        sample.point(at, &mut point);
        point[0]
    }

    #[test]
    fn values_that_only_differ_by_chance_have_the_error_of_their_mean() {
        // 4000 kinds of five: the mean of many s² is σ².
        let values: Vec<f64> = (0..20_000).map(share).collect();
        let known = (1.0_f64 / 12.0 / 20_000.0).sqrt();
        let told = stratified_error(&values, 5);
        assert!((told / known - 1.0).abs() < 0.02, "{told} and {known}");
    }

    #[test]
    fn what_grows_straight_from_stratum_to_stratum_is_no_error() {
        let values: Vec<f64> = (0..30).map(|at| f64::from(at % 10) * 0.1).collect();
        assert!(stratified_error(&values, 10) < 1e-12);
        // Across kinds nothing is compared.
        assert!(stratified_error(&[0.0, 0.1, 0.2, 5.0, 5.1, 5.2], 3) < 1e-12);
    }
}

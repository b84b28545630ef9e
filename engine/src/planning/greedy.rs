//! The choice of banks one after another.

use crate::column::{Landing, Landings};

/// A number that is wanted; all count alike.
#[derive(Debug, Clone, PartialEq)]
pub struct WantedNumber {
    /// The value on each member's table.
    pub values: Vec<f64>,
}

/// A bank that is worth measuring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedBank {
    /// Its place among the candidates.
    pub candidate: usize,
    /// What is left of the purposes' widths after it and those before it, as a share: the mean over purposes
    /// of the ratio of standard deviations.
    pub left: f64,
    /// The chance that it misses and can be read.
    pub readable: f64,
}

/// A bank comes no more often in one plan: its setting-up is the same each time, and so may be a slip in it.
pub const MOST_REPEATS: usize = 3;

/// Chooses `count` banks among candidates, each for what the ones before it leave of the purposes; one candidate up to
/// [`MOST_REPEATS`] times.
///
/// `columns` are the candidates' landings over members of equal weight, `noise_m2` the variance of each one's
/// scatter and reading. A ball that drops can't be read, so a candidate counts by its chance to miss.
pub fn plan_next(
    columns: &[Landings],
    noise_m2: &[f64],
    purposes: &[WantedNumber],
    count: usize,
) -> Vec<PlannedBank> {
    plan_with_repeats(columns, noise_m2, purposes, count, MOST_REPEATS)
}

/// As [`plan_next`], with another limit for one bank.
pub fn plan_with_repeats(
    columns: &[Landings],
    noise_m2: &[f64],
    purposes: &[WantedNumber],
    count: usize,
    most_repeats: usize,
) -> Vec<PlannedBank> {
    // Purposes first, then candidates; every row is a deviation from its mean over the members.
    let mut wanted: Vec<Vec<f64>> =
        purposes.iter().map(|purpose| deviations(purpose.values.iter().copied())).collect();
    let mut places: Vec<Vec<f64>> = columns
        .iter()
        .map(|column| deviations(column.iter().map(|landing| landing.along_m)))
        .collect();
    let readable: Vec<f64> = columns.iter().map(|column| readable(column)).collect();
    let first: Vec<f64> = wanted.iter().map(|row| variance(row)).collect();
    let mut planned: Vec<PlannedBank> = Vec::with_capacity(count);
    for _ in 0..count {
        let times = |at: usize| planned.iter().filter(|bank| bank.candidate == at).count();
        let left_after = |at: usize| {
            let whole = whole_variance(&places[at], noise_m2[at], readable[at]);
            let left = wanted.iter().zip(&first).map(|(row, first)| {
                if *first <= 0.0 {
                    return 1.0;
                }
                let shared = covariance(row, &places[at]);
                ((variance(row) - shared * shared / whole).max(0.0) / first).sqrt()
            });
            left.sum::<f64>() / purposes.len() as f64
        };
        let best = (0..columns.len())
            .filter(|&at| readable[at] > LEAST_READABLE && times(at) < most_repeats)
            .map(|at| (at, left_after(at)))
            .min_by(|a, b| a.1.total_cmp(&b.1));
        let Some((candidate, left)) = best else { break };
        planned.push(PlannedBank { candidate, left, readable: readable[candidate] });
        let chosen = places[candidate].clone();
        let whole = whole_variance(&chosen, noise_m2[candidate], readable[candidate]);
        for row in wanted.iter_mut().chain(places.iter_mut()) {
            taken_out(row, &chosen, whole);
        }
    }
    planned
}

/// A bank that hardly ever misses is not worth setting up.
const LEAST_READABLE: f64 = 0.5;

/// Deviations from the mean; a member without a number stands at the mean.
fn deviations(values: impl Iterator<Item = f64> + Clone) -> Vec<f64> {
    let (sum, count) = values
        .clone()
        .filter(|value| value.is_finite())
        .fold((0.0, 0.0), |(sum, count), value| (sum + value, count + 1.0));
    let mean = if count > 0.0 { sum / count } else { 0.0 };
    values.map(|value| if value.is_finite() { value - mean } else { 0.0 }).collect()
}

/// The variance of a reading. A bank that drops can't be read: one that misses half of the time tells half as
/// much.
fn whole_variance(place: &[f64], noise_m2: f64, readable: f64) -> f64 {
    (variance(place) + noise_m2) / readable
}

fn covariance(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>() / a.len() as f64
}

fn variance(row: &[f64]) -> f64 {
    covariance(row, row)
}

/// Takes from a row what a reading of `chosen` with variance `whole` tells of it: the row is then left with the
/// variance and covariances of the update, by scaling the part that goes along with `chosen`.
fn taken_out(row: &mut [f64], chosen: &[f64], whole: f64) {
    let along = variance(chosen);
    if along <= 0.0 {
        return;
    }
    let slope = covariance(row, chosen) / along;
    // The part along `chosen` keeps the share noise/whole of its variance.
    let kept = ((whole - along) / whole).max(0.0).sqrt();
    for (value, chosen) in row.iter_mut().zip(chosen) {
        *value -= slope * (1.0 - kept) * chosen;
    }
}

fn readable(column: &[Landing]) -> f64 {
    let missed = column.iter().filter(|landing| {
        let (from, to) = landing.mouth_m;
        landing.is_told() && !(from..=to).contains(&landing.along_m)
    });
    missed.count() as f64 / column.len() as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bank::BankVerdict;

    fn missed(along_m: f64) -> Landing {
        Landing {
            miss_m: f64::NAN,
            verdict: BankVerdict::Short,
            along_m,
            speed_m_s: 1.0,
            holds_m: (10.0, 11.0),
            mouth_m: (9.0, 12.0),
        }
    }

    /// Four members; the purpose is a, the places are a (noisy), b, and a + b.
    #[test]
    fn banks_are_chosen_by_the_variance_that_the_update_leaves() {
        let a = [-1.0, -1.0, 1.0, 1.0];
        let b = [-1.0, 1.0, -1.0, 1.0];
        let column = |value: &dyn Fn(usize) -> f64| (0..4).map(|at| missed(value(at))).collect();
        let columns: Vec<Landings> =
            vec![column(&|at| a[at]), column(&|at| b[at]), column(&|at| a[at] + b[at])];
        let wanted = [WantedNumber { values: a.to_vec() }];
        let planned = plan_next(&columns, &[1.0, 0.5, 0.2], &wanted, 2);
        // By hand: var a = 1. After a with noise 1: 1 − 1/2. After a + b with noise 0.2: 1 − 1/2.2.
        assert_eq!(planned[0].candidate, 0);
        assert!((planned[0].left - 0.5_f64.sqrt()).abs() < 1e-12, "{planned:?}");
        // Then a again: 1/2 − (1/2)²/(1/2 + 1) = 1/3; a + b would leave 1/2 − (1/2)²/(3/2 + 0.2).
        assert_eq!(planned[1].candidate, 0);
        assert!((planned[1].left - (1.0 / 3.0_f64).sqrt()).abs() < 1e-12, "{planned:?}");
    }

    /// One bank tells the purpose, another tells it worse.
    #[test]
    fn a_bank_is_repeated_where_that_pays_and_three_times_at_most() {
        let a = [-1.0, -1.0, 1.0, 1.0];
        let column: Landings = a.iter().map(|&at| missed(at)).collect();
        let columns = vec![column.clone(), column];
        let wanted = [WantedNumber { values: a.to_vec() }];
        let of =
            |planned: &[PlannedBank]| planned.iter().map(|it| it.candidate).collect::<Vec<_>>();
        let planned = plan_next(&columns, &[1.0, 1.5], &wanted, 5);
        assert_eq!(of(&planned), [0, 0, 0, 1, 1]);
        // By hand, by precisions: 1 + 3/1 + 2/1.5 times that of before.
        let left = 1.0 / (4.0 + 2.0 / 1.5);
        assert!((planned[4].left - f64::sqrt(left)).abs() < 1e-12, "{planned:?}");
        let apart = plan_with_repeats(&columns, &[1.0, 1.5], &wanted, 2, 1);
        assert_eq!(of(&apart), [0, 1]);
        assert!(planned[1].left < apart[1].left);
    }

    #[test]
    fn a_bank_that_drops_is_not_planned() {
        let drops = Landing { mouth_m: (-1.0, 1.0), ..missed(0.0) };
        let columns: Vec<Landings> = vec![vec![drops; 4]];
        let wanted = [WantedNumber { values: vec![0.0, 1.0, 2.0, 3.0] }];
        assert!(plan_next(&columns, &[1.0], &wanted, 6).is_empty());
    }
}

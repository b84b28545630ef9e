//! Numbers that are known together better than apart.

use crate::ensemble::{Ensemble, MemberNumber};
use nalgebra::{DMatrix, SymmetricEigen};

/// Some numbers of which a sum is known much better than each of them.
#[derive(Debug, Clone, PartialEq)]
pub struct TiedNumbers {
    /// The numbers, the one that weighs most first.
    pub parts: Vec<TiedPart>,
    /// What is left of the sum's width, as a share of its width before anything is known.
    pub left: f64,
}

/// A number in such a sum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiedPart {
    /// The number.
    pub number: MemberNumber,
    /// Its weight, in widths of its spread; the first one's is positive, and the squares add up to 1.
    pub weight: f64,
    /// What is left of its own width.
    pub left: f64,
}

/// The most sums, and the most numbers in one: a person reads no more.
const MOST_TOLD: usize = 3;
const MOST_PARTS: usize = 3;
/// A number that weighs less than this share of the heaviest is no part. Chosen.
const LEAST_WEIGHT: f64 = 0.35;
/// A sum is told whose deviation is at most this share of what it would be if its parts knew nothing of one another.
/// Chosen.
const MUCH_BETTER: f64 = 0.5;

impl TiedNumbers {
    /// Those of an ensemble, the best known first.
    ///
    /// Before anything is known the members' coordinates are even and independent. The principal axes of their
    /// correlations that vary least (Belsley, Kuh & Welsch 1980, *Regression Diagnostics*, ch. 3) are the sums that
    /// are known best beside their parts. Of each axis the heaviest numbers are kept, and the least axis of these
    /// alone is told.
    pub fn of(ensemble: &Ensemble) -> Vec<Self> {
        let covariance = covariance(ensemble);
        let correlation = correlation(&covariance);
        let all: Vec<usize> = (0..MemberNumber::COUNT).collect();
        let mut told: Vec<Self> = Vec::new();
        for (axis, _) in axes(&correlation, &all) {
            let mut heavy = heaviest(&axis, &all);
            heavy.sort_unstable();
            if heavy.len() < 2 {
                continue;
            }
            let Some((axis, variance)) = axes(&correlation, &heavy).into_iter().next() else {
                continue;
            };
            let parts = heaviest(&axis, &heavy);
            let one = Self::from_axis(&covariance, &axis, &heavy);
            let is_new = told.iter().all(|it| it.numbers() != one.numbers());
            if parts.len() == heavy.len() && variance.sqrt() <= MUCH_BETTER && is_new {
                told.push(one);
            }
        }
        told.sort_by(|a, b| a.left.total_cmp(&b.left));
        told.truncate(MOST_TOLD);
        told
    }

    /// Of an axis of correlations, which is told in deviations of each number as it is known now.
    fn from_axis(covariance: &DMatrix<f64>, axis: &[f64], places: &[usize]) -> Self {
        let numbers: Vec<MemberNumber> = MemberNumber::all().collect();
        let part = |(&at, &weight): (&usize, &f64)| TiedPart {
            number: numbers[at],
            weight: weight / covariance[(at, at)].sqrt(),
            left: left(covariance[(at, at)]),
        };
        let mut parts: Vec<TiedPart> = places.iter().zip(axis).map(part).collect();
        parts.sort_by(|a, b| b.weight.abs().total_cmp(&a.weight.abs()));
        let size = parts.iter().map(|part| part.weight * part.weight).sum::<f64>().sqrt();
        for part in &mut parts {
            part.weight /= size;
        }
        let of = |part: &TiedPart| (part.number.place(), part.weight);
        let mut variance = 0.0;
        for (row, one) in parts.iter().map(of) {
            for (column, other) in parts.iter().map(of) {
                variance += one * other * covariance[(row, column)];
            }
        }
        let sign = 1.0_f64.copysign(parts[0].weight);
        for part in &mut parts {
            part.weight *= sign;
        }
        Self { parts, left: left(variance) }
    }

    fn numbers(&self) -> Vec<MemberNumber> {
        let mut numbers: Vec<MemberNumber> = self.parts.iter().map(|part| part.number).collect();
        numbers.sort_unstable();
        numbers
    }
}

/// The share of an even spread's deviation that is left.
fn left(variance: f64) -> f64 {
    (12.0 * variance.max(0.0)).sqrt()
}

/// The covariance of the members' coordinates.
fn covariance(ensemble: &Ensemble) -> DMatrix<f64> {
    let (members, weights) = (ensemble.members(), ensemble.weights());
    let mean = |at: usize| -> f64 {
        members.iter().zip(weights).map(|(member, weight)| weight * member.place[at]).sum()
    };
    let means: Vec<f64> = (0..MemberNumber::COUNT).map(mean).collect();
    DMatrix::from_fn(MemberNumber::COUNT, MemberNumber::COUNT, |row, column| {
        let product = |place: &[f64; MemberNumber::COUNT]| {
            (place[row] - means[row]) * (place[column] - means[column])
        };
        members.iter().zip(weights).map(|(member, weight)| weight * product(&member.place)).sum()
    })
}

/// The correlations of a covariance.
fn correlation(of: &DMatrix<f64>) -> DMatrix<f64> {
    DMatrix::from_fn(of.nrows(), of.ncols(), |row, column| {
        let size = (of[(row, row)] * of[(column, column)]).sqrt();
        if size > 0.0 { of[(row, column)] / size } else { f64::from(row == column) }
    })
}

/// The principal axes of some coordinates with their variances, the least first.
fn axes(of: &DMatrix<f64>, places: &[usize]) -> Vec<(Vec<f64>, f64)> {
    let some = DMatrix::from_fn(places.len(), places.len(), |row, column| {
        of[(places[row], places[column])]
    });
    let eigen = SymmetricEigen::new(some);
    let columns = eigen.eigenvectors.column_iter().zip(eigen.eigenvalues.iter());
    let mut axes: Vec<(Vec<f64>, f64)> =
        columns.map(|(axis, variance)| (axis.iter().copied().collect(), *variance)).collect();
    axes.sort_by(|a, b| a.1.total_cmp(&b.1));
    axes
}

/// The places of the numbers that weigh most on an axis.
fn heaviest(axis: &[f64], places: &[usize]) -> Vec<usize> {
    let most = axis.iter().fold(0.0_f64, |most, weight| most.max(weight.abs()));
    let mut heavy: Vec<(f64, usize)> = axis
        .iter()
        .zip(places)
        .map(|(weight, at)| (weight.abs(), *at))
        .filter(|(weight, _)| *weight >= LEAST_WEIGHT * most)
        .collect();
    heavy.sort_by(|a, b| b.0.total_cmp(&a.0));
    heavy.truncate(MOST_PARTS);
    heavy.into_iter().map(|(_, at)| at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ensemble::Member;

    /// Members of which 0.8 of one number and 0.6 of another add up to about what they are told to.
    fn members(sum: impl Fn(&Member) -> f64, width: f64) -> Ensemble {
        let wide = Ensemble::wide(1 << 14, 1);
        let kept = wide.members().iter().filter(|it| (sum(it) - 0.2).abs() < 0.5 * width);
        Ensemble::even(kept.copied().collect())
    }

    #[test]
    fn a_sum_that_is_known_is_named_with_its_weights() {
        let (one, other) = (MemberNumber::Restitution, MemberNumber::RestitutionLoss);
        let of = |it: &Member| 0.8 * it.place[one.place()] - 0.6 * it.place[other.place()];
        let told = TiedNumbers::of(&members(of, 0.05));
        let [tied] = told.try_into().expect("one sum");
        assert_eq!([tied.parts[0].number, tied.parts[1].number], [one, other]);
        assert_eq!(tied.parts.len(), 2);
        assert!((tied.parts[0].weight - 0.8).abs() < 0.03, "{tied:?}");
        assert!((tied.parts[1].weight + 0.6).abs() < 0.03, "{tied:?}");
        // An even stretch 0.05 wide, of a sum of unit weights whose deviation was that of a width of 1.
        assert!((tied.left - 0.05).abs() < 0.01, "{tied:?}");
        assert!(tied.parts.iter().all(|part| part.left > 0.5), "{tied:?}");
    }

    #[test]
    fn nothing_is_tied_where_nothing_is_known_or_each_is_known_alone() {
        assert_eq!(TiedNumbers::of(&Ensemble::wide(2048, 1)), vec![]);
        let alone = |it: &Member| it.place[MemberNumber::ContactTime.place()];
        assert_eq!(TiedNumbers::of(&members(alone, 0.05)), vec![]);
    }

    #[test]
    fn a_weak_tie_is_not_told() {
        let (one, other) =
            (MemberNumber::NoseFriction.place(), MemberNumber::SlidingFriction.place());
        let told = TiedNumbers::of(&members(|it| 0.7 * (it.place[one] + it.place[other]), 0.6));
        assert_eq!(told, vec![]);
    }
}

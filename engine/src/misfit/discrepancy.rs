//! The discrepancy of read numbers from what narrowed members expect.

use super::chi_square::{beyond, moved_so_that, value_beyond};
use crate::evidence::ReadNumber;
use nalgebra::{DMatrix, DVector, SymmetricEigen};

/// Do read numbers agree with narrowed members?
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Misfit {
    /// The numbers that were read.
    pub numbers: usize,
    /// Their discrepancy: about as great as `numbers` where all is well.
    pub discrepancy: f64,
    /// The chance of one as great where all is well.
    pub chance: f64,
    /// The smallest misfit that these banks would show nine times in ten if places went straight with the members'
    /// numbers, where a chance below [`Misfit::DOUBTFUL`] counts as shown: a root mean square in deviations of one
    /// reading.
    pub smallest_shown: f64,
}

impl Misfit {
    /// A chance below it is told as a misfit.
    pub const DOUBTFUL: f64 = 0.05;
    /// How often the smallest misfit is shown.
    const POWER: f64 = 0.9;
    /// The most of a direction that the members are taken to have learned from its own reading: where places bend,
    /// their covariance says more than there is.
    const MOST_LEARNED: f64 = 0.95;
    /// Fewer numbers show nothing.
    pub const FEWEST: usize = 3;
    /// More are not taken together: the matrix would take minutes.
    pub const MOST: usize = 400;

    /// Of read numbers; `None` for fewer than [`Misfit::FEWEST`].
    pub fn of(places: &[ReadNumber]) -> Option<Self> {
        let places: Vec<&ReadNumber> = places
            .iter()
            .filter(|place| place.means_m.iter().any(|mean| mean.is_finite()))
            .take(Self::MOST)
            .collect();
        if places.len() < Self::FEWEST {
            return None;
        }
        // In deviations of one reading: a row for each number, its mean over the members taken off.
        let mut differs = DVector::zeros(places.len());
        let mut spread = Vec::with_capacity(places.len());
        for (at, place) in places.iter().enumerate() {
            let known = || place.means_m.iter().copied().filter(|mean| mean.is_finite());
            let mean = known().sum::<f64>() / known().count() as f64;
            let sd_m = place.variance_m2.sqrt();
            differs[at] = (place.seen_m - mean) / sd_m;
            let row: Vec<f64> = place
                .means_m
                .iter()
                .map(|other| if other.is_finite() { (other - mean) / sd_m } else { 0.0 })
                .collect();
            spread.push(row);
        }
        let members = spread[0].len() as f64;
        let learned = DMatrix::from_fn(places.len(), places.len(), |row, column| {
            let products = spread[row].iter().zip(&spread[column]).map(|(a, b)| a * b);
            products.sum::<f64>() / members
        });
        let directions = SymmetricEigen::new(learned);
        let left = |at: usize| 1.0 - directions.eigenvalues[at].clamp(0.0, Self::MOST_LEARNED);
        let discrepancy = (0..places.len())
            .map(|at| {
                let along = directions.eigenvectors.column(at).dot(&differs);
                along * along / left(at)
            })
            .sum();
        let whole: f64 = (0..places.len()).map(left).sum();
        let critical = value_beyond(Self::DOUBTFUL, places.len());
        let moved = moved_so_that(Self::POWER, critical, places.len());
        Some(Self {
            numbers: places.len(),
            discrepancy,
            chance: beyond(discrepancy, places.len()),
            smallest_shown: (moved / whole).sqrt(),
        })
    }

    /// True where no table that could be gives such numbers.
    pub fn is_doubtful(&self) -> bool {
        self.chance < Self::DOUBTFUL
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two members either side of nothing by `half`, each number read with a deviation of 1.
    fn places(seen: &[f64], half: f64) -> Vec<ReadNumber> {
        let place =
            |&seen_m| ReadNumber { bank: 0, seen_m, means_m: vec![-half, half], variance_m2: 1.0 };
        seen.iter().map(place).collect()
    }

    #[test]
    fn known_members_leave_the_plain_sum_of_squares() {
        let misfit = Misfit::of(&places(&[1.0, -2.0, 2.0], 0.0)).expect("three numbers");
        assert!((misfit.discrepancy - 9.0).abs() < 1e-12, "{misfit:?}");
        // Chi-square of 3 degrees beyond 9: Abramowitz & Stegun 26.4.4 by hand.
        assert!((misfit.chance - 0.029_290_886).abs() < 1e-8, "{misfit:?}");
        assert!(misfit.is_doubtful());
    }

    #[test]
    fn a_direction_that_the_banks_have_taught_counts_for_more() {
        // All three go together by 0.5: the direction (1, 1, 1)/√3 has learned 0.75 of a reading's variance.
        let misfit = Misfit::of(&places(&[0.3, 0.3, 0.3], 0.5)).expect("three numbers");
        assert!((misfit.discrepancy - 3.0 * 0.09 / 0.25).abs() < 1e-12, "{misfit:?}");
        // Across it nothing was learned.
        let across = Misfit::of(&places(&[1.0, -1.0, 0.0], 0.5)).expect("three numbers");
        assert!((across.discrepancy - 2.0).abs() < 1e-12, "{across:?}");
        assert!(
            across.smallest_shown
                > Misfit::of(&places(&[0.0; 3], 0.0)).expect("three").smallest_shown
        );
    }

    #[test]
    fn two_numbers_show_nothing() {
        assert_eq!(Misfit::of(&places(&[9.0, 9.0], 0.1)), None);
    }
}

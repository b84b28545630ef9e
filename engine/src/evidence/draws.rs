//! Random draws of the normal law, each a function of its place.

use super::Scatter;
use crate::sample::{Sample, Sampling};
use core::f64::consts::PI;

/// The deviations of one shot in each cause, by its number.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ShotDraws {
    pub(crate) seed: u64,
}

impl ShotDraws {
    /// Aim, speed, side, roll, contact and start of a shot, in deviations.
    pub(crate) fn of(self, shot: u64) -> [f64; Scatter::CAUSES] {
        let draws = NormalDraws { seed: self.seed, uses: Scatter::CAUSES };
        core::array::from_fn(|cause| draws.normal(shot, cause))
    }
}

/// Normal numbers by row and use; the same seed gives the same.
#[derive(Debug, Clone, Copy)]
pub(super) struct NormalDraws {
    pub(super) seed: u64,
    /// The uses of a row.
    pub(super) uses: usize,
}

impl NormalDraws {
    /// A number of mean 0 and deviation 1; G. Box and M. Muller 1958, Ann. Math. Statist. 29(2):610–611.
    pub(super) fn normal(self, row: u64, usage: usize) -> f64 {
        let sample = Sample {
            how: Sampling::Random,
            points: row + 1,
            seed: self.seed,
            dimensions: 2 * self.uses,
        };
        let first = 1.0 - sample.coordinate(row, 2 * usage);
        let second = sample.coordinate(row, 2 * usage + 1);
        (-2.0 * libm::log(first)).sqrt() * libm::cos(2.0 * PI * second)
    }
}

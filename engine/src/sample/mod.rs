//! Points of a unit cube addressed by index, so that any of them can be recomputed alone.
//!
//! Nothing is stored between points and no order is kept: a coordinate is a function of the sampling,
//! its seed, the point's index and the dimension. Only whole numbers are worked with, so every machine
//! gets the same bits; a coordinate is a whole multiple of 2⁻⁵³.

mod directions;
mod hash;
mod latin;
mod permutation;
mod sobol;
#[cfg(test)]
mod tests;

use directions::DIMENSIONS;
use hash::DimensionKey;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// The most points of a sampling, 2⁵²: beyond, strata are finer than the coordinates' step.
pub const MAX_POINTS: u64 = 1 << 52;

/// The most dimensions of a sampling.
pub const MAX_DIMENSIONS: usize = DIMENSIONS;

/// Ways to spread points over the unit cube.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sampling {
    /// Sobol's points: evenly spread in every pair of dimensions together, best for a power of two
    /// of points. Direction numbers of S. Joe and F. Kuo 2008, *Constructing Sobol sequences with
    /// better two-dimensional projections*, SIAM J. Sci. Comput. 30(5):2635–2654; points in
    /// Gray-code order. Seed 0 gives them as they are (the first is the origin); any other seed
    /// scrambles the digits of each dimension in a nested way, which keeps the even spread.
    Sobol,
    /// Latin hypercube: cut into as many equal strata as there are points, every dimension has one
    /// point in each; M. McKay, R. Beckman and W. Conover 1979, *A comparison of three methods for
    /// selecting values of input variables*, Technometrics 21(2):239–245.
    LatinHypercube,
    /// Independent, evenly distributed points.
    Random,
}

impl Sampling {
    /// Every way to sample.
    pub const ALL: [Self; 3] = [Self::Sobol, Self::LatinHypercube, Self::Random];

    /// Its name, as it is written in plans.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sobol => "sobol",
            Self::LatinHypercube => "latin-hypercube",
            Self::Random => "random",
        }
    }

    /// The sampling with a name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|sampling| sampling.name() == name)
    }
}

/// A number of points in the unit cube. Read from a file it is checked as by [`Sample::new`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Unchecked")]
pub struct Sample {
    /// Their spread.
    pub how: Sampling,
    /// Their number.
    pub points: u64,
    /// The seed: which of the many such samples is drawn.
    pub seed: u64,
    /// The number of coordinates of a point.
    pub dimensions: usize,
}

impl Sample {
    /// A sample.
    ///
    /// # Errors
    /// Without points or dimensions, or with more of either than [`MAX_POINTS`] or
    /// [`MAX_DIMENSIONS`].
    pub const fn new(
        how: Sampling,
        points: u64,
        seed: u64,
        dimensions: usize,
    ) -> Result<Self, SampleError> {
        if points == 0 {
            return Err(SampleError::NoPoints);
        }
        if points > MAX_POINTS {
            return Err(SampleError::TooManyPoints { points });
        }
        if dimensions == 0 {
            return Err(SampleError::NoDimensions);
        }
        if dimensions > MAX_DIMENSIONS {
            return Err(SampleError::TooManyDimensions { dimensions });
        }
        Ok(Self { how, points, seed, dimensions })
    }

    /// One coordinate of a point, in [0, 1).
    ///
    /// # Panics
    /// For a point or dimension that the sample does not have.
    pub fn coordinate(&self, point: u64, dimension: usize) -> f64 {
        assert!(point < self.points, "point {point} of {}", self.points);
        assert!(dimension < self.dimensions, "dimension {dimension} of {}", self.dimensions);
        let key = DimensionKey::new(self.seed, self.how as u64, dimension as u64);
        let steps = match self.how {
            Sampling::Sobol => {
                let bits = sobol::bits(point, dimension);
                let bits = if self.seed == 0 { bits } else { sobol::scrambled(bits, key) };
                bits >> 11
            }
            Sampling::LatinHypercube => latin::steps(point, self.points, key),
            Sampling::Random => key.hash(point) >> 11,
        };
        steps as f64 * STEP
    }

    /// All coordinates of a point.
    ///
    /// # Panics
    /// For a point that the sample does not have, or when `into` is longer than a point.
    pub fn point(&self, point: u64, into: &mut [f64]) {
        for (dimension, coordinate) in into.iter_mut().enumerate() {
            *coordinate = self.coordinate(point, dimension);
        }
    }
}

/// The step of every coordinate, 2⁻⁵³; it and its multiples below 1 are exact.
const STEP: f64 = 1.0 / (1_u64 << 53) as f64;

/// A sample as a file has it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Unchecked {
    how: Sampling,
    points: u64,
    seed: u64,
    dimensions: usize,
}

impl TryFrom<Unchecked> for Sample {
    type Error = SampleError;

    fn try_from(read: Unchecked) -> Result<Self, SampleError> {
        Self::new(read.how, read.points, read.seed, read.dimensions)
    }
}

/// Why a sample is refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum SampleError {
    /// No points.
    #[error("a sample needs at least one point")]
    NoPoints,
    /// More points than coordinates can tell apart.
    #[error("a sample has at most {MAX_POINTS} points, not {points}")]
    TooManyPoints {
        /// The number asked for.
        points: u64,
    },
    /// No dimensions.
    #[error("a sample needs at least one dimension")]
    NoDimensions,
    /// More dimensions than there are direction numbers for.
    #[error("a sample has at most {MAX_DIMENSIONS} dimensions, not {dimensions}")]
    TooManyDimensions {
        /// The number asked for.
        dimensions: usize,
    },
}

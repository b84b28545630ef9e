//! Latin hypercubes.

use super::hash::DimensionKey;
use super::permutation::permuted;

/// A coordinate of a point, in steps of 2⁻⁵³ from 0: anywhere in its stratum, and exactly inside it.
pub(super) fn steps(point: u64, points: u64, key: DimensionKey) -> u64 {
    let stratum = permuted(point, points, key);
    let first = first_step(stratum, points);
    let steps = first_step(stratum + 1, points) - first;
    // Below 2^53 and above 1, so no step is favoured by more than 2^-11.
    let within = (u128::from(key.hash(!point)) * u128::from(steps)) >> 64;
    first + within as u64
}

/// The first multiple of 2⁻⁵³ in a stratum of the unit interval.
pub(super) fn first_step(stratum: u64, points: u64) -> u64 {
    let first = (u128::from(stratum) << 53).div_ceil(u128::from(points));
    #[expect(clippy::cast_possible_truncation, reason = "at most 2^53, as stratum <= points")]
    let first = first as u64;
    first
}

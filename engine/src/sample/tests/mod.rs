//! Promises of samples.

mod addressing;
mod evenness;
mod scipy;
mod strata;

use super::{Sample, Sampling};

/// A coordinate, in steps of 2⁻⁵³ from 0.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole, below 2^53")]
fn steps(sample: &Sample, point: u64, dimension: usize) -> u64 {
    let coordinate = sample.coordinate(point, dimension);
    assert!((0.0..1.0).contains(&coordinate), "{coordinate}");
    let steps = coordinate * (1_u64 << 53) as f64;
    assert_eq!(steps, steps.trunc());
    steps as u64
}

/// Which of so many equal parts of the unit interval a coordinate is in, exactly.
fn part(sample: &Sample, point: u64, dimension: usize, parts: u64) -> usize {
    let part = (u128::from(steps(sample, point, dimension)) * u128::from(parts)) >> 53;
    usize::try_from(part).unwrap()
}

fn sample(how: Sampling, points: u64, seed: u64, dimensions: usize) -> Sample {
    Sample::new(how, points, seed, dimensions).unwrap()
}

/// The distance of Pearson's statistic of counts that should be equal from its mean, in standard deviations.
fn deviations(counts: &[u64]) -> f64 {
    let expected = counts.iter().sum::<u64>() as f64 / counts.len() as f64;
    assert!(expected >= 5.0, "too few in a cell for this statistic");
    let off = counts.iter().map(|&count| count as f64 - expected);
    let statistic = off.map(|off| off * off).sum::<f64>();
    let freedom = (counts.len() - 1) as f64;
    (statistic / expected - freedom) / (2.0 * freedom).sqrt()
}

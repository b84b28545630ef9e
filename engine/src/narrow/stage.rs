//! The stages from the wide ensemble to the narrowed one.

use super::moves::Dice;
use super::temper::{drawn_again, next_power, weighed};
use crate::bank::BankError;
use crate::ensemble::{Ensemble, Member, MemberNumber};
use crate::evidence::Evidence;
use crate::sample::{Sample, Sampling};

/// The sampler's settings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NarrowSettings {
    /// The number of members.
    pub members: usize,
    /// The moves of each stage.
    pub moves: usize,
    /// The share of members that a stage leaves effective.
    pub effective_share: f64,
    /// The seed: which of the many such samples is drawn.
    pub seed: u64,
}

impl NarrowSettings {
    /// The settings that ship.
    pub const SHIPPED: Self = Self { members: 2048, moves: 3, effective_share: 0.5, seed: 1 };
}

/// The wide ensemble narrowed by banks.
#[derive(Debug, Clone)]
pub struct Narrowed {
    /// Its members, of equal weight.
    pub ensemble: Ensemble,
    /// The logarithm of each member's likelihood of each bank, a row for each member.
    pub log_likelihoods: Vec<Vec<f64>>,
    /// The logarithm of the banks' chance under the wide ensemble.
    pub log_evidence: f64,
    /// The number of stages.
    pub stages: usize,
    /// The share of proposals that were taken in the last stage.
    pub taken: f64,
    /// The number of members that differ from one another.
    pub distinct: usize,
}

/// Narrows the wide ensemble by measured banks.
///
/// # Errors
/// As [`Evidence::log_likelihoods`].
pub fn narrow(evidence: &Evidence, settings: NarrowSettings) -> Result<Narrowed, BankError> {
    narrow_watched(evidence, settings, &|_, _| ())
}

/// As [`narrow`]; after each stage `watch` is told its number and the power of the likelihood that it reached.
///
/// # Errors
/// As [`Evidence::log_likelihoods`].
pub fn narrow_watched(
    evidence: &Evidence,
    settings: NarrowSettings,
    watch: &dyn Fn(usize, f64),
) -> Result<Narrowed, BankError> {
    let count = settings.members;
    let mut members = Ensemble::wide_members(0..count, settings.seed);
    let mut rows = evidence.log_likelihoods(&members)?;
    let (mut power, mut log_evidence) = (0.0, 0.0);
    let (mut stages, mut taken) = (0, 1.0);
    let mut scale = first_scale();
    while power < 1.0 {
        stages += 1;
        let sums = sums(&rows);
        let next = next_power(&sums, power, settings.effective_share);
        let step = weighed(&sums, next - power);
        log_evidence += step.log_mean;
        power = next;
        let drawn = drawn_again(&step.weights, offset(settings.seed, stages));
        members = drawn.iter().map(|&at| members[at]).collect();
        rows = drawn.iter().map(|&at| rows[at].clone()).collect();
        for each in 0..settings.moves {
            let seed = settings.seed ^ ((stages * settings.moves + each + 1) as u64) << 32;
            taken = moved(evidence, &mut members, &mut rows, power, scale, seed)?;
            // Towards a quarter taken.
            scale = (scale * libm::exp(taken - WANTED)).clamp(0.05, first_scale());
        }
        watch(stages, power);
    }
    let mut places: Vec<_> = members.iter().map(|member| member.place.map(f64::to_bits)).collect();
    places.sort_unstable();
    places.dedup();
    Ok(Narrowed {
        distinct: places.len(),
        ensemble: Ensemble::even(members),
        log_likelihoods: rows,
        log_evidence,
        stages,
        taken,
    })
}

/// The share of proposals that is best taken in many dimensions; Roberts, Gelman and Gilks 1997, Ann. Appl.
/// Probab. 7(1):110–120, from memory.
const WANTED: f64 = 0.25;

/// 2.38/√(2d): ter Braak 2006.
fn first_scale() -> f64 {
    2.38 / (2.0 * MemberNumber::COUNT as f64).sqrt()
}

fn sums(rows: &[Vec<f64>]) -> Vec<f64> {
    rows.iter().map(|row| row.iter().sum()).collect()
}

fn offset(seed: u64, stage: usize) -> f64 {
    let sample = Sample { how: Sampling::Random, points: 1 << 20, seed, dimensions: 1 };
    sample.coordinate(stage as u64, 0)
}

/// Moves both halves once; the share of proposals that were taken.
fn moved(
    evidence: &Evidence,
    members: &mut [Member],
    rows: &mut [Vec<f64>],
    power: f64,
    scale: f64,
    seed: u64,
) -> Result<f64, BankError> {
    let count = members.len();
    let dice = Dice::new(count, seed);
    let half = count / 2;
    let mut taken = 0_usize;
    for (mine, theirs) in [(0..half, half..count), (half..count, 0..half)] {
        let others = members[theirs].to_vec();
        let proposals: Vec<Member> =
            mine.clone().map(|at| dice.proposal(at, &members[at], &others, scale)).collect();
        let proposed = evidence.log_likelihoods(&proposals)?;
        for ((at, proposal), row) in mine.zip(proposals).zip(proposed) {
            let gain = row.iter().sum::<f64>() - rows[at].iter().sum::<f64>();
            if dice.taking(at) < libm::exp(power * gain) {
                members[at] = proposal;
                rows[at] = row;
                taken += 1;
            }
        }
    }
    Ok(taken as f64 / count as f64)
}

//! Chances by shots drawn at random and played: the same question without windows.
//!
//! Each replicate is a scrambled Sobol sample of its own (randomised quasi-Monte Carlo; Owen 1997, *Monte Carlo
//! variance of scrambled net quadrature*, SIAM J. Numer. Anal. 34(5):1884–1910), so the spread between replicates
//! tells the error. Two targets that are asked with one seed get the same errors of the same hand: their
//! difference is paired.

use super::{AimedStart, Chance, Condition, PossibleTables, Skill};
use crate::ask::PairedDifference;
use crate::bank::{Bank, BankError, BankVerdict, Launch};
use crate::batch::{self, ColumnChoice, Inputs, Outcomes};
use crate::ensemble::Habit;
use crate::equipment::RailModel;
use crate::normal::below_which;
use crate::sample::{Sample, Sampling};
use rayon::prelude::*;

/// How many shots are drawn.
#[derive(Debug, Clone, Copy)]
pub struct Draw {
    /// Independent replicates.
    pub replicates: usize,
    /// Shots of each; a power of two spreads best.
    pub shots: u64,
    /// The seed of them all.
    pub seed: u64,
}

/// Aim, speed, side, and all that is read.
const CAUSES: usize = 4;

/// The chances of several targets in one condition, and how much larger the first's is than each.
///
/// # Errors
/// [`BankError`] for a rail and a pocket that make no bank.
pub fn drawn_chances(
    tables: &PossibleTables,
    model: RailModel,
    condition: &Condition,
    skill: &Skill,
    targets: &[AimedStart],
    draw: Draw,
) -> Result<Vec<(Chance, PairedDifference)>, BankError> {
    let held: Vec<Vec<Vec<f64>>> = (0..tables.len())
        .into_par_iter()
        .map(|table| {
            let bank =
                Bank::new(&tables.equipment()[table], condition.rail, condition.pocket, model)?;
            (0..draw.replicates)
                .map(|replicate| {
                    let seed =
                        draw.seed.wrapping_add(1 + (table * draw.replicates + replicate) as u64);
                    let played = (&bank, tables.habits()[table]);
                    Ok(shares(played, condition, skill, targets, seed, draw.shots))
                })
                .collect()
        })
        .collect::<Result<_, BankError>>()?;
    let weights = tables.weights();
    let share_of = |values: &dyn Fn(&[f64]) -> f64| {
        let replicates: Vec<f64> = (0..draw.replicates)
            .map(|replicate| {
                held.iter().zip(weights).map(|(table, w)| w * values(&table[replicate])).sum()
            })
            .collect();
        over_replicates(&replicates)
    };
    Ok((0..targets.len())
        .map(|at| {
            let (chance, error) = share_of(&|shares| shares[at]);
            let (difference, apart) = share_of(&|shares| shares[0] - shares[at]);
            (Chance { chance, error }, PairedDifference { difference, error: apart })
        })
        .collect())
}

/// The share of one replicate's shots that hold, a target each.
fn shares(
    (bank, habit): (&Bank, Habit),
    condition: &Condition,
    skill: &Skill,
    targets: &[AimedStart],
    seed: u64,
    shots: u64,
) -> Vec<f64> {
    let sample = Sample { how: Sampling::Sobol, points: shots, seed, dimensions: CAUSES };
    let places = condition.on(bank.geometry());
    let meant = condition.launch(bank.equipment());
    let mut inputs = Inputs::default();
    let mut point = [0.0; CAUSES];
    for shot in 0..shots {
        sample.point(shot, &mut point);
        let [aim, speed, side, read] = point.map(quantile);
        for target in targets {
            let start = target.start + target.read_spread * read;
            let line = places.line(start);
            let always = bank.geometry().right_side_runs(line) * habit.right_side;
            let launch = Launch {
                speed_m_s: meant.speed_m_s
                    * (1.0 + skill.speed * speed).max(super::nodes::LEAST_RATIO),
                side: meant.side + skill.side * side + always,
                // Positive turns the line towards the pocket's end, where starts grow.
                aim_error_rad: skill.aim_rad * aim + habit.aim_rad,
                ..meant
            };
            inputs.push(line, launch);
        }
    }
    let mut outcomes = Outcomes::default();
    batch::play(bank, &inputs, ColumnChoice::Verdicts, &mut outcomes);
    let mut held = vec![0.0; targets.len()];
    for row in outcomes.verdict.chunks_exact(targets.len()) {
        for (held, verdict) in held.iter_mut().zip(row) {
            if *verdict == BankVerdict::Holds {
                *held += 1.0;
            }
        }
    }
    held.into_iter().map(|held| held / shots as f64).collect()
}

/// The normal deviation at a coordinate; that can be 0, of which there is none.
pub(super) fn quantile(at: f64) -> f64 {
    below_which(at.clamp(f64::EPSILON, 1.0 - f64::EPSILON))
}

/// The mean of replicates and its standard error.
pub(super) fn over_replicates(values: &[f64]) -> (f64, f64) {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|value| (value - mean) * (value - mean)).sum();
    // A sum of nothing is -0.
    (mean + 0.0, (squares / (count * (count - 1.0).max(1.0))).sqrt())
}

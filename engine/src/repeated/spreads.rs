//! The spreads that repeated shots allow.

use super::ShotGroup;
use crate::ask::CredibleInterval;
use crate::chance::{Skill, SkillNumber};
use rayon::prelude::*;

/// One spread before and after the shots.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnSpread {
    /// Which.
    pub number: SkillNumber,
    /// Before them: about that of the player that one is like.
    pub before: CredibleInterval,
    /// After them.
    pub after: CredibleInterval,
}

impl OwnSpread {
    /// True where the shots tell it: they leave less than seven tenths of the ratio that was allowed before.
    pub fn is_told(&self) -> bool {
        let width = |of: &CredibleInterval| libm::log(of.ninety.1 / of.ninety.0);
        width(&self.after) < 0.7 * width(&self.before)
    }
}

/// A person's spreads by their own shots.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnSpreads {
    /// The player one is like, with the middle of every spread that is known better now.
    pub skill: Skill,
    /// Those of aim, speed and side that the other player has at all.
    pub numbers: Vec<OwnSpread>,
}

const NUMBERS: [SkillNumber; 3] = [SkillNumber::Aim, SkillNumber::Speed, SkillNumber::Side];
/// Before any shot a spread is as likely half as twice that of the player one is like, by a normal law of its logarithm:
/// a deviation is this ratio, chosen.
const RATIO: f64 = 2.0;
/// Ratios that are tried, up to so many deviations either way.
const RATIOS: u16 = 30;
const REACH: f64 = 2.7;
/// Standard deviations of places at which a group's likelihood is worked out.
const SDS: u16 = 60;

impl OwnSpreads {
    /// Of groups of shots of someone who is like this player.
    pub fn of(groups: &[ShotGroup], like: &Skill) -> Self {
        let deviations: Vec<f64> = (0..=RATIOS)
            .map(|at| REACH * (2.0 * f64::from(at) / f64::from(RATIOS) - 1.0))
            .collect();
        // A spread of nothing stays nothing.
        let tried = NUMBERS.map(|number| {
            let own = like.number(number);
            let none = [(own, 0.0)];
            let all =
                deviations.iter().map(|away| (own * libm::pow(RATIO, *away), -0.5 * away * away));
            if own > 0.0 { all.collect::<Vec<(f64, f64)>>() } else { none.to_vec() }
        });
        let most = |at: usize| tried[at].iter().map(|it| it.0).fold(0.0, f64::max);
        let largest = [most(0), most(1), most(2)];
        let lines: Vec<LikelihoodLine> =
            groups.par_iter().map(|group| LikelihoodLine::of(group, largest)).collect();
        let mut logs = Vec::new();
        for aim in &tried[0] {
            for speed in &tried[1] {
                for side in &tried[2] {
                    let spreads = [aim.0, speed.0, side.0];
                    let likely = groups.iter().zip(&lines);
                    let likely = likely.map(|(group, line)| line.at(group.variance_m2(spreads)));
                    logs.push(aim.1 + speed.1 + side.1 + likely.sum::<f64>());
                }
            }
        }
        let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = logs.iter().map(|log| libm::exp(log - most)).collect();
        let (speeds, sides) = (tried[1].len(), tried[2].len());
        let place = |at: usize| [at / (speeds * sides), at / sides % speeds, at % sides];
        let mut skill = *like;
        let mut numbers = Vec::new();
        for (at, number) in NUMBERS.into_iter().enumerate().filter(|(at, _)| tried[*at].len() > 1) {
            let mut own = vec![0.0; tried[at].len()];
            for (index, weight) in weights.iter().enumerate() {
                own[place(index)[at]] += weight;
            }
            let values: Vec<f64> = tried[at].iter().map(|it| libm::log(it.0)).collect();
            let prior: Vec<f64> = tried[at].iter().map(|it| libm::exp(it.1)).collect();
            let interval = |weights: &[f64]| {
                let found = CredibleInterval::of(&values, weights)?;
                let both = |(from, to): (f64, f64)| (libm::exp(from), libm::exp(to));
                Some(CredibleInterval {
                    middle: libm::exp(found.middle),
                    half: both(found.half),
                    ninety: both(found.ninety),
                })
            };
            let Some((before, after)) = interval(&prior).zip(interval(&own)) else { continue };
            skill.set(number, after.middle);
            numbers.push(OwnSpread { number, before, after });
        }
        Self { skill, numbers }
    }
}

/// A group's likelihood over the logarithm of its places' standard deviation, between whose entries straight lines serve.
struct LikelihoodLine {
    first: f64,
    step: f64,
    logs: Vec<f64>,
}

impl LikelihoodLine {
    fn of(group: &ShotGroup, largest: [f64; 3]) -> Self {
        let log_sd = |spreads| 0.5 * libm::log(group.variance_m2(spreads).max(1e-12));
        let (first, last) = (log_sd([0.0; 3]), log_sd(largest));
        let step = ((last - first) / f64::from(SDS)).max(1e-9);
        let logs = (0..=SDS)
            .map(|at| group.log_likelihood(libm::exp(first + step * f64::from(at))))
            .collect();
        Self { first, step, logs }
    }

    fn at(&self, variance_m2: f64) -> f64 {
        let place = (0.5 * libm::log(variance_m2.max(1e-12)) - self.first) / self.step;
        let place = place.clamp(0.0, f64::from(SDS));
        let from = whole(place).min(self.logs.len() - 2);
        let share = place - from as f64;
        self.logs[from] + share * (self.logs[from + 1] - self.logs[from])
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "positive and small")]
const fn whole(number: f64) -> usize {
    number as usize
}

//! The spreads that repeated shots allow.

use super::{LinePlaces, NotTold, RepeatedLine, repeated_lines};
use crate::ask::CredibleInterval;
use crate::bank::{Bank, BankError};
use crate::chance::{Skill, SkillNumber};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};
use crate::evidence::MeasuredBank;
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
    /// The number of lines that tell something.
    pub lines: usize,
    /// The number of shots along them.
    pub shots: u32,
    /// Shots that tell nothing, and why.
    pub left_out: Vec<(NotTold, u32)>,
}

const NUMBERS: [SkillNumber; 3] = [SkillNumber::Aim, SkillNumber::Speed, SkillNumber::Side];
/// Before any shot a spread is as likely half as twice that of the player one is like, by a normal law of its logarithm:
/// a deviation is this ratio, chosen.
const RATIO: f64 = 2.0;
/// Ratios that are tried, up to so many deviations either way.
const RATIOS: u16 = 30;
const REACH: f64 = 2.7;
/// Standard deviations of places at which a line's likelihood is worked out.
const SDS: u16 = 30;
/// A line of which more tables than this share have shots at rest before a rail tells nothing.
const MOST_AT_REST: f64 = 0.25;

impl OwnSpreads {
    /// Of measured banks of someone who is like this player, on a table that could be any of these members'.
    ///
    /// # Errors
    /// [`BankError`] for a table without one of the banks.
    pub fn of(
        (table, model): (&Equipment, RailModel),
        members: &[Member],
        banks: &[MeasuredBank],
        like: &Skill,
    ) -> Result<Self, BankError> {
        let (mut lines, by_cue_ball) = repeated_lines(banks);
        let all = over_tables((table, model), members, &lines, like)?;
        let mut left_out = vec![(NotTold::ByCueBall, by_cue_ball)];
        let told: Vec<bool> = (0..lines.len())
            .map(|line| {
                let at_rest = all.iter().filter(|table| table[line].is_none()).count();
                at_rest as f64 <= MOST_AT_REST * all.len() as f64
            })
            .collect();
        let near_rest = lines.iter().zip(&told).filter(|(_, told)| !**told);
        left_out.push((NotTold::NearRest, near_rest.map(|(line, _)| line.shots()).sum()));
        left_out.retain(|(_, shots)| *shots > 0);
        let mut keep = told.iter();
        lines.retain(|_| keep.next().is_some_and(|told| *told));
        // A table on which one of the others is at rest is none of those that it could be.
        let tables: Vec<Vec<LinePlaces>> = all
            .into_iter()
            .filter_map(|table| {
                let told = table.into_iter().zip(&told).filter(|(_, told)| **told);
                told.map(|(places, _)| places).collect()
            })
            .collect();
        let (skill, numbers) = spreads(&lines, &tables, like);
        let shots = lines.iter().map(RepeatedLine::shots).sum();
        Ok(Self { skill, numbers, lines: lines.len(), shots, left_out })
    }
}

/// The places of every line on every member's table.
fn over_tables(
    (table, model): (&Equipment, RailModel),
    members: &[Member],
    lines: &[RepeatedLine],
    like: &Skill,
) -> Result<Vec<Vec<Option<LinePlaces>>>, BankError> {
    members
        .par_iter()
        .map(|member| {
            let equipment = member.equipment(table);
            lines
                .iter()
                .map(|line| {
                    let (rail, pocket) = (line.set_up.rail, line.set_up.pocket);
                    let bank = Bank::new(&equipment, rail, pocket, model)?;
                    Ok(LinePlaces::of(&bank, member, line, like))
                })
                .collect()
        })
        .collect()
}

/// The player with the middle of every spread, and what is known of each before and after.
fn spreads(
    lines: &[RepeatedLine],
    tables: &[Vec<LinePlaces>],
    like: &Skill,
) -> (Skill, Vec<OwnSpread>) {
    let deviations: Vec<f64> =
        (0..=RATIOS).map(|at| REACH * (2.0 * f64::from(at) / f64::from(RATIOS) - 1.0)).collect();
    // A spread of nothing stays nothing.
    let tried = NUMBERS.map(|number| {
        let own = like.number(number);
        let none = [(own, 0.0)];
        let all = deviations.iter().map(|away| (own * libm::pow(RATIO, *away), -0.5 * away * away));
        if own > 0.0 { all.collect::<Vec<(f64, f64)>>() } else { none.to_vec() }
    });
    let most = |at: usize| tried[at].iter().map(|it| it.0).fold(0.0, f64::max);
    let largest = [most(0), most(1), most(2)];
    let mut points: Vec<([f64; 3], f64)> = Vec::new();
    for aim in &tried[0] {
        for speed in &tried[1] {
            for side in &tried[2] {
                points.push(([aim.0, speed.0, side.0], aim.1 + speed.1 + side.1));
            }
        }
    }
    // The likelihood is the mean over tables.
    let by_table: Vec<Vec<f64>> = tables
        .par_iter()
        .map(|table| {
            let known: Vec<LikelihoodLine> = lines
                .iter()
                .zip(table)
                .map(|(line, places)| LikelihoodLine::of(line, places, largest))
                .collect();
            let likely = |(spreads, before): &([f64; 3], f64)| {
                let of_lines = table.iter().zip(&known);
                let of_lines = of_lines.map(|(places, line)| line.at(places.variance_m2(*spreads)));
                before + of_lines.sum::<f64>()
            };
            points.iter().map(likely).collect()
        })
        .collect();
    let most = by_table.iter().flatten().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = (0..points.len())
        .map(|at| by_table.iter().map(|table| libm::exp(table[at] - most)).sum())
        .collect();
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
    (skill, numbers)
}

/// A line's likelihood over the logarithm of its places' standard deviation, between whose entries straight lines serve.
struct LikelihoodLine {
    first: f64,
    step: f64,
    logs: Vec<f64>,
}

impl LikelihoodLine {
    fn of(line: &RepeatedLine, places: &LinePlaces, largest: [f64; 3]) -> Self {
        let log_sd = |spreads| 0.5 * libm::log(places.variance_m2(spreads).max(1e-12));
        let (first, last) = (log_sd([0.0; 3]), log_sd(largest));
        let step = ((last - first) / f64::from(SDS)).max(1e-9);
        let logs = (0..=SDS)
            .map(|at| places.log_likelihood(line, libm::exp(first + step * f64::from(at))))
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

//! The best rule of every effort.

use super::corrections::SeenBall;
use super::grammar::with_none;
use super::rule_block::{BLOCK, RuleBlock};
use super::{Corrections, Effort, Grammar, Ground, HeadRule};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// The best rule of each effort, and its mean chance on the ground that was searched.
#[derive(Debug, Clone, PartialEq)]
pub struct BestByEffort {
    best: BTreeMap<Effort, (f64, HeadRule)>,
    tried: u64,
}

impl BestByEffort {
    /// By effort.
    pub fn iter(&self) -> impl Iterator<Item = (Effort, f64, HeadRule)> {
        self.best.iter().map(|(effort, (chance, rule))| (*effort, *chance, *rule))
    }

    /// The number of rules tried; corrections that no ball asks for are not counted.
    pub const fn tried(&self) -> u64 {
        self.tried
    }

    /// Of equal rules the one that was offered first stays.
    fn offer(&mut self, effort: Effort, chance: f64, rule: HeadRule) {
        let known = self.best.entry(effort).or_insert((chance, rule));
        if chance > known.0 {
            *known = (chance, rule);
        }
    }
}

/// Goes through all rules of a grammar.
///
/// Balls that a person sees alike (as many hands off, the same word, sliding or rolling) get the same correction,
/// so the chances of a base are added up once for each such group and each correction; every combination of
/// corrections is then a sum over groups. Soft and firm balls share no group, so each has its best correction
/// apart from the other.
pub fn search(ground: &Ground, grammar: &Grammar) -> BestByEffort {
    let bases = grammar.bases();
    let groups = Groups::of(ground, grammar);
    let found: Vec<BestByEffort> =
        bases.par_chunks(BLOCK).map(|block| groups.best_of(ground, block)).collect();
    let corrections = [&groups.hand, &groups.soft, &groups.firm, &groups.rolling];
    let each: u64 = corrections.iter().map(|list| list.len() as u64).product();
    let mut best = BestByEffort { best: BTreeMap::new(), tried: bases.len() as u64 * each };
    for of_block in found {
        for (effort, chance, rule) in of_block.iter() {
            best.offer(effort, chance, rule);
        }
    }
    best
}

/// Balls seen alike, and the corrections that they can get.
struct Groups {
    /// Each group's look, in order.
    seen: Vec<SeenBall>,
    /// The group of every ball.
    of_ball: Vec<usize>,
    hand: Vec<i8>,
    soft: Vec<i8>,
    firm: Vec<i8>,
    rolling: Vec<i8>,
    /// For each group the least correction and the number of them up to the most.
    tenths: Vec<(i16, usize)>,
    balls: f64,
}

impl Groups {
    fn of(ground: &Ground, grammar: &Grammar) -> Self {
        let mut seen: Vec<SeenBall> = ground.balls().iter().map(|ball| ball.seen).collect();
        seen.sort_unstable();
        seen.dedup();
        let has = |wanted: fn(&SeenBall) -> bool| seen.iter().any(wanted);
        // A correction that no ball asks for is none.
        let where_asked = |asked: bool, list: &[i8]| with_none(if asked { list } else { &[] });
        let hand = where_asked(has(|ball| ball.hands > 0), &grammar.hand);
        let soft = where_asked(has(|ball| ball.word == 0), &grammar.soft);
        let firm = where_asked(has(|ball| ball.word == 2), &grammar.firm);
        let rolling = where_asked(has(|ball| ball.rolls), &grammar.rolling);
        let of_ball = ground
            .balls()
            .iter()
            .map(|ball| seen.partition_point(|group| *group < ball.seen))
            .collect();
        let range = |list: &[i8]| (i16::from(list[0]), i16::from(list[list.len() - 1]));
        let tenths = seen
            .iter()
            .map(|ball| {
                let speed = match ball.word {
                    0 => range(&soft),
                    1 => (0, 0),
                    _ => range(&firm),
                };
                let rolls = if ball.rolls { range(&rolling) } else { (0, 0) };
                let hands = range(&hand);
                let of = |hand: i16, speed: i16, rolls: i16| {
                    i16::from(ball.hands) * hand + speed + rolls
                };
                let (least, most) = (of(hands.0, speed.0, rolls.0), of(hands.1, speed.1, rolls.1));
                (least, usize::from(least.abs_diff(most)) + 1)
            })
            .collect();
        let balls = ground.len().max(1) as f64;
        Self { seen, of_ball, hand, soft, firm, rolling, tenths, balls }
    }

    fn best_of(&self, ground: &Ground, bases: &[HeadRule]) -> BestByEffort {
        let mut best = BestByEffort { best: BTreeMap::new(), tried: 0 };
        let sums = self.sums(ground, bases);
        for (base, sums) in bases.iter().zip(&sums) {
            self.best_corrections(*base, sums, &mut best);
        }
        best
    }

    /// For every base and group, the sum of chances with each correction.
    fn sums(&self, ground: &Ground, bases: &[HeadRule]) -> Vec<Vec<Vec<f64>>> {
        let lines = RuleBlock::of(bases);
        let empty: Vec<Vec<f64>> = self.tenths.iter().map(|(_, count)| vec![0.0; *count]).collect();
        let mut sums = vec![empty; bases.len()];
        for (ball, &group) in ground.balls().iter().zip(&self.of_ball) {
            let least = self.tenths[group].0;
            for (tenths, place) in (least..).zip(0..self.tenths[group].1) {
                let chances = ball.chances(&lines, &[f64::from(tenths); BLOCK]);
                for (sums, chance) in sums.iter_mut().zip(chances) {
                    sums[group][place] += chance;
                }
            }
        }
        sums
    }

    fn best_corrections(&self, base: HeadRule, sums: &[Vec<f64>], best: &mut BestByEffort) {
        let at = |group: usize, corrections: Corrections| {
            let tenths = corrections.for_ball(self.seen[group]);
            let place = usize::from(tenths.abs_diff(self.tenths[group].0));
            sums[group][place]
        };
        let over = |word: u8, corrections: Corrections| -> f64 {
            let groups = (0..self.seen.len()).filter(|&group| self.seen[group].word == word);
            groups.map(|group| at(group, corrections)).sum()
        };
        for &hand in &self.hand {
            for &rolling in &self.rolling {
                let none = Corrections { hand, rolling, ..Corrections::NONE };
                let medium = over(1, none);
                let soft =
                    with_and_without(&self.soft, |soft| over(0, Corrections { soft, ..none }));
                let firm =
                    with_and_without(&self.firm, |firm| over(2, Corrections { firm, ..none }));
                for (soft, soft_sum) in soft {
                    for &(firm, firm_sum) in &firm {
                        let corrections = Corrections { soft, firm, ..none };
                        let rule = HeadRule { corrections, ..base };
                        let chance = (medium + soft_sum + firm_sum) / self.balls;
                        best.offer(rule.effort(), chance, rule);
                    }
                }
            }
        }
    }
}

/// No correction with its sum, and the best one with its own; of equal ones the first.
fn with_and_without(list: &[i8], sum: impl Fn(i8) -> f64) -> Vec<(i8, f64)> {
    let mut both = vec![(0, sum(0))];
    let others = list.iter().filter(|tenths| **tenths != 0).map(|&tenths| (tenths, sum(tenths)));
    let better = |a: (i8, f64), b: (i8, f64)| if b.1 > a.1 { b } else { a };
    both.extend(others.reduce(better));
    both
}

//! The question, and its answer.

use super::{BallWay, ChoiceTally, InTheWay, JudgedBy, MeantLine, NoLine, in_the_way};
use crate::aim::Setup;
use crate::ask::PairedDifference;
use crate::chance::drawn::Draw;
use crate::chance::{Skill, StrokeSpread};
use crate::stroke::Stroke;
use crate::verdict::ShotVerdict;
use rayon::prelude::*;

/// Which is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Better {
    /// The best bank.
    Bank,
    /// The best cut.
    Cut,
    /// They can't be told apart by so many strokes.
    CantBeTold,
    /// Neither is ever made.
    Neither,
}

impl Better {
    /// Every one, in the order of legends.
    pub const ALL: [Self; 4] = [Self::Bank, Self::Cut, Self::CantBeTold, Self::Neither];

    /// The name in scripts and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bank => "bank",
            Self::Cut => "cut",
            Self::CantBeTold => "cant-be-told",
            Self::Neither => "neither",
        }
    }
}

/// The strokes that are played.
#[derive(Debug, Clone, Copy)]
pub struct ChoiceDraw {
    /// Of every way, to choose the best of each kind.
    pub first: Draw,
    /// Of those that may be the best, to tell their chances: other strokes, so that luck in the choice isn't told. Cuts
    /// are struck with others than banks.
    pub then: Draw,
}

impl ChoiceDraw {
    /// For one layout.
    pub const USUAL: Self = Self {
        first: Draw { replicates: 4, shots: 64, seed: 1001 },
        then: Draw { replicates: 16, shots: 64, seed: 1 },
    };
    /// For each cell of a map.
    pub const OF_A_MAP: Self = Self {
        first: Draw { replicates: 2, shots: 16, seed: 1001 },
        then: Draw { replicates: 8, shots: 32, seed: 1 },
    };
}

/// What is asked.
#[derive(Debug, Clone)]
pub struct ChoiceQuestion<'w> {
    /// The balls; the pocket is any.
    pub setup: Setup<'w>,
    /// The stroke but for its aim.
    pub stroke: Stroke,
    /// The ways to be compared.
    pub ways: Vec<BallWay>,
    /// The person.
    pub skill: Skill,
    /// How they come to a bank's line.
    pub judged_by: JudgedBy<'w>,
}

/// One way, as it was found.
#[derive(Debug, Clone)]
pub struct FoundChoice {
    /// The way.
    pub way: BallWay,
    /// Its line with the stroke.
    pub line: Result<MeantLine, NoLine>,
    /// The outcome of the stroke as it is meant.
    pub meant: Option<ShotVerdict>,
    /// The thing in the way of that.
    pub in_the_way: Option<InTheWay>,
    /// Its strokes, counted; `None` without a line.
    pub tally: Option<ChoiceTally>,
}

/// Every way, and which is better.
#[derive(Debug, Clone)]
pub struct BallChoice {
    /// The ways in the order of the question.
    pub found: Vec<FoundChoice>,
    /// The best bank's place in it.
    pub bank: Option<usize>,
    /// The best cut's.
    pub cut: Option<usize>,
    /// How much larger the bank's chance is than the cut's, where there are both.
    pub apart: Option<PairedDifference>,
}

/// Ways within so many paired errors of the best of their kind are played on.
const MAYBE_BEST: f64 = 3.0;

/// A way that is made more seldom is not counted on. Chosen.
const COUNTED_ON: f64 = 0.01;

/// Between the seed of banks and that of cuts.
///
/// The same errors on two ways would not make their difference surer, as they do for two rules on one ball: a turn that
/// spoils the one need not spoil the other. Measured over six layouts, the variance with the same strokes was 0.9 to
/// 1.2 of that with others, so each kind has its own and their errors add up.
const CUT_SEED: u64 = 500_000;

impl ChoiceQuestion<'_> {
    /// Plays every way.
    pub fn answer(&self, draw: ChoiceDraw) -> BallChoice {
        let mut found: Vec<FoundChoice> =
            self.ways.par_iter().map(|way| self.found(*way, draw.first)).collect();
        let bank = best(&found, true);
        let cut = best(&found, false);
        let goes_on: Vec<bool> = found
            .iter()
            .map(|one| {
                let best = if one.way.is_bank() { bank } else { cut };
                let best = best.and_then(|at| found[at].tally.as_ref());
                one.tally.as_ref().zip(best).is_some_and(|(own, best)| {
                    let behind = best.less(own);
                    behind.difference <= MAYBE_BEST * behind.error
                })
            })
            .collect();
        found.par_iter_mut().zip(goes_on).for_each(|(one, goes_on)| {
            if goes_on && let Ok(line) = &one.line {
                let spread = self.spread(line);
                let own = if one.way.is_bank() { 0 } else { CUT_SEED };
                let then = Draw { seed: draw.then.seed.wrapping_add(own), ..draw.then };
                let tally = ChoiceTally::play(&self.setup, one.way, line, spread, then);
                one.tally = Some(tally);
            }
        });
        let tally = |at: Option<usize>| at.and_then(|at| found[at].tally.as_ref());
        let apart = tally(bank).zip(tally(cut)).map(|(bank, cut)| bank.less_apart(cut));
        BallChoice { found, bank, cut, apart }
    }

    fn found(&self, way: BallWay, draw: Draw) -> FoundChoice {
        let setup = Setup { pocket: way.pocket(), ..self.setup.clone() };
        let line = MeantLine::new(&setup, &self.stroke, way, self.judged_by, &self.skill);
        let played = line.as_ref().ok().and_then(|line| setup.judge(&line.aim.stroke).ok());
        let in_the_way = played.as_ref().and_then(|(shot, _)| in_the_way(shot, way));
        let tally = line
            .as_ref()
            .ok()
            .map(|line| ChoiceTally::play(&self.setup, way, line, self.spread(line), draw));
        FoundChoice { way, line, meant: played.map(|it| it.1), in_the_way, tally }
    }

    /// The spread of the strokes: by the cue ball's way to where it hits.
    fn spread(&self, line: &MeantLine) -> StrokeSpread {
        let from = self.setup.cue.state.position;
        let away_m = (line.aim.hit.cue_before.position - from).norm();
        StrokeSpread::of(&self.skill, self.setup.cue.ball.radius_m(), Some(away_m))
    }
}

/// The best of a kind by its first strokes; `None` where none is ever made.
fn best(found: &[FoundChoice], bank: bool) -> Option<usize> {
    let chance = |one: &FoundChoice| one.tally.as_ref().map_or(0.0, |it| it.chance().chance);
    let mut best: Option<(usize, f64)> = None;
    for (at, one) in found.iter().enumerate().filter(|(_, one)| one.way.is_bank() == bank) {
        let chance = chance(one);
        if chance > best.map_or(0.0, |best| best.1) {
            best = Some((at, chance));
        }
    }
    best.map(|best| best.0)
}

impl BallChoice {
    /// Which is better.
    pub fn better(&self) -> Better {
        let made = |at: Option<usize>| {
            let tally = at.and_then(|at| self.found[at].tally.as_ref());
            tally.is_some_and(|tally| tally.chance().chance >= COUNTED_ON)
        };
        match (made(self.bank), made(self.cut), self.apart) {
            (false, false, _) => Better::Neither,
            (true, true, Some(apart)) if apart.is_untold() => Better::CantBeTold,
            (true, true, Some(apart)) if apart.difference < 0.0 => Better::Cut,
            (true, ..) => Better::Bank,
            (false, true, _) => Better::Cut,
        }
    }
}

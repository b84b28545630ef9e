//! What to add to the starts of one rule: a table of tenths that a person can keep in the head, and what it gains.

use super::corrections::{CorrectedFor, Corrections, SeenBall};
use super::{FrontRule, Halves};
use crate::ask::PairedDifference;
use crate::chance::{AimedStart, Chance, Condition, HoldWindows, RuleChances, Skill};
use crate::rail::BankGeometry;
use crate::rule::Rule;
use rayon::prelude::*;

/// Tables of corrections of one rule for one person, by the number of their rows.
#[derive(Debug, Clone)]
pub struct CorrectionTables {
    /// The best of each number of rows, from none on, as long as more rows made more balls where they were searched.
    pub tables: Vec<CorrectionTable>,
    /// The place among them of the smallest that is no worse than the last, or tied with it.
    pub named: usize,
    /// What each row of that one gains.
    pub rows: Vec<CorrectionRow>,
    /// How many things the balls ask a correction for.
    pub asked: usize,
}

/// A table of corrections.
#[derive(Debug, Clone)]
pub struct CorrectionTable {
    /// Its rows.
    pub corrections: Corrections,
    /// The mean chance where it was searched: too good, since it was chosen for it.
    pub searched: f64,
    /// Its mean chance on the other half.
    pub chance: Chance,
    /// How much more it makes there than the rule alone.
    pub gain: PairedDifference,
    /// How much more the last table makes there; 0 for the last itself.
    pub behind: PairedDifference,
}

/// A row of the table to keep.
#[derive(Debug, Clone, Copy)]
pub struct CorrectionRow {
    /// What it is for.
    pub what: CorrectedFor,
    /// Tenths of a diamond.
    pub tenths: i8,
    /// True for the largest that was tried: a larger one may be better.
    pub at_most: bool,
    /// How much more is made of all balls with this row than without it.
    pub gain: PairedDifference,
    /// The same of the balls that it is for.
    pub gain_there: PairedDifference,
    /// The number of those.
    pub balls: usize,
}

impl CorrectionTables {
    /// Searches on one half, and tells of the other.
    pub fn of(halves: &Halves, skill: &Skill, rule: &Rule) -> Self {
        let sheet = TenthsSheet::of(&halves.searched, skill, rule);
        let mut best: Vec<(Corrections, f64)> = Vec::new();
        for (corrections, sum) in sheet.best_by_rows() {
            if best.last().is_none_or(|(_, before)| sum > *before) {
                best.push((corrections, sum));
            }
        }
        let told = |corrections| corrected_chances(&halves.told, skill, rule, corrections);
        let played: Vec<RuleChances> =
            best.iter().map(|(corrections, _)| told(*corrections)).collect();
        let last = &played[played.len() - 1];
        let tables: Vec<CorrectionTable> = best
            .iter()
            .zip(&played)
            .map(|((corrections, sum), own)| CorrectionTable {
                corrections: *corrections,
                searched: sum / sheet.balls,
                chance: own.chance(),
                gain: own.less(&played[0]),
                behind: last.less(own),
            })
            .collect();
        let named = tables.iter().position(|it| FrontRule::ties(it.behind)).unwrap_or(0);
        let kept = tables[named].corrections;
        let rows = kept.rows().map(|row| row_gain(&halves.told, skill, rule, kept, row)).collect();
        Self { tables, named, rows, asked: sheet.asked.len() }
    }

    /// The table to keep.
    pub fn named(&self) -> &CorrectionTable {
        &self.tables[self.named]
    }
}

/// What a row gains, of all balls and of those that it is for.
fn row_gain(
    told: &HoldWindows,
    skill: &Skill,
    rule: &Rule,
    kept: Corrections,
    (what, tenths): (CorrectedFor, i8),
) -> CorrectionRow {
    let without = kept.with(what, 0);
    let gain = |windows: &HoldWindows| {
        let of = |corrections| corrected_chances(windows, skill, rule, corrections);
        of(kept).less(&of(without))
    };
    let conditions = told.conditions().iter().enumerate();
    let there: Vec<usize> =
        conditions.filter(|(_, it)| what.asks_for(it)).map(|(at, _)| at).collect();
    CorrectionRow {
        what,
        tenths,
        at_most: tenths.abs() == what.most(),
        gain: gain(told),
        gain_there: gain(&told.of_conditions(&there)),
        balls: there.len(),
    }
}

/// The chances of a rule so corrected, ball by ball.
fn corrected_chances(
    windows: &HoldWindows,
    skill: &Skill,
    rule: &Rule,
    corrections: Corrections,
) -> RuleChances {
    RuleChances::by(windows, skill, |ball, frame| {
        target(rule, corrections.for_ball(SeenBall::of(ball)), ball, skill, frame)
    })
}

/// The line with so many tenths added; `None` where the rule has none through the ball.
fn target(
    rule: &Rule,
    tenths: i16,
    ball: &Condition,
    skill: &Skill,
    frame: &BankGeometry,
) -> Option<AimedStart> {
    let rule = rule.plus(0.1 * f64::from(tenths), frame).ok()?;
    AimedStart::by_rule(&rule, ball, skill, frame).ok()
}

/// More tenths than this are not tried for one ball.
const MOST_TENTHS: i16 = 20;
const TENTHS: usize = 41;
/// Rounds in which one correction after the other is set to its best.
const ROUNDS: usize = 20;

/// The sums of chances with every number of tenths, over balls that a person sees alike.
struct TenthsSheet {
    groups: Vec<(SeenBall, [f64; TENTHS])>,
    /// What any ball asks for.
    asked: Vec<CorrectedFor>,
    balls: f64,
}

impl TenthsSheet {
    fn of(windows: &HoldWindows, skill: &Skill, rule: &Rule) -> Self {
        let conditions = windows.conditions();
        let chances: Vec<Vec<f64>> = (0..conditions.len())
            .into_par_iter()
            .map(|at| {
                let target =
                    |tenths| target(rule, tenths, &conditions[at], skill, windows.geometry(at));
                let targets: Vec<_> = (-MOST_TENTHS..=MOST_TENTHS).map(target).collect();
                windows.chances_of_each(at, &targets, skill)
            })
            .collect();
        let mut seen: Vec<SeenBall> = conditions.iter().map(SeenBall::of).collect();
        seen.sort_unstable();
        seen.dedup();
        let mut groups: Vec<(SeenBall, [f64; TENTHS])> =
            seen.into_iter().map(|seen| (seen, [0.0; TENTHS])).collect();
        for (ball, chances) in conditions.iter().zip(chances) {
            let own = SeenBall::of(ball);
            let at = groups.partition_point(|(seen, _)| *seen < own);
            for (sum, chance) in groups[at].1.iter_mut().zip(chances) {
                *sum += chance;
            }
        }
        let asked = CorrectedFor::ALL.into_iter();
        let asked = asked.filter(|what| groups.iter().any(|(seen, _)| what.times(*seen) > 0));
        Self { asked: asked.collect(), balls: conditions.len().max(1) as f64, groups }
    }

    /// The sum over all balls; none where a ball would get more tenths than are tried.
    fn sum(&self, corrections: Corrections) -> f64 {
        let mut whole = 0.0;
        for (seen, sums) in &self.groups {
            let place = corrections.for_ball(*seen) + MOST_TENTHS;
            match usize::try_from(place).ok().and_then(|place| sums.get(place)) {
                Some(sum) => whole += sum,
                None => return f64::NEG_INFINITY,
            }
        }
        whole
    }

    /// The best table of every number of rows, from none on, with its sum.
    fn best_by_rows(&self) -> Vec<(Corrections, f64)> {
        let count = self.asked.len();
        let sets: Vec<Vec<CorrectedFor>> = (0..1_u32 << count)
            .map(|set| {
                let kept = self.asked.iter().enumerate().filter(|(at, _)| set >> at & 1 == 1);
                kept.map(|(_, what)| *what).collect()
            })
            .collect();
        let found: Vec<(Corrections, f64)> = sets.par_iter().map(|set| self.best_of(set)).collect();
        (0..=count)
            .map(|rows| {
                let of_rows = sets.iter().zip(&found).filter(|(set, _)| set.len() == rows);
                let none = (Corrections::NONE, f64::NEG_INFINITY);
                of_rows.fold(none, |best, (_, own)| if own.1 > best.1 { *own } else { best })
            })
            .collect()
    }

    /// The best tenths for some things. Those for the table and for each hand are tried together, all others are set
    /// one after the other until none gains.
    fn best_of(&self, set: &[CorrectedFor]) -> (Corrections, f64) {
        let range = |what: CorrectedFor| {
            let most = if set.contains(&what) { what.most() } else { 0 };
            -most..=most
        };
        let others =
            set.iter().filter(|it| !matches!(it, CorrectedFor::Table | CorrectedFor::Hand));
        let others: Vec<CorrectedFor> = others.copied().collect();
        let mut best = (Corrections::NONE, self.sum(Corrections::NONE));
        for table in range(CorrectedFor::Table) {
            for hand in range(CorrectedFor::Hand) {
                let own = self.climbed(Corrections { hand, table, ..Corrections::NONE }, &others);
                if own.1 > best.1 {
                    best = own;
                }
            }
        }
        best
    }

    fn climbed(&self, from: Corrections, set: &[CorrectedFor]) -> (Corrections, f64) {
        let mut best = (from, self.sum(from));
        for _ in 0..ROUNDS {
            let before = best.1;
            for &what in set {
                for tenths in -what.most()..=what.most() {
                    let own = best.0.with(what, tenths);
                    let sum = self.sum(own);
                    if sum > best.1 {
                        best = (own, sum);
                    }
                }
            }
            if best.1 <= before {
                break;
            }
        }
        best
    }
}

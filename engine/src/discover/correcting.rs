//! What to add to the starts of one rule: a table of tenths that a person can keep in the head, and what it gains.

use super::Halves;
use super::corrections::{CorrectedFor, Corrections, SeenBall};
use crate::ask::PairedDifference;
use crate::chance::{AimedStart, Chance, Condition, HoldWindows, RuleChances, Skill};
use crate::rail::BankGeometry;
use crate::rule::{Rule, RuleError};
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
    ///
    /// # Errors
    /// Where the rule's function fails for one of the balls.
    pub fn of(halves: &Halves, skill: &Skill, rule: &Rule) -> Result<Self, RuleError> {
        let sheet = TenthsSheet::of(&halves.searched, skill, rule)?;
        let mut best: Vec<(Corrections, f64)> = Vec::new();
        for (corrections, sum) in sheet.best_by_rows() {
            if best.last().is_none_or(|(_, before)| sum > *before) {
                best.push((corrections, sum));
            }
        }
        let told = |corrections| corrected_chances(&halves.told, skill, rule, corrections);
        let played: Vec<RuleChances> =
            best.iter().map(|(corrections, _)| told(*corrections)).collect::<Result<_, _>>()?;
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
        let named = tables.iter().position(|it| it.behind.is_no_worse()).unwrap_or(0);
        let kept = tables[named].corrections;
        let row = |row| row_gain(&halves.told, skill, rule, kept, row);
        let rows = kept.rows().map(row).collect::<Result<_, _>>()?;
        Ok(Self { tables, named, rows, asked: sheet.asked.len() })
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
) -> Result<CorrectionRow, RuleError> {
    let without = kept.with(what, 0);
    let gain = |windows: &HoldWindows| {
        let of = |corrections| corrected_chances(windows, skill, rule, corrections);
        Ok::<_, RuleError>(of(kept)?.less(&of(without)?))
    };
    let conditions = told.conditions().iter().enumerate();
    let there: Vec<usize> =
        conditions.filter(|(_, it)| what.asks_for(it)).map(|(at, _)| at).collect();
    Ok(CorrectionRow {
        what,
        tenths,
        at_most: tenths.abs() == what.most(),
        gain: gain(told)?,
        gain_there: gain(&told.of_conditions(&there))?,
        balls: there.len(),
    })
}

/// The chances of a rule so corrected, ball by ball.
fn corrected_chances(
    windows: &HoldWindows,
    skill: &Skill,
    rule: &Rule,
    corrections: Corrections,
) -> Result<RuleChances, RuleError> {
    let of = |(at, ball): (usize, &Condition)| {
        let tenths = corrections.for_ball(SeenBall::of(ball));
        target(rule, tenths, ball, skill, windows.geometry(at))
    };
    let targets: Vec<Option<AimedStart>> =
        windows.conditions().iter().enumerate().map(of).collect::<Result<_, _>>()?;
    Ok(RuleChances::of(windows, skill, &targets))
}

/// The line with so many tenths added; `None` where the rule has none through the ball.
fn target(
    rule: &Rule,
    tenths: i16,
    ball: &Condition,
    skill: &Skill,
    frame: &BankGeometry,
) -> Result<Option<AimedStart>, RuleError> {
    let more = rule.plus(0.1 * f64::from(tenths), frame);
    RuleError::line_or_none(more.and_then(|rule| AimedStart::by_rule(&rule, ball, skill, frame)))
}

/// More tenths than this are not tried for one ball.
const MOST_TENTHS: i16 = 20;
const TENTHS: usize = 41;

/// The sums of chances with every number of tenths.
type TenthsSums = [f64; TENTHS];

/// The same over balls that a person sees alike.
struct TenthsSheet {
    groups: Vec<(SeenBall, TenthsSums)>,
    /// What any ball asks for.
    asked: Vec<CorrectedFor>,
    balls: f64,
}

/// The best table of every number of rows, with its sum.
type BestByRows = [(Corrections, f64); CorrectedFor::ALL.len() + 1];

impl TenthsSheet {
    fn of(windows: &HoldWindows, skill: &Skill, rule: &Rule) -> Result<Self, RuleError> {
        let conditions = windows.conditions();
        let chances: Vec<Vec<f64>> = (0..conditions.len())
            .into_par_iter()
            .map(|at| {
                let target =
                    |tenths| target(rule, tenths, &conditions[at], skill, windows.geometry(at));
                let targets: Vec<_> =
                    (-MOST_TENTHS..=MOST_TENTHS).map(target).collect::<Result<_, RuleError>>()?;
                Ok(windows.chances_of_each(at, &targets, skill))
            })
            .collect::<Result<_, RuleError>>()?;
        let mut seen: Vec<SeenBall> = conditions.iter().map(SeenBall::of).collect();
        seen.sort_unstable();
        seen.dedup();
        let mut groups: Vec<(SeenBall, TenthsSums)> =
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
        Ok(Self { asked: asked.collect(), balls: conditions.len().max(1) as f64, groups })
    }

    /// What is tried for something: nothing where no ball asks for it.
    fn range(&self, what: CorrectedFor) -> core::ops::RangeInclusive<i8> {
        let most = if self.asked.contains(&what) { what.most() } else { 0 };
        -most..=most
    }

    /// The best table of every number of rows, from none on, with its sum: of all tables that there are.
    fn best_by_rows(&self) -> Vec<(Corrections, f64)> {
        let pairs: Vec<(i8, i8)> = self
            .range(CorrectedFor::Table)
            .flat_map(|table| self.range(CorrectedFor::Hand).map(move |hand| (table, hand)))
            .collect();
        let found: Vec<BestByRows> =
            pairs.par_iter().map(|&(table, hand)| self.best_with(table, hand)).collect();
        (0..=self.asked.len())
            .map(|rows| {
                let none = (Corrections::NONE, f64::NEG_INFINITY);
                let own = found.iter().map(|best| best[rows]);
                own.fold(none, |best, own| if own.1 > best.1 { own } else { best })
            })
            .collect()
    }

    /// The same of tables with these two corrections. Soft and firm balls are no others' balls, so each has its best
    /// correction apart from the other.
    fn best_with(&self, table: i8, hand: i8) -> BestByRows {
        let sums = self.beyond(table, hand);
        let mut best = [(Corrections::NONE, f64::NEG_INFINITY); CorrectedFor::ALL.len() + 1];
        for rolling in self.range(CorrectedFor::Rolling) {
            for running in self.range(CorrectedFor::Running) {
                for reverse in self.range(CorrectedFor::Reverse) {
                    let of_word = |word: usize, tenths: i8| -> f64 {
                        let mut sum = 0.0;
                        for (own, roll) in sums[word].iter().zip([0, rolling]) {
                            for (own, side) in own.iter().zip([0, running, reverse]) {
                                sum += own[place(i16::from(tenths + roll + side))];
                            }
                        }
                        sum
                    };
                    let medium = of_word(1, 0);
                    let soft = self.none_and_best(CorrectedFor::Soft, |own| of_word(0, own));
                    let firm = self.none_and_best(CorrectedFor::Firm, |own| of_word(2, own));
                    for (soft, soft_sum) in soft {
                        for (firm, firm_sum) in firm {
                            let own =
                                Corrections { hand, soft, firm, rolling, running, reverse, table };
                            let sum = medium + soft_sum + firm_sum;
                            let rows = own.rows().count();
                            if sum > best[rows].1 {
                                best[rows] = (own, sum);
                            }
                        }
                    }
                }
            }
        }
        best
    }

    /// Nothing for a word with its sum, and the best correction with its own.
    fn none_and_best(&self, what: CorrectedFor, sum: impl Fn(i8) -> f64) -> [(i8, f64); 2] {
        let none = (0, sum(0));
        let others = self.range(what).filter(|tenths| *tenths != 0);
        let best = others.map(|tenths| (tenths, sum(tenths)));
        [none, best.fold(none, |best, own| if own.1 > best.1 { own } else { best })]
    }

    /// The sums by word, roll and side (none, running, reverse) with every number of tenths beyond those for the table and
    /// each hand; none where a ball would get more tenths than are tried.
    fn beyond(&self, table: i8, hand: i8) -> [[[TenthsSums; 3]; 2]; 3] {
        let mut all = [[[[0.0; TENTHS]; 3]; 2]; 3];
        for (seen, sums) in &self.groups {
            let side = match seen.side {
                0 => 0,
                side if side > 0 => 1,
                _ => 2,
            };
            let first = i16::from(table) + i16::from(hand) * i16::from(seen.hands);
            let own = &mut all[usize::from(seen.word)][usize::from(seen.rolls)][side];
            for (sum, tenths) in own.iter_mut().zip(-MOST_TENTHS..) {
                let there = usize::try_from(first + tenths + MOST_TENTHS).ok();
                *sum += there.and_then(|at| sums.get(at)).unwrap_or(&f64::NEG_INFINITY);
            }
        }
        all
    }
}

/// The place of a number of tenths among all.
fn place(tenths: i16) -> usize {
    usize::try_from(tenths + MOST_TENTHS).unwrap_or(0)
}

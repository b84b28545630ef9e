//! Counts of verdicts that add up, in whatever pieces the banks were played.

use super::{OrderFreeSum, PlayedRows, Row};
use crate::bank::BankVerdict;
use serde::{Deserialize, Serialize};

/// The most kinds of verdict that are counted: a lone ball's bank has fewer than a whole shot.
pub const MOST_VERDICTS: usize = 11;

const _: () = assert!(BankVerdict::ALL.len() <= MOST_VERDICTS);
#[cfg(feature = "world")]
const _: () = assert!(crate::verdict::PocketVerdict::ALL.len() <= MOST_VERDICTS);

/// Counts of verdicts and sums of misses: the same to the bit in whatever order results come.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Tally {
    /// Results of each verdict, in the order of [`BankVerdict::ALL`] or of a whole shot's kinds.
    pub verdicts: [u64; MOST_VERDICTS],
    /// Banks that could not be played.
    pub failed: u64,
    /// Banks outside the model's checked range, or with a hop.
    pub flagged: u64,
    /// Banks that have a miss.
    pub with_miss: u64,
    /// Whole shots with a double kiss.
    pub kissed: u64,
    /// Sum of the misses, m.
    pub miss_m: OrderFreeSum,
    /// Sum of their squares, m².
    pub squares_m2: OrderFreeSum,
    /// The largest miss, m, signed (positive long); of two as large, the long one.
    pub worst_miss_m: Option<f64>,
}

fn share(part: u64, of: u64) -> Option<f64> {
    (of > 0).then(|| part as f64 / of as f64)
}

impl Tally {
    /// Counts the rows from one on, for each rule on its own.
    pub fn by_rule(played: &PlayedRows, from_row: usize, rules: usize) -> Vec<Self> {
        let mut tallies = vec![Self::default(); rules.max(1)];
        let mut failed = played.failures.iter().map(|failure| failure.row).peekable();
        while failed.next_if(|row| *row < from_row).is_some() {}
        for row in from_row..played.len() {
            let tally = &mut tallies[played.rule[row]];
            if failed.next_if_eq(&row).is_some() {
                tally.failed += 1;
            } else {
                tally.add(played, row);
            }
        }
        tallies
    }

    /// Counts the rows of a comparison.
    pub fn of<'a>(rows: impl IntoIterator<Item = &'a Row>) -> Self {
        let mut tally = Self::default();
        for Row { outcome, .. } in rows {
            let miss_m = outcome.miss_m().unwrap_or(f64::NAN);
            tally.add_result(outcome.verdict().place(), outcome.flagged(), miss_m);
        }
        tally
    }

    /// Counts one row that was played.
    pub fn add(&mut self, played: &PlayedRows, row: usize) {
        let outcomes = &played.outcomes;
        self.add_result(outcomes.verdict[row].place(), outcomes.flagged[row], outcomes.miss_m[row]);
    }

    /// Counts one result by its verdict's place, whether it is flagged, and its miss, m (not a number
    /// for none).
    pub fn add_result(&mut self, verdict: usize, flagged: bool, miss_m: f64) {
        self.verdicts[verdict] += 1;
        self.flagged += u64::from(flagged);
        if miss_m.is_finite() {
            self.with_miss += 1;
            self.miss_m.add(miss_m);
            self.squares_m2.add(miss_m * miss_m);
            self.worst_miss_m = worse(self.worst_miss_m, Some(miss_m));
        }
    }

    /// Adds another's counts.
    pub fn merge(&mut self, other: &Self) {
        for (count, more) in self.verdicts.iter_mut().zip(other.verdicts) {
            *count += more;
        }
        self.failed += other.failed;
        self.flagged += other.flagged;
        self.with_miss += other.with_miss;
        self.kissed += other.kissed;
        self.miss_m.merge(&other.miss_m);
        self.squares_m2.merge(&other.squares_m2);
        self.worst_miss_m = worse(self.worst_miss_m, other.worst_miss_m);
    }

    /// Banks that were played.
    pub fn played(&self) -> u64 {
        self.verdicts.iter().sum()
    }

    /// Banks of a verdict.
    pub const fn number_of(&self, verdict: BankVerdict) -> u64 {
        self.verdicts[verdict.place()]
    }

    /// Banks that hold.
    pub const fn holds(&self) -> u64 {
        self.number_of(BankVerdict::Holds)
    }

    /// Share of the played banks that hold, 0 to 1; nothing when none was played.
    pub fn share_holding(&self) -> Option<f64> {
        share(self.holds(), self.played())
    }

    /// Share of the shots that are made, 0 to 1, those that could not be played counted in; nothing for no
    /// shots.
    #[cfg(feature = "world")]
    pub fn share_made(&self) -> Option<f64> {
        share(self.of_first(crate::verdict::PocketVerdict::MADE), self.played() + self.failed)
    }

    /// Results of the first kinds of verdict: those that succeed stand first.
    pub fn of_first(&self, kinds: usize) -> u64 {
        self.verdicts[..kinds].iter().sum()
    }

    /// Mean of the misses, m; nothing without any.
    pub fn mean_miss_m(&self) -> Option<f64> {
        (self.with_miss > 0).then(|| self.miss_m.value() / self.with_miss as f64)
    }

    /// Root mean square of the misses, m; nothing without any.
    pub fn rms_miss_m(&self) -> Option<f64> {
        (self.with_miss > 0).then(|| (self.squares_m2.value() / self.with_miss as f64).sqrt())
    }
}

/// The larger of two misses.
fn worse(one: Option<f64>, other: Option<f64>) -> Option<f64> {
    let (Some(first), Some(second)) = (one, other) else { return one.or(other) };
    let order = first.abs().total_cmp(&second.abs()).then(first.total_cmp(&second));
    Some(if order.is_lt() { second } else { first })
}

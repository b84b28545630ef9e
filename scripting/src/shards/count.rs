//! The totals of a shard's file, counted from its columns and not taken from its own notes.

use super::cells::sums_by_rule;
use super::cells_file::read_cells;
use super::column_file::ColumnFile;
use super::notes::ShardNote;
use super::rows::column_names;
use crate::plan::{Keep, SweepPlan};
use railproof_engine::sweep::{OrderFreeSum, Tally};

/// Kinds of reasons that are counted apart.
const MOST_REASONS: usize = 200;

/// Reasons why banks could not be played: the first of each kind, and their number.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Reasons(Vec<(String, String, u64)>);

impl Reasons {
    fn add(&mut self, reason: &str, count: u64) {
        let kind = kind_of(reason);
        if let Some((.., so_far)) = self.0.iter_mut().find(|(known, ..)| *known == kind) {
            *so_far += count;
        } else if self.0.len() < MOST_REASONS {
            self.0.push((kind, reason.to_owned(), count));
        }
    }

    /// Adds those of a shard that comes later.
    pub fn merge(&mut self, later: &Self) {
        later.0.iter().for_each(|(_, first, count)| self.add(first, *count));
    }

    /// The first reason of each kind and the number of its kind, in the order of points.
    pub fn first(&self) -> impl Iterator<Item = (&str, u64)> {
        self.0.iter().map(|(_, first, count)| (first.as_str(), *count))
    }
}

/// Reasons that differ in the point and in numbers alone are of one kind.
fn kind_of(reason: &str) -> String {
    let after_the_point =
        reason.split_once("` has no answer at ").and_then(|(_, at)| at.split_once(": "));
    let reason = after_the_point.map_or(reason, |(_, why)| why);
    let mut kind = String::with_capacity(reason.len());
    let mut letters = reason.chars().peekable();
    while let Some(letter) = letters.next() {
        let begins = |next: Option<&char>| next.is_some_and(char::is_ascii_digit);
        if letter.is_ascii_digit() || (letter == '-' && begins(letters.peek())) {
            let goes_on = |next: &char| next.is_ascii_digit() || matches!(next, '.' | 'e' | '-');
            while letters.next_if(goes_on).is_some() {}
            kind.push('#');
        } else {
            kind.push(letter);
        }
    }
    kind
}

/// The totals of a shard.
#[derive(Debug, Clone, PartialEq)]
pub struct ShardCount {
    /// Rows of its file.
    pub rows: u64,
    /// Counts by rule, in the plan's order.
    pub tallies: Vec<Tally>,
    /// Why banks could not be played.
    pub reasons: Reasons,
}

/// Counts a shard's file. `failed` is the file of its points that could not be played, when it has
/// one; `note` is asked only for what the file can't show: without the banks that hold, their flags and
/// misses, and of a map, whose cells are rounded, the last bits of the misses' sums.
///
/// # Errors
/// In words, when the rows are not those of the shard.
pub fn count(
    plan: &SweepPlan,
    shard: u64,
    bytes: bytes::Bytes,
    failed: Option<bytes::Bytes>,
    note: &ShardNote,
) -> Result<ShardCount, String> {
    let said = |error: parquet::errors::ParquetError| error.to_string();
    if plan.keep == Keep::Map {
        let cells = read_cells(plan, bytes).map_err(said)?;
        let points = plan.shard(shard);
        let mut tallies = sums_by_rule(plan, &cells, points.end - points.start)?;
        same_but_rounded(&tallies, note)?;
        tallies.clone_from(&note.tallies);
        let mut counted =
            ShardCount { rows: cells.len() as u64, tallies, reasons: Reasons::default() };
        let failures: u64 = counted.tallies.iter().map(|tally| tally.failed).sum();
        let mut found = 0;
        if let Some(bytes) = failed {
            let rows = Rows::read(plan, bytes).map_err(said)?;
            rows.check(plan, shard)?;
            found = rows.verdict.iter().filter(|verdict| verdict.is_none()).count() as u64;
            rows.reasons(&mut counted.reasons);
        }
        return if found == failures {
            Ok(counted)
        } else {
            Err(format!("its cells count {failures} failed banks and their file {found}"))
        };
    }
    let rows = Rows::read(plan, bytes).map_err(said)?;
    rows.check(plan, shard)?;
    let mut tallies = rows.tallies(plan);
    if plan.keep == Keep::Failures {
        complete(plan, shard, &mut tallies, note)?;
    }
    let mut reasons = Reasons::default();
    rows.reasons(&mut reasons);
    Ok(ShardCount { rows: rows.point.len() as u64, tallies, reasons })
}

/// Adds the banks that hold to the counts of a shard that keeps only the others.
fn complete(
    plan: &SweepPlan,
    shard: u64,
    tallies: &mut [Tally],
    note: &ShardNote,
) -> Result<(), String> {
    let points = plan.shard(shard);
    if note.tallies.len() != tallies.len() {
        return Err("its note is for a different number of rules".to_owned());
    }
    for (tally, noted) in tallies.iter_mut().zip(&note.tallies) {
        let successes = plan.successes();
        if tally.of_first(successes) > 0 {
            return Err(format!("it keeps {} that succeed", plan.noun()));
        }
        let left = (points.end - points.start).saturating_sub(tally.played() + tally.failed);
        let said = &noted.verdicts[..successes];
        if said.iter().try_fold(0_u64, |sum, count| sum.checked_add(*count)) != Some(left) {
            return Err("the counts in its note do not match its rows".to_owned());
        }
        tally.verdicts[..successes].copy_from_slice(said);
        *tally = Tally { verdicts: tally.verdicts, failed: tally.failed, ..*noted };
    }
    Ok(())
}

/// Refuses a note that counts otherwise than the cells, or whose sums are not theirs but for rounding.
fn same_but_rounded(tallies: &[Tally], note: &ShardNote) -> Result<(), String> {
    let near = |(cells, noted): (&Tally, &Tally)| {
        let worst = noted.worst_miss_m.unwrap_or(0.0).abs();
        let most = 1e-14 * noted.with_miss as f64;
        let off = |of: fn(&Tally) -> OrderFreeSum| (of(cells).value() - of(noted).value()).abs();
        Tally { miss_m: noted.miss_m, squares_m2: noted.squares_m2, ..*cells } == *noted
            && off(|tally| tally.miss_m) <= most * worst
            && off(|tally| tally.squares_m2) <= most * worst * worst
    };
    if tallies.len() == note.tallies.len() && tallies.iter().zip(&note.tallies).all(near) {
        return Ok(());
    }
    Err("the counts in its note do not match its cells".to_owned())
}

/// The columns that are counted.
struct Rows {
    point: Vec<i64>,
    rule: Vec<usize>,
    /// The verdict's place; nothing where there is no result.
    verdict: Vec<Option<usize>>,
    flagged: Vec<bool>,
    kissed: Vec<bool>,
    miss_m: Vec<f64>,
    failure: Vec<Option<parquet::data_type::ByteArray>>,
}

impl Rows {
    fn read(plan: &SweepPlan, bytes: bytes::Bytes) -> parquet::errors::Result<Self> {
        let wrong = |why: &str| parquet::errors::ParquetError::General(why.to_owned());
        let file = ColumnFile::open(bytes)?;
        if file.names() != column_names(plan) {
            return Err(wrong("its columns are not those of the plan"));
        }
        let rules = plan.rules();
        let rule = if rules.is_empty() {
            vec![0; file.rows()]
        } else {
            let names = file.words("rule")?;
            let mut last = 0;
            let mut place = |name: &Option<parquet::data_type::ByteArray>| {
                let name = name.as_ref()?.data();
                let is = |at: usize| rules[at].name.as_bytes() == name;
                // Rules come in turn.
                let next = (last + 1) % rules.len();
                last = if is(next) { next } else { (0..rules.len()).find(|at| is(*at))? };
                Some(last)
            };
            let places: Option<Vec<usize>> = names.iter().map(&mut place).collect();
            places.ok_or_else(|| wrong("it has a rule that the plan does not have"))?
        };
        let (without, why_not) = plan.without_answer();
        let verdict = |word: &Option<parquet::data_type::ByteArray>| {
            let word = word.as_ref()?.data();
            if word == without.as_bytes() {
                return Some(None);
            }
            plan.verdicts().iter().position(|known| known.as_bytes() == word).map(Some)
        };
        let verdicts: Option<Vec<_>> = file.words("verdict")?.iter().map(verdict).collect();
        Ok(Self {
            point: file.whole("point")?,
            rule,
            verdict: verdicts.ok_or_else(|| wrong("it has an unknown verdict"))?,
            flagged: file.flags("flagged")?,
            kissed: match plan.shots() {
                Some(_) => file.flags("kissed")?,
                None => vec![false; file.rows()],
            },
            miss_m: file.numbers("miss_m")?,
            failure: file.words(why_not)?,
        })
    }

    /// Refuses rows that are not those of the shard, each once and in order.
    fn check(&self, plan: &SweepPlan, shard: u64) -> Result<(), String> {
        let points = plan.shard(shard);
        let expected = (points.end - points.start) * plan.ways();
        let rows = self.point.len() as u64;
        if plan.keep == Keep::Rows && rows != expected {
            return Err(format!("it has {rows} rows, not {expected}"));
        }
        let mut before = None;
        for (point, rule) in self.point.iter().zip(&self.rule) {
            let point = u64::try_from(*point).map_err(|_| "a point's index is negative")?;
            let here = (point, *rule);
            if !points.contains(&point) || before.is_some_and(|before| before >= here) {
                return Err(format!("point {point} does not belong where it stands"));
            }
            before = Some(here);
        }
        Ok(())
    }

    fn tallies(&self, plan: &SweepPlan) -> Vec<Tally> {
        let mut all = vec![Tally::default(); plan.rules().len().max(1)];
        for (row, rule) in self.rule.iter().enumerate() {
            let tally = &mut all[*rule];
            match self.verdict[row] {
                Some(verdict) => {
                    tally.add_result(verdict, self.flagged[row], self.miss_m[row]);
                    tally.kissed += u64::from(self.kissed[row]);
                }
                None => tally.failed += 1,
            }
        }
        all
    }

    fn reasons(&self, into: &mut Reasons) {
        for (verdict, why) in self.verdict.iter().zip(&self.failure) {
            if verdict.is_none()
                && let Some(why) = why
            {
                into.add(&String::from_utf8_lossy(why.data()), 1);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reasons_that_differ_in_numbers_are_one_kind() {
        let mut reasons = Reasons::default();
        for at in ["contact 1.25", "contact 3", "contact -4.5e-2", "speed 3"] {
            reasons.add(&format!("no answer at {at}"), 1);
        }
        let told: Vec<_> = reasons.first().collect();
        assert_eq!(told, [("no answer at contact 1.25", 3), ("no answer at speed 3", 1)]);
    }

    #[test]
    fn reasons_that_differ_in_their_point_are_one_kind() {
        let mut reasons = Reasons::default();
        for at in ["rail long, contact 0.5", "rail short, contact 2"] {
            reasons.add(&format!("the rule `own` has no answer at {at}: no number"), 1);
        }
        reasons.add("the rule `own` has no answer at rail long: a word", 1);
        assert_eq!(reasons.first().map(|(_, count)| count).collect::<Vec<_>>(), [2, 1]);
    }
}

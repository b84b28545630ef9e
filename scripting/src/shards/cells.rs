//! Counts over each pair of inputs, in memory that does not grow with the number of points.

use super::run::PlayedRun;
use crate::plan::{MOST_BINS, PlanAxis, SweepPlan, Swept, bin_count, check_cells, digits};
use railproof_engine::sweep::{PlanCursor, Tally};

/// The bins of one axis that varies.
#[derive(Debug, Clone, PartialEq)]
pub struct Bins {
    /// Which axis of the plan.
    pub axis: usize,
    /// The number of bins.
    pub count: usize,
}

/// Two inputs, and where their cells begin.
#[derive(Debug, Clone, Copy, PartialEq)]
struct InputPair {
    /// Which of the bins lists goes along x, if any does.
    x: Option<usize>,
    /// Which goes along y.
    y: Option<usize>,
    first_cell: usize,
}

/// The cells of every pair of inputs that vary, by every rule.
#[derive(Debug, Clone)]
pub struct Cells {
    bins: Vec<Bins>,
    pairs: Vec<InputPair>,
    rules: usize,
    tallies: Vec<Tally>,
}

/// One cell that holds something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CellTally {
    /// The rule.
    pub rule: usize,
    /// Axis of the plan and bin along x.
    pub x: Option<(usize, usize)>,
    /// Axis of the plan and bin along y.
    pub y: Option<(usize, usize)>,
    /// The outcomes counted.
    pub tally: Tally,
}

impl Cells {
    /// Empty cells for a plan.
    ///
    /// # Errors
    /// When there would be too many, in words.
    pub fn new(plan: &SweepPlan) -> Result<Self, String> {
        let axes = plan.axes();
        check_cells(&axes, plan.ways())?;
        let bins: Vec<Bins> = (0..axes.len())
            .filter(|axis| axes[*axis].varies())
            .map(|axis| Bins { axis, count: bin_count(axes[axis]) })
            .collect();
        let rules = plan.rules().len().max(1);
        let mut pairs = Vec::new();
        let mut cells = 0;
        let mut add = |x: Option<usize>, y: Option<usize>| {
            let size = |place: Option<usize>| place.map_or(1, |place| bins[place].count);
            pairs.push(InputPair { x, y, first_cell: cells });
            cells += size(x) * size(y) * rules;
        };
        match bins.len() {
            0 => add(None, None),
            1 => add(Some(0), None),
            count => {
                for x in 0..count {
                    for y in x + 1..count {
                        add(Some(x), Some(y));
                    }
                }
            }
        }
        Ok(Self { bins, pairs, rules, tallies: vec![Tally::default(); cells] })
    }

    /// Forgets all counts.
    pub fn clear(&mut self) {
        self.tallies.fill(Tally::default());
    }

    /// Bytes that they take.
    pub fn memory(&self) -> u64 {
        (self.tallies.len() * size_of::<Tally>()) as u64
    }

    /// Counts the points of a shard without playing them: which cells hold something then.
    pub fn touch(&mut self, plan: &SweepPlan, shard: u64) {
        let points = plan.shard(shard);
        let axes = plan.axes();
        let bins_at = |digits: &[usize], numbers: &[f64], all: &[Bins]| -> Vec<usize> {
            let bin = |bins: &Bins| {
                let at = bins.axis;
                bin_of(axes[at], digits[at], numbers.get(at).copied().unwrap_or(f64::NAN))
            };
            all.iter().map(bin).collect()
        };
        match &plan.played {
            Swept::Banks { banks, .. } => {
                let mut walk = PlanCursor::from(banks, points.start);
                while walk.point() < points.end {
                    let values = walk.values();
                    let bins = bins_at(&values.digits, &values.numbers, &self.bins);
                    self.add_at(&bins, None, &|tally| tally.failed += 1);
                    walk.step();
                }
            }
            Swept::Shots(shots) => {
                for point in points {
                    let bins = bins_at(&digits(shots.axes(), point), &[], &self.bins);
                    self.add_at(&bins, None, &|tally| tally.failed += 1);
                }
            }
        }
    }

    /// Adds to the cells of a point's bins, by one rule or by all.
    fn add_at(&mut self, bins: &[usize], rule: Option<usize>, add: &dyn Fn(&mut Tally)) {
        for pair in &self.pairs {
            let place = |of: Option<usize>| of.map_or((0, 1), |at| (bins[at], self.bins[at].count));
            let ((x, _), (y, height)) = (place(pair.x), place(pair.y));
            let first = pair.first_cell + (x * height + y) * self.rules;
            let own = match rule {
                Some(rule) => first + rule..first + rule + 1,
                None => first..first + self.rules,
            };
            self.tallies[own].iter_mut().for_each(add);
        }
    }

    /// Counts the rows of a run of points.
    pub fn count(&mut self, plan: &SweepPlan, played: &PlayedRun) {
        let axes = plan.axes();
        let played = match played {
            PlayedRun::Banks(played) => played,
            PlayedRun::Shots(played) => {
                for (point, row) in played.points.iter().zip(&played.rows) {
                    let digits = plan.shots().map(|shots| digits(shots.axes(), *point));
                    let digits = digits.unwrap_or_default();
                    let bin = |bins: &Bins| bin_of(axes[bins.axis], digits[bins.axis], f64::NAN);
                    let bins: Vec<usize> = self.bins.iter().map(bin).collect();
                    self.add_at(&bins, None, &|tally| row.count_in(tally));
                }
                return;
            }
        };
        let places: Vec<Vec<usize>> = self
            .bins
            .iter()
            .zip(&played.axes)
            .map(|(bins, column)| {
                let axis = axes[bins.axis];
                let values = column.digits.iter().zip(&column.numbers);
                values.map(|(digit, number)| bin_of(axis, *digit, *number)).collect()
            })
            .collect();
        let mut failures = played.failures.iter().map(|failure| failure.row).peekable();
        for (row, &rule) in played.rule.iter().enumerate() {
            let failed = failures.next_if_eq(&row).is_some();
            for pair in &self.pairs {
                let place = |of: Option<usize>| {
                    of.map_or((0, 1), |at| (places[at][row], self.bins[at].count))
                };
                let ((x, _), (y, height)) = (place(pair.x), place(pair.y));
                let cell =
                    &mut self.tallies[pair.first_cell + (x * height + y) * self.rules + rule];
                if failed {
                    cell.failed += 1;
                } else {
                    cell.add(played, row);
                }
            }
        }
    }

    /// Adds counts read back from a shard that comes after those counted so far.
    ///
    /// # Errors
    /// A cell that the plan does not have.
    pub fn merge(&mut self, later: &[CellTally]) -> Result<(), String> {
        for cell in later {
            let place =
                self.place_of(cell).ok_or("a shard has a cell that the plan does not have")?;
            self.tallies[place].merge(&cell.tally);
        }
        Ok(())
    }

    fn place_of(&self, cell: &CellTally) -> Option<usize> {
        let along = |place: Option<usize>, given: Option<(usize, usize)>| match (place, given) {
            (None, None) => Some((0, 1)),
            (Some(at), Some((axis, bin))) => {
                let bins = &self.bins[at];
                (bins.axis == axis && bin < bins.count).then_some((bin, bins.count))
            }
            _ => None,
        };
        if cell.rule >= self.rules {
            return None;
        }
        self.pairs.iter().find_map(|pair| {
            let ((x, _), (y, height)) = (along(pair.x, cell.x)?, along(pair.y, cell.y)?);
            Some(pair.first_cell + (x * height + y) * self.rules + cell.rule)
        })
    }

    /// The cells that hold something, in order.
    pub fn filled(&self) -> impl Iterator<Item = CellTally> {
        self.pairs.iter().flat_map(move |pair| {
            let size = |place: Option<usize>| place.map_or(1, |at| self.bins[at].count);
            let (width, height) = (size(pair.x), size(pair.y));
            (0..width * height * self.rules).filter_map(move |at| {
                let tally = self.tallies[pair.first_cell + at];
                let (rule, cell) = (at % self.rules, at / self.rules);
                let name = |place: Option<usize>, bin| place.map(|at| (self.bins[at].axis, bin));
                (tally.played() + tally.failed > 0).then(|| CellTally {
                    rule,
                    x: name(pair.x, cell / height),
                    y: name(pair.y, cell % height),
                    tally,
                })
            })
        })
    }
}

/// Adds up a shard's cells by rule, over the first pair of inputs; every pair must count each of its
/// `points` once.
///
/// # Errors
/// In words, when one does not.
pub fn sums_by_rule(
    plan: &SweepPlan,
    cells: &[CellTally],
    points: u64,
) -> Result<Vec<Tally>, String> {
    let ways = plan.rules().len().max(1);
    let pair = |cell: &CellTally| (cell.x.map(|(axis, _)| axis), cell.y.map(|(axis, _)| axis));
    let varying = plan.axes().iter().filter(|axis| axis.varies()).count();
    let expected = (varying * varying.saturating_sub(1) / 2).max(1);
    let (mut first, mut pairs) = (None, 0);
    for cells in cells.chunk_by(|one, next| pair(one) == pair(next)) {
        let mut tallies = vec![Tally::default(); ways];
        for cell in cells {
            let own = &cell.tally;
            if own.verdicts.iter().chain([&own.failed]).any(|count| *count > points) {
                return Err("a cell counts more points than the shard has".to_owned());
            }
            let tally = tallies.get_mut(cell.rule).ok_or("a cell of a rule that is not there")?;
            tally.merge(&cell.tally);
        }
        for tally in &tallies {
            let counted =
                tally.verdicts.iter().try_fold(tally.failed, |sum, count| sum.checked_add(*count));
            if counted != Some(points) {
                return Err(format!("its cells do not count its {points} points"));
            }
        }
        pairs += 1;
        first.get_or_insert(tallies);
    }
    match first {
        Some(tallies) if pairs == expected => Ok(tallies),
        _ => Err(format!("it has cells of {pairs} pairs of inputs, not {expected}")),
    }
}

/// The bin of a value: of a list of few, each has its own; longer lists are cut into runs of equal
/// length, ranges into stretches.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the bins")]
fn bin_of(axis: PlanAxis<'_>, digit: usize, number: f64) -> usize {
    match (axis.range(), axis.count()) {
        (Some(span), _) => {
            let share = (number - span.low) / (span.high - span.low);
            ((share * MOST_BINS as f64).max(0.0) as usize).min(MOST_BINS - 1)
        }
        (None, count) if count <= MOST_BINS => digit,
        (None, count) => digit * MOST_BINS / count,
    }
}

/// The first and last number in a bin, or its word.
#[derive(Debug, Clone, PartialEq)]
pub enum BinText {
    /// From one number to another, SI.
    Numbers(f64, f64),
    /// A word.
    Word(String),
}

/// The content of a bin of an axis.
pub fn bin_text(axis: PlanAxis<'_>, bin: usize) -> BinText {
    if let Some(span) = axis.range() {
        let edge = |at: usize| span.low + (span.high - span.low) * (at as f64 / MOST_BINS as f64);
        return BinText::Numbers(edge(bin), edge(bin + 1));
    }
    let count = axis.count();
    let (first, last) = if count <= MOST_BINS {
        (bin, bin)
    } else {
        let first = (bin * count).div_ceil(MOST_BINS);
        (first, ((bin + 1) * count).div_ceil(MOST_BINS).saturating_sub(1).max(first))
    };
    match (axis.number(first), axis.number(last)) {
        (Some(low), Some(high)) => BinText::Numbers(low, high),
        _ => BinText::Word(axis.word(first).unwrap_or_default().to_owned()),
    }
}

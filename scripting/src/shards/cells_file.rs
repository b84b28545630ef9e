//! Cells as a Parquet file, and read back from one.

use super::cells::{BinText, CellTally, bin_text};
use super::column_file::ColumnFile;
use super::columns::{ColumnHeader, ColumnValues, FileColumn};
use super::encode::parquet_file;
use crate::plan::SweepPlan;
use parquet::data_type::ByteArray;
use parquet::errors::{ParquetError, Result};
use railproof_engine::results::{bank_measure, shot_measure};
use railproof_engine::sweep::Tally;

/// The cells as a file.
///
/// # Errors
/// Only the refusals of the Parquet writer itself.
pub fn cells_file(
    plan: &SweepPlan,
    cells: &[CellTally],
    notes: Vec<(String, String)>,
) -> Result<Vec<u8>> {
    let axes = plan.axes();
    let inputs: Vec<String> = axes.iter().map(|axis| axis.name().to_owned()).collect();
    let mut columns = Vec::new();
    let mut add = |name: &str, unit: &'static str, meaning: &str, values: ColumnValues<'static>| {
        columns.push(FileColumn::new(ColumnHeader::new(name, unit, meaning), values));
    };
    let code = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    let rules: Vec<String> = plan.rules().iter().map(|rule| rule.name.clone()).collect();
    let by_rule = cells.iter().map(|cell| code(cell.rule)).collect();
    add("rule", "", "the rule that aimed", ColumnValues::Words { list: rules, codes: by_rule });
    for (name, of) in [("x", (|cell| cell.x) as fn(&CellTally) -> _), ("y", |cell| cell.y)] {
        let places: Vec<Option<(usize, usize)>> = cells.iter().map(of).collect();
        let codes = places.iter().map(|place| place.map_or(u32::MAX, |(axis, _)| code(axis)));
        add(
            name,
            "",
            "the input along this side of the map",
            ColumnValues::Words { list: inputs.clone(), codes: codes.collect() },
        );
        let bins = places
            .iter()
            .map(|place| place.map_or(-1, |(_, bin)| i64::try_from(bin).unwrap_or(-1)));
        add(&format!("{name}_bin"), "", "its bin, from 0", ColumnValues::Whole(bins.collect()));
        let texts: Vec<Option<BinText>> =
            places.iter().map(|place| place.map(|(axis, bin)| bin_text(axes[axis], bin))).collect();
        let edge = |pick: fn(&(f64, f64)) -> f64| {
            let numbers = texts.iter().map(|text| match text {
                Some(BinText::Numbers(low, high)) => pick(&(*low, *high)),
                _ => f64::NAN,
            });
            ColumnValues::Numbers(numbers.collect())
        };
        add(
            &format!("{name}_from"),
            "",
            "the bin's least number, in the unit of its column in the rows",
            edge(|ends| ends.0),
        );
        add(
            &format!("{name}_to"),
            "",
            "the end of the bin, in the same unit; a grid's value itself",
            edge(|ends| ends.1),
        );
        let mut list: Vec<String> = Vec::new();
        let codes = texts.iter().map(|text| match text {
            Some(BinText::Word(word)) => {
                let at = list.iter().position(|known| known == word).unwrap_or_else(|| {
                    list.push(word.clone());
                    list.len() - 1
                });
                code(at)
            }
            _ => u32::MAX,
        });
        let codes = codes.collect();
        add(&format!("{name}_word"), "", "the bin's word", ColumnValues::Words { list, codes });
    }
    for counted in counts(plan) {
        let of = |cell: &CellTally| counted.of(&mut { cell.tally }).cast_signed();
        let counts = ColumnValues::Whole(cells.iter().map(of).collect());
        add(&counted.column(plan), "", &counted.meaning(plan), counts);
    }
    let number = |of: &dyn Fn(&Tally) -> f64| {
        ColumnValues::Numbers(cells.iter().map(|cell| of(&cell.tally)).collect())
    };
    add("sum_miss_m", "m", "sum of the misses", number(&|tally| tally.miss_m.value()));
    add("sum_squares_m2", "m²", "sum of their squares", number(&|tally| tally.squares_m2.value()));
    let worst = number(&|tally| tally.worst_miss_m.unwrap_or(f64::NAN));
    add("worst_miss_m", "m", "the largest miss; positive is long", worst);
    let mean = number(&|tally| tally.mean_miss_m().unwrap_or(f64::NAN));
    add("mean_miss_m", "m", "mean miss; positive is long", mean);
    let rms = number(&|tally| tally.rms_miss_m().unwrap_or(f64::NAN));
    add("rms_miss_m", "m", "root mean square of the misses", rms);
    let share = number(&|tally| plan.share(tally).unwrap_or(f64::NAN));
    let (name, meaning) = match plan.banks() {
        Some(_) => ("share_holding", "share of the played banks that holds"),
        None => ("share_made", "share of the shots that is made"),
    };
    add(name, "", meaning, share);
    parquet_file(&columns, notes)
}

/// Reads the cells of a file that [`cells_file`] made for this plan.
///
/// # Errors
/// When it is no such file.
pub fn read_cells(plan: &SweepPlan, bytes: bytes::Bytes) -> Result<Vec<CellTally>> {
    let missing = || ParquetError::General("a cell that the plan does not have".to_owned());
    let file = ColumnFile::open(bytes)?;
    let axes = plan.axes();
    let side = |name: &str| -> Result<Vec<Option<(usize, usize)>>> {
        let (inputs, bins) = (file.words(name)?, file.whole(&format!("{name}_bin"))?);
        let place = |(input, bin): (&Option<ByteArray>, &i64)| {
            let Ok(bin) = usize::try_from(*bin) else { return Ok(None) };
            let name = input.as_ref().map_or(&[][..], ByteArray::data);
            let axis = axes.iter().position(|axis| axis.name().as_bytes() == name);
            Ok(Some((axis.ok_or_else(missing)?, bin)))
        };
        inputs.iter().zip(&bins).map(place).collect()
    };
    let (x, y) = (side("x")?, side("y")?);
    let rules = file.words("rule")?;
    let counts = counts(plan);
    let counted: Result<Vec<Vec<i64>>> =
        counts.iter().map(|counted| file.whole(&counted.column(plan))).collect();
    let counted = counted?;
    let (sum, squares) = (file.numbers("sum_miss_m")?, file.numbers("sum_squares_m2")?);
    let worst = file.numbers("worst_miss_m")?;
    let mut cells = Vec::with_capacity(file.rows());
    for row in 0..file.rows() {
        let named = |name: &[u8]| plan.rules().iter().position(|rule| rule.name.as_bytes() == name);
        let rule = match &rules[row] {
            Some(name) => named(name.data()).ok_or_else(missing)?,
            None if plan.rules().is_empty() => 0,
            None => return Err(missing()),
        };
        let mut tally = Tally {
            miss_m: sum[row].into(),
            squares_m2: squares[row].into(),
            worst_miss_m: Some(worst[row]).filter(|miss| miss.is_finite()),
            ..Tally::default()
        };
        for (counted, column) in counts.iter().zip(&counted) {
            *counted.of(&mut tally) = u64::try_from(column[row])
                .map_err(|_| ParquetError::General("a negative count".to_owned()))?;
        }
        cells.push(CellTally { rule, x: x[row], y: y[row], tally });
    }
    Ok(cells)
}

/// A count of a cell, which is a column.
#[derive(Clone, Copy)]
enum CountColumn {
    Verdict(usize),
    WithoutAnswer,
    Flagged,
    Kissed,
    WithMiss,
}

/// The counts of a plan's cells, in the order of their columns.
fn counts(plan: &SweepPlan) -> Vec<CountColumn> {
    let verdicts = (0..plan.verdicts().len()).map(CountColumn::Verdict);
    let kisses = plan.shots().map(|_| CountColumn::Kissed);
    let after = [CountColumn::WithoutAnswer, CountColumn::Flagged];
    verdicts.chain(after).chain(kisses).chain([CountColumn::WithMiss]).collect()
}

impl CountColumn {
    const fn of(self, tally: &mut Tally) -> &mut u64 {
        match self {
            Self::Verdict(at) => &mut tally.verdicts[at],
            Self::WithoutAnswer => &mut tally.failed,
            Self::Flagged => &mut tally.flagged,
            Self::Kissed => &mut tally.kissed,
            Self::WithMiss => &mut tally.with_miss,
        }
    }

    fn column(self, plan: &SweepPlan) -> String {
        match self {
            Self::Verdict(at) => counted_as(plan, plan.verdicts()[at]),
            Self::WithoutAnswer if plan.banks().is_some() => plan.without_answer().0.to_owned(),
            Self::WithoutAnswer => counted_as(plan, plan.without_answer().0),
            Self::Flagged => "flagged".to_owned(),
            Self::Kissed => "kissed".to_owned(),
            Self::WithMiss => "with_miss".to_owned(),
        }
    }

    fn meaning(self, plan: &SweepPlan) -> String {
        let noun = plan.noun();
        let flagged = match plan.banks() {
            Some(_) => const { bank_measure("flagged") }.meaning,
            None => const { shot_measure("flagged") }.meaning,
        };
        match self {
            Self::Verdict(_) => format!("{noun} of this verdict"),
            Self::WithoutAnswer => format!("{noun} that could not be played"),
            Self::Flagged => format!("{noun} flagged: {flagged}"),
            Self::Kissed => format!("{noun} with a double kiss"),
            Self::WithMiss => format!("{noun} that have a miss"),
        }
    }
}

/// The column of a verdict's count.
fn counted_as(plan: &SweepPlan, verdict: &str) -> String {
    format!("{}_{}", plan.noun(), verdict.replace('-', "_"))
}

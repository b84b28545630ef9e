//! Cells as a Parquet file, and read back from one.

use super::cells::{BinText, CellTally, bin_text};
use super::column_file::ColumnFile;
use super::columns::{ColumnHeader, ColumnValues, FileColumn};
use super::encode::parquet_file;
use crate::plan::SweepPlan;
use parquet::data_type::ByteArray;
use parquet::errors::{ParquetError, Result};
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
        add(&format!("{name}_from"), "SI", "the bin's least number", edge(|ends| ends.0));
        add(&format!("{name}_to"), "SI", "the bin's greatest number", edge(|ends| ends.1));
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
    let whole = |of: &dyn Fn(&Tally) -> u64| {
        ColumnValues::Whole(cells.iter().map(|cell| of(&cell.tally).cast_signed()).collect())
    };
    let noun = plan.noun();
    for (at, verdict) in plan.verdicts().iter().enumerate() {
        let counts = whole(&|tally| tally.verdicts[at]);
        add(&counted_as(plan, verdict), "", &format!("{noun} of this verdict"), counts);
    }
    add("failed", "", &format!("{noun} that could not be played"), whole(&|tally| tally.failed));
    add("flagged", "", "outside the checked speed, or a hop", whole(&|tally| tally.flagged));
    add("with_miss", "", &format!("{noun} that have a miss"), whole(&|tally| tally.with_miss));
    let number = |of: &dyn Fn(&Tally) -> f64| {
        ColumnValues::Numbers(cells.iter().map(|cell| of(&cell.tally)).collect())
    };
    add("sum_miss_m", "m", "sum of the misses", number(&|tally| tally.miss_m));
    add("sum_squares_m2", "m²", "sum of their squares", number(&|tally| tally.squares_m2));
    add("worst_miss_m", "m", "the largest miss, signed", number(&|tally| tally.worst_miss_m));
    let mean = number(&|tally| tally.mean_miss_m().unwrap_or(f64::NAN));
    add("mean_miss_m", "m", "mean miss; positive is long", mean);
    let rms = number(&|tally| tally.rms_miss_m().unwrap_or(f64::NAN));
    add("rms_miss_m", "m", "root mean square of the misses", rms);
    let share = number(&|tally| tally.share_of_first(plan.successes()));
    let (name, meaning) = match plan.banks() {
        Some(_) => ("share_holding", "share that holds"),
        None => ("share_made", "share that is made"),
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
    let mut counts = Vec::new();
    let words = plan.verdicts();
    let counted: Vec<String> = words.iter().map(|verdict| counted_as(plan, verdict)).collect();
    for name in counted.iter().map(String::as_str).chain(COUNTS) {
        counts.push(file.whole(name)?);
    }
    let (sum, squares) = (file.numbers("sum_miss_m")?, file.numbers("sum_squares_m2")?);
    let worst = file.numbers("worst_miss_m")?;
    let count = |column: usize, row: usize| {
        u64::try_from(counts[column][row])
            .map_err(|_| ParquetError::General("a count below nothing".to_owned()))
    };
    let mut cells = Vec::with_capacity(file.rows());
    for row in 0..file.rows() {
        let named = |name: &[u8]| plan.rules().iter().position(|rule| rule.name.as_bytes() == name);
        let rule = match &rules[row] {
            Some(name) => named(name.data()).ok_or_else(missing)?,
            None if plan.rules().is_empty() => 0,
            None => return Err(missing()),
        };
        let mut tally = Tally {
            miss_m: sum[row],
            squares_m2: squares[row],
            worst_miss_m: worst[row],
            ..Tally::default()
        };
        for at in 0..words.len() {
            tally.verdicts[at] = count(at, row)?;
        }
        let after = words.len();
        tally.failed = count(after, row)?;
        tally.flagged = count(after + 1, row)?;
        tally.with_miss = count(after + 2, row)?;
        cells.push(CellTally { rule, x: x[row], y: y[row], tally });
    }
    Ok(cells)
}

/// The counts after those of the verdicts.
const COUNTS: [&str; 3] = ["failed", "flagged", "with_miss"];

/// The column of a verdict's count.
fn counted_as(plan: &SweepPlan, verdict: &str) -> String {
    format!("{}_{}", plan.noun(), verdict.replace('-', "_"))
}

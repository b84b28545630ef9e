//! Cells as a Parquet file, and read back from one.

use super::cells::{BinText, Cell, bin_text};
use super::encode::{About, Column, Values, parquet_file};
use crate::plan::SweepPlan;
use parquet::errors::{ParquetError, Result};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::{Row, RowAccessor};
use railproof_engine::bank::Verdict;
use railproof_engine::sweep::Tally;

/// The columns before the verdicts' counts.
const KEYS: usize = 11;

/// The cells as a file.
///
/// # Errors
/// Only what the Parquet writer itself refuses.
pub fn cells_file(
    plan: &SweepPlan,
    cells: &[Cell],
    notes: Vec<(String, String)>,
) -> Result<Vec<u8>> {
    let axes = plan.banks.axes();
    let inputs: Vec<String> = axes.iter().map(|axis| axis.input.name().to_owned()).collect();
    let mut columns = Vec::new();
    let mut add = |name: &str, unit: &'static str, meaning: &str, values: Values<'static>| {
        columns.push(Column::new(About::new(name, unit, meaning), values));
    };
    let code = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    let rules: Vec<String> = plan.rules.iter().map(|rule| rule.name.clone()).collect();
    let by_rule = cells.iter().map(|cell| code(cell.rule)).collect();
    add("rule", "", "the rule that aimed", Values::Words { list: rules, codes: by_rule });
    for (name, of) in [("x", (|cell| cell.x) as fn(&Cell) -> _), ("y", |cell| cell.y)] {
        let places: Vec<Option<(usize, usize)>> = cells.iter().map(of).collect();
        let codes = places.iter().map(|place| place.map_or(u32::MAX, |(axis, _)| code(axis)));
        add(
            name,
            "",
            "the input along this side of the map",
            Values::Words { list: inputs.clone(), codes: codes.collect() },
        );
        let bins = places
            .iter()
            .map(|place| place.map_or(-1, |(_, bin)| i64::try_from(bin).unwrap_or(-1)));
        add(&format!("{name}_bin"), "", "its bin, from 0", Values::Whole(bins.collect()));
        let texts: Vec<Option<BinText>> = places
            .iter()
            .map(|place| place.map(|(axis, bin)| bin_text(&axes[axis], bin)))
            .collect();
        let edge = |pick: fn(&(f64, f64)) -> f64| {
            let numbers = texts.iter().map(|text| match text {
                Some(BinText::Numbers(low, high)) => pick(&(*low, *high)),
                _ => f64::NAN,
            });
            Values::Numbers(numbers.collect())
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
        add(&format!("{name}_word"), "", "the bin's word", Values::Words { list, codes });
    }
    let whole = |of: &dyn Fn(&Tally) -> u64| {
        Values::Whole(cells.iter().map(|cell| of(&cell.tally).cast_signed()).collect())
    };
    for verdict in Verdict::ALL {
        let name = format!("banks_{}", verdict.name().replace('-', "_"));
        let counts = whole(&|tally| tally.verdicts[verdict.place()]);
        add(&name, "", "banks of this verdict", counts);
    }
    add("failed", "", "banks that could not be played", whole(&|tally| tally.failed));
    add("flagged", "", "outside the checked speed, or a hop", whole(&|tally| tally.flagged));
    add("with_miss", "", "banks that have a miss", whole(&|tally| tally.with_miss));
    let number = |of: &dyn Fn(&Tally) -> f64| {
        Values::Numbers(cells.iter().map(|cell| of(&cell.tally)).collect())
    };
    add("sum_miss_m", "m", "sum of the misses", number(&|tally| tally.miss_m));
    add("sum_squares_m2", "m²", "sum of their squares", number(&|tally| tally.squares_m2));
    add("worst_miss_m", "m", "the largest miss, signed", number(&|tally| tally.worst_miss_m));
    let mean = number(&|tally| tally.mean_miss_m().unwrap_or(f64::NAN));
    add("mean_miss_m", "m", "mean miss; positive is long", mean);
    let rms = number(&|tally| tally.rms_miss_m().unwrap_or(f64::NAN));
    add("rms_miss_m", "m", "root mean square of the misses", rms);
    add("share_holding", "", "share that holds", number(&|tally| tally.share_holding()));
    parquet_file(&columns, notes)
}

/// Reads the cells of a file that [`cells_file`] made for this plan.
///
/// # Errors
/// When it is no such file.
pub fn read_cells(plan: &SweepPlan, bytes: Vec<u8>) -> Result<Vec<Cell>> {
    let reader = SerializedFileReader::new(bytes::Bytes::from(bytes))?;
    let mut cells = Vec::new();
    for row in reader.get_row_iter(None)? {
        cells.push(cell(plan, &row?)?);
    }
    Ok(cells)
}

fn cell(plan: &SweepPlan, row: &Row) -> Result<Cell> {
    let axes = plan.banks.axes();
    let missing = || ParquetError::General("a cell that the plan does not have".to_owned());
    let side = |first: usize| -> Result<Option<(usize, usize)>> {
        let bin = row.get_long(first + 1)?;
        let Ok(bin) = usize::try_from(bin) else { return Ok(None) };
        let name = row.get_string(first)?;
        let axis = axes.iter().position(|axis| axis.input.name() == name).ok_or_else(missing)?;
        Ok(Some((axis, bin)))
    };
    let rule = if plan.rules.is_empty() {
        0
    } else {
        let name = row.get_string(0)?;
        plan.rules.iter().position(|rule| rule.name == *name).ok_or_else(missing)?
    };
    let count = |at: usize| row.get_long(KEYS + at).map(i64::cast_unsigned);
    let mut tally = Tally::default();
    for (at, verdict) in tally.verdicts.iter_mut().enumerate() {
        *verdict = count(at)?;
    }
    let after = Verdict::ALL.len();
    tally.failed = count(after)?;
    tally.flagged = count(after + 1)?;
    tally.with_miss = count(after + 2)?;
    tally.miss_m = row.get_double(KEYS + after + 3)?;
    tally.squares_m2 = row.get_double(KEYS + after + 4)?;
    tally.worst_miss_m = row.get_double(KEYS + after + 5)?;
    Ok(Cell { rule, x: side(1)?, y: side(6)?, tally })
}

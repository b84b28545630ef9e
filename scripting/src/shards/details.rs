//! Further columns on request: the end of a ball's way and its place, a hop, and the spins at the rail.
//! Each bank is played once more alone, which gives the same bits.

use super::encode::{ColumnHeader, ColumnValues, FileColumn};
use crate::plan::SweepPlan;
use railproof_engine::bank::Bank;
use railproof_engine::results::{BankResult, BankResults, Measure, MeasureReading, bank_measure};
use railproof_engine::sweep::{PlanCursor, PlayedRows};
use std::borrow::Cow;

/// The measures that are told besides, in order.
const DETAILS: [&Measure<BankResults>; 11] = [
    bank_measure("hop"),
    bank_measure("ending"),
    bank_measure("ending_at"),
    bank_measure("ending_x"),
    bank_measure("ending_y"),
    bank_measure("at_rail_spin_x"),
    bank_measure("at_rail_spin_y"),
    bank_measure("at_rail_spin_z"),
    bank_measure("rebound_spin_x"),
    bank_measure("rebound_spin_y"),
    bank_measure("rebound_spin_z"),
];

/// Values as they come.
enum DetailValues {
    Numbers(Vec<f64>),
    Words(WordList),
    Flags(Vec<bool>),
}

/// The columns of these rows of what was played; `failed` says which could not be.
pub fn detail_columns<'a>(
    plan: &SweepPlan,
    played: &PlayedRows,
    rows: &[usize],
    failed: &dyn Fn(usize) -> bool,
) -> Vec<FileColumn<'a>> {
    let mut columns = DETAILS.map(|measure| match measure.reading {
        MeasureReading::Number(..) | MeasureReading::Diamonds(_) => {
            DetailValues::Numbers(Vec::with_capacity(rows.len()))
        }
        MeasureReading::Word(_) => DetailValues::Words(WordList::default()),
        MeasureReading::Flag(_) => DetailValues::Flags(Vec::with_capacity(rows.len())),
    });
    let mut walk: Option<PlanCursor<'_>> = None;
    let mut table: Option<Bank> = None;
    for row in rows {
        let point = played.point[*row];
        let walk = walk.get_or_insert_with(|| PlanCursor::from(&plan.banks, point));
        while walk.point() < point {
            walk.step();
            if !walk.same_table() {
                table = None;
            }
        }
        if table.is_none() {
            table = plan.banks.table(walk.values()).ok();
        }
        let alone = table.as_ref().filter(|_| !failed(*row)).and_then(|bank| {
            let launch = plan.banks.launch_at(walk.values(), bank);
            Some((bank, bank.play(played.inputs.line(*row), launch).ok()?))
        });
        let line = played.inputs.line(*row);
        let result = alone.as_ref().map(|(bank, outcome)| BankResult { bank, line, outcome });
        for (measure, column) in DETAILS.iter().zip(&mut columns) {
            match (column, &measure.reading) {
                (DetailValues::Words(words), MeasureReading::Word(of)) => {
                    words.push(result.as_ref().and_then(of));
                }
                (DetailValues::Flags(flags), MeasureReading::Flag(of)) => {
                    flags.push(result.as_ref().and_then(of).unwrap_or(false));
                }
                (DetailValues::Numbers(numbers), _) => {
                    let number = result.as_ref().and_then(|result| measure.number(result));
                    numbers.push(number.unwrap_or(f64::NAN));
                }
                _ => {}
            }
        }
    }
    let described = DETAILS.into_iter().zip(columns).map(|(measure, values)| {
        let values = match values {
            DetailValues::Numbers(numbers) => ColumnValues::Numbers(Cow::Owned(numbers)),
            DetailValues::Words(words) => words.values(),
            DetailValues::Flags(flags) => ColumnValues::Flags(Cow::Owned(flags)),
        };
        FileColumn::new(
            ColumnHeader::new(measure.column(), measure.unit(), measure.meaning),
            values,
        )
    });
    described.collect()
}

/// Words as they come.
#[derive(Default)]
struct WordList {
    list: Vec<String>,
    codes: Vec<u32>,
}

impl WordList {
    fn push(&mut self, word: Option<&str>) {
        let code = word.map_or(u32::MAX, |word| {
            let at = self.list.iter().position(|known| known == word).unwrap_or_else(|| {
                self.list.push(word.to_owned());
                self.list.len() - 1
            });
            u32::try_from(at).unwrap_or(u32::MAX)
        });
        self.codes.push(code);
    }

    fn values<'a>(self) -> ColumnValues<'a> {
        ColumnValues::Words { list: self.list, codes: self.codes }
    }
}

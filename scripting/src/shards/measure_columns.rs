//! Columns of measures, filled row by row.

use super::columns::{ColumnHeader, ColumnValues, FileColumn};
use railproof_engine::results::{Measure, MeasureReading, ResultKind};
use std::borrow::Cow;

/// A column for each of some measures.
pub struct MeasuredColumns<K: ResultKind> {
    measures: Vec<&'static Measure<K>>,
    columns: Vec<MeasuredValues>,
}

/// The values of a column as they come.
enum MeasuredValues {
    Numbers(Vec<f64>),
    Counts(Vec<Option<i64>>),
    Words(WordList),
    Flags(Vec<Option<bool>>),
}

impl<K: ResultKind> MeasuredColumns<K> {
    /// Without rows.
    pub fn new(measures: impl IntoIterator<Item = &'static Measure<K>>) -> Self {
        let measures: Vec<_> = measures.into_iter().collect();
        let columns = measures.iter().map(|measure| match measure.reading {
            MeasureReading::Number(..) | MeasureReading::Diamonds(_) => {
                MeasuredValues::Numbers(Vec::new())
            }
            MeasureReading::Count(_) => MeasuredValues::Counts(Vec::new()),
            MeasureReading::Word(_) => MeasuredValues::Words(WordList::default()),
            MeasureReading::Flag(_) => MeasuredValues::Flags(Vec::new()),
        });
        Self { columns: columns.collect(), measures }
    }

    /// Adds a row; every measure of nothing is absent.
    pub fn push(&mut self, result: Option<&K::Result<'_>>) {
        for (measure, column) in self.measures.iter().zip(&mut self.columns) {
            match (column, &measure.reading) {
                (MeasuredValues::Words(words), MeasureReading::Word(of)) => {
                    words.push(result.and_then(of));
                }
                (MeasuredValues::Flags(flags), MeasureReading::Flag(of)) => {
                    flags.push(result.and_then(of));
                }
                (MeasuredValues::Counts(counts), MeasureReading::Count(of)) => {
                    counts.push(result.and_then(of).map(u64::cast_signed));
                }
                (MeasuredValues::Numbers(numbers), _) => {
                    let number = result.and_then(|result| measure.number(result));
                    numbers.push(number.unwrap_or(f64::NAN));
                }
                _ => {}
            }
        }
    }

    /// The columns, each with its unit and meaning.
    pub fn finished<'a>(self) -> Vec<FileColumn<'a>> {
        let described = self.measures.into_iter().zip(self.columns).map(|(measure, values)| {
            let values = match values {
                MeasuredValues::Numbers(numbers) => ColumnValues::Numbers(Cow::Owned(numbers)),
                MeasuredValues::Words(words) => words.values(),
                MeasuredValues::Counts(counts) => ColumnValues::Counts(counts),
                MeasuredValues::Flags(flags) => ColumnValues::Flags(flags),
            };
            FileColumn::new(
                ColumnHeader::new(measure.column(), measure.unit(), measure.meaning),
                values,
            )
        });
        described.collect()
    }
}

/// Words as they come.
#[derive(Default)]
pub struct WordList {
    list: Vec<String>,
    codes: Vec<u32>,
}

impl WordList {
    /// Adds one, or its absence.
    pub fn push(&mut self, word: Option<&str>) {
        let code = word.map_or(u32::MAX, |word| {
            let at = self.list.iter().position(|known| known == word).unwrap_or_else(|| {
                self.list.push(word.to_owned());
                self.list.len() - 1
            });
            u32::try_from(at).unwrap_or(u32::MAX)
        });
        self.codes.push(code);
    }

    /// The values of a column.
    pub fn values<'a>(self) -> ColumnValues<'a> {
        ColumnValues::Words { list: self.list, codes: self.codes }
    }
}

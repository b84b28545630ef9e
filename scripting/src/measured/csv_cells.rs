//! The cells of a row under their columns, read as what they are to be.

use super::csv_header::{CsvColumn, CsvHeader};
use super::csv_row::CsvRow;
use crate::fault::{Fault, Place};
use crate::fields::{Mismatch, Scalar, Worded, WrittenText, in_range, place_among, words};
use railproof_engine::equipment::Parameter;

/// A row and its columns.
pub(super) struct CsvCells<'a, C> {
    pub(super) header: &'a CsvHeader<C>,
    pub(super) row: &'a CsvRow,
}

impl<'a, C: CsvColumn> CsvCells<'a, C> {
    /// A cell's text, when something stands in it.
    pub(super) fn text(&self, column: C) -> Option<&'a str> {
        self.row.cell(self.header.at(column)?)
    }

    /// The cell's own place, or the row's.
    pub(super) fn place_of(&self, column: C) -> Place {
        self.header.at(column).map_or_else(|| self.row.place.clone(), |at| self.row.cell_place(at))
    }

    pub(super) fn empty(&self, column: C) -> Fault {
        Fault::bad_input(format!("`{}` is empty", column.name()))
            .at(self.row.place.clone())
            .with_hint(column.meaning())
    }

    pub(super) fn refused(&self, column: C, mismatch: Mismatch) -> Fault {
        let fault = Fault::bad_input(mismatch.about(column.name())).at(self.place_of(column));
        match mismatch.hint {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        }
    }

    /// One of the words of a kind; nothing for an empty cell.
    pub(super) fn word<T: Worded>(&self, column: C) -> Result<Option<T>, Fault> {
        let Some(text) = self.text(column) else { return Ok(None) };
        match place_among(&WrittenText(text), &words::<T>()) {
            Ok(at) => Ok(Some(T::ALL[at])),
            Err(mismatch) => Err(self.refused(column, mismatch)),
        }
    }

    pub(super) fn needed_word<T: Worded>(&self, column: C) -> Result<T, Fault> {
        self.word(column)?.ok_or_else(|| self.empty(column))
    }

    /// A cell's text as an amount in SI units; its header's unit counts where it has none of its own.
    pub(super) fn amount(&self, column: C, text: &str, parameter: Parameter) -> Result<f64, Fault> {
        let text = match self.header.unit(column) {
            Some(unit) if text.parse::<f64>().is_ok() => format!("{text} {unit}"),
            _ => text.to_owned(),
        };
        let read = WrittenText(&text).quantity(&parameter);
        let checked = read.and_then(|(si, shown)| in_range(&parameter, si, &shown));
        checked.map_err(|mismatch| self.refused(column, mismatch))
    }

    pub(super) fn needed(&self, column: C, parameter: Parameter) -> Result<f64, Fault> {
        let text = self.text(column).ok_or_else(|| self.empty(column))?;
        self.amount(column, text, parameter)
    }
}

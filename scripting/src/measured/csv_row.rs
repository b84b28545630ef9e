//! The rows of a CSV file, each with its place.

use crate::fault::{Fault, Place};
use crate::yaml::InputText;
use std::cmp::Ordering;

/// A row that says something.
pub(super) struct CsvRow {
    pub(super) record: csv::StringRecord,
    pub(super) place: Place,
    /// Its line, from 1.
    pub(super) line: usize,
}

/// The rows of a text, without notes and empty rows.
pub(super) fn csv_rows(input: &InputText) -> impl Iterator<Item = Result<CsvRow, Fault>> + '_ {
    let reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .delimiter(delimiter(&input.text))
        .trim(csv::Trim::All)
        .has_headers(false)
        .flexible(true)
        .from_reader(input.text.as_bytes());
    let (mut read_to, mut line) = (0, 1);
    let mut records = reader.into_records();
    std::iter::from_fn(move || {
        loop {
            let begin = records.reader().position().byte();
            let record = records.next()?;
            let start = first_said(&input.text, usize::try_from(begin).unwrap_or_default());
            line += input.text[read_to..start].matches('\n').count();
            read_to = start;
            let place = line_at(input, start);
            let Ok(record) = record else {
                return Some(Err(Fault::bad_input("this row is not CSV").at(place)));
            };
            if place.source()[place.span()].matches('"').count() % 2 == 1 {
                let message = "a quote is opened in this row and not closed";
                return Some(Err(Fault::bad_input(message)
                    .at(place)
                    .with_hint("inches are written `12 in`")));
            }
            if !record.iter().all(str::is_empty) {
                return Some(Ok(CsvRow { record, place, line }));
            }
        }
    })
}

impl CsvRow {
    /// A cell, when something stands in it.
    pub(super) fn cell(&self, at: usize) -> Option<&str> {
        self.record.get(at).filter(|text| !text.is_empty())
    }

    /// The cell's own place, or the row's.
    pub(super) fn cell_place(&self, at: usize) -> Place {
        let row = self.place.span();
        let text = &self.place.source()[row.clone()];
        let Some(cell) = self.cell(at) else { return self.place.clone() };
        // Behind the cells to its left, which may hold the same.
        let mut from = 0;
        for before in self.record.iter().take(at) {
            from += text[from..].find(before).map_or(0, |found| found + before.len());
        }
        let Some(found) = text[from..].find(cell) else { return self.place.clone() };
        let begin = row.start + from + found;
        self.place.moved(begin..begin + cell.len())
    }

    /// Refused when it has more or fewer cells than columns.
    pub(super) fn fits(&self, columns: usize) -> Result<(), Fault> {
        let cells = self.record.len();
        let hint = match cells.cmp(&columns) {
            Ordering::Equal => return Ok(()),
            Ordering::Greater => {
                "remove commas at its end; text with a comma in it goes in double quotes"
            }
            Ordering::Less => "an empty cell needs its comma too",
        };
        let plural = |number: usize| if number == 1 { "" } else { "s" };
        let message =
            format!("{cells} cell{} under {columns} column{}", plural(cells), plural(columns));
        Err(Fault::bad_input(message).at(self.place.clone()).with_hint(hint))
    }
}

/// Cells are parted by commas, or by what parts the first row: spreadsheets of some countries write semicolons.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#'));
    let parts = |sign: char| first.is_some_and(|line| line.contains(sign));
    if parts(',') {
        b','
    } else if parts(';') {
        b';'
    } else if parts('\t') {
        b'\t'
    } else {
        b','
    }
}

/// The beginning of the first line from `begin` on that is neither empty nor a note, as the reader sees it.
fn first_said(text: &str, begin: usize) -> usize {
    let mut start = begin;
    while let Some(end) = text[start..].find('\n') {
        let line = text[start..start + end].trim_end_matches('\r');
        if !line.is_empty() && !line.starts_with('#') {
            break;
        }
        start += end + 1;
    }
    start
}

fn line_at(input: &InputText, start: usize) -> Place {
    let text = input.text[start..].split('\n').next().unwrap_or_default();
    let begin = start + (text.len() - text.trim_start().len());
    let end = start + text.trim_end().len();
    input.place(begin..end.max(begin))
}

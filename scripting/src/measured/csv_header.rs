//! The first row of a CSV file, or of a block of one: its columns.

use super::csv_row::CsvRow;
use crate::fault::Fault;
use crate::renamed;

/// A column of a file.
pub(super) trait CsvColumn: Copy + PartialEq {
    /// Whether a unit in brackets may stand behind its name, for every cell below.
    const TAKES_UNITS: bool;

    /// All of them.
    fn all() -> impl Iterator<Item = Self> + Clone;

    /// Its name in the header.
    fn name(self) -> &'static str;

    /// Its meaning.
    fn meaning(self) -> &'static str;
}

/// The columns that a row names, each with the unit that it gives.
pub(super) struct CsvHeader<C> {
    columns: Vec<(C, Option<String>)>,
}

impl<C: CsvColumn> CsvHeader<C> {
    /// Columns that stand in this order.
    pub(super) fn of(columns: &[C]) -> Self {
        Self { columns: columns.iter().map(|column| (*column, None)).collect() }
    }

    /// Those that a row names; `hint` helps with names that others use.
    ///
    /// # Errors
    /// A column that is unknown, or given twice.
    pub(super) fn read(row: &CsvRow, hint: impl Fn(&str) -> Option<String>) -> Result<Self, Fault> {
        let mut columns = Vec::<(C, Option<String>)>::new();
        for (at, cell) in row.record.iter().enumerate() {
            let (name, unit) = match cell.split_once('(').filter(|_| C::TAKES_UNITS) {
                Some((name, unit)) => {
                    (name.trim(), Some(unit.trim_end_matches(')').trim().to_owned()))
                }
                None => (cell, None),
            };
            let refused = |message: String| Fault::bad_input(message).at(row.cell_place(at));
            let Some(column) = C::all().find(|it| it.name() == name) else {
                let all = || renamed::hint_or_all(name, C::all().map(C::name), "the columns are");
                return Err(refused(format!("there is no column `{name}`"))
                    .with_hint(hint(name).unwrap_or_else(all)));
            };
            if columns.iter().any(|(other, _)| *other == column) {
                return Err(refused(format!("the column `{name}` is given twice")));
            }
            columns.push((column, unit));
        }
        Ok(Self { columns })
    }

    /// Refused where one of these is not among them; `which` is the row: `the first row`.
    ///
    /// # Errors
    /// The first that is missing.
    pub(super) fn with(
        self,
        needed: impl IntoIterator<Item = C>,
        row: &CsvRow,
        which: &str,
    ) -> Result<Self, Fault> {
        match needed.into_iter().find(|column| self.at(*column).is_none()) {
            Some(missing) => Err(Fault::bad_input(format!(
                "{which} names the columns, and `{}` is not among them",
                missing.name()
            ))
            .at(row.place.clone())
            .with_hint(missing.meaning())),
            None => Ok(self),
        }
    }

    pub(super) fn count(&self) -> usize {
        self.columns.len()
    }

    pub(super) fn at(&self, column: C) -> Option<usize> {
        self.columns.iter().position(|(other, _)| *other == column)
    }

    /// The unit that a column's name has behind it.
    pub(super) fn unit(&self, column: C) -> Option<&str> {
        self.columns.iter().find(|(other, _)| *other == column)?.1.as_deref()
    }
}

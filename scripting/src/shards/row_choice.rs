//! The played rows that go into a file.

use super::run::{PlayedRun, PlayedShots};
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::PlayedRows;

/// The played rows that go into the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowChoice {
    /// Every row.
    All,
    /// Those that do not hold, and those that could not be played.
    NotHolding,
}

impl RowChoice {
    /// The number of those rows.
    pub fn count(self, played: &PlayedRun) -> u64 {
        match (self, played) {
            (Self::All, _) => played.len() as u64,
            (Self::NotHolding, PlayedRun::Banks(played)) => self.bank_rows(played).len() as u64,
            (Self::NotHolding, PlayedRun::Shots(played)) => self.shot_rows(played).len() as u64,
        }
    }

    /// Those rows of banks.
    pub fn bank_rows(self, played: &PlayedRows) -> Vec<usize> {
        let failed = FailedRows::of(played);
        let wanted = |row: &usize| {
            self == Self::All
                || played.outcomes.verdict[*row] != BankVerdict::Holds
                || failed.is(*row)
        };
        (0..played.len()).filter(wanted).collect()
    }

    /// Those rows of whole shots.
    pub fn shot_rows(self, played: &PlayedShots) -> Vec<usize> {
        let wanted = |row: &usize| self == Self::All || !played.rows[*row].is_made();
        (0..played.rows.len()).filter(wanted).collect()
    }
}

/// The rows that could not be played.
pub struct FailedRows {
    rows: Vec<usize>,
}

impl FailedRows {
    /// Of a run of banks.
    pub fn of(played: &PlayedRows) -> Self {
        Self { rows: played.failures.iter().map(|failure| failure.row).collect() }
    }

    /// A row's place among them.
    pub fn place(&self, row: usize) -> Option<usize> {
        self.rows.binary_search(&row).ok()
    }

    /// True of a row that could not be played.
    pub fn is(&self, row: usize) -> bool {
        self.place(row).is_some()
    }
}

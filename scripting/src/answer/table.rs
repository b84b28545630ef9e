//! An answer as a table of text: columns with their units in their names, and a row for each line.

use std::io::{self, Write};

/// Chances of banks, or the rules that a search found, as files hold them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnswerTable {
    /// A name unique in the scenario, fit for a file name.
    pub name: String,
    /// The columns' names.
    pub columns: Vec<String>,
    /// Each as long as the columns; nothing is an empty cell.
    pub rows: Vec<Vec<String>>,
}

impl AnswerTable {
    /// Writes it as CSV.
    ///
    /// # Errors
    /// As of writing.
    pub fn write_csv(&self, out: &mut dyn Write) -> io::Result<()> {
        let mut writer = csv::Writer::from_writer(out);
        writer.write_record(&self.columns)?;
        for row in &self.rows {
            writer.write_record(row)?;
        }
        writer.flush()
    }
}

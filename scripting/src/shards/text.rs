//! The rows of a small sweep as text: CSV or JSON Lines, read back from its Parquet files.

use super::folder::{Folder, Inventory, MAP_FILE, cannot};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::ordinary;
use crate::files::{Disk, publish};
use crate::plan::{Keep, SweepPlan};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::{Field, Row};
use serde_json::json;
use std::io::Write;
use std::path::PathBuf;

/// The most rows that are written as text.
pub const MOST_TEXT_ROWS: u64 = 2_000_000;

/// A text form of rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum TextForm {
    /// Comma-separated, a header first; an absent value is empty.
    Csv,
    /// A JSON object a line; an absent value is null.
    Jsonl,
}

impl TextForm {
    /// The name of the file.
    const fn file(self, keep: Keep) -> &'static str {
        match (self, keep) {
            (Self::Csv, Keep::Map) => "map.csv",
            (Self::Jsonl, Keep::Map) => "map.jsonl",
            (Self::Csv, _) => "rows.csv",
            (Self::Jsonl, _) => "rows.jsonl",
        }
    }
}

/// Refuses a sweep whose rows are too many for text.
///
/// # Errors
/// [`Exit::BadInput`] with their number.
pub fn check_text(rows: u64) -> Result<(), Fault> {
    if rows <= MOST_TEXT_ROWS {
        return Ok(());
    }
    Err(Fault::bad_input(format!(
        "{rows} rows are too many for text; at most {MOST_TEXT_ROWS} are written"
    ))
    .with_hint("the Parquet files hold them all; --keep map or --keep failures leaves fewer"))
}

/// Writes a whole sweep's rows (of a map, its cells) as text beside the manifest; the file's name.
///
/// # Errors
/// Too many rows; files that can't be read; the disk.
pub fn write_text(
    plan: &SweepPlan,
    folder: &Folder,
    inventory: &Inventory,
    form: TextForm,
    disk: &dyn Disk,
) -> Result<&'static str, Fault> {
    let files: Vec<PathBuf> = if plan.keep == Keep::Map {
        vec![folder.path().join(MAP_FILE)]
    } else {
        check_text(inventory.found.values().map(|found| found.note.rows).sum())?;
        inventory.found.values().map(|found| folder.shards().join(&found.name)).collect()
    };
    let mut text = Vec::new();
    for (at, path) in files.iter().enumerate() {
        let bytes = ordinary::read(path).map_err(|error| cannot("read", path, &error))?;
        add_file(&mut text, bytes, form, at == 0).map_err(|error| {
            Fault::new(Exit::CouldNotFinish, format!("`{}`: {error}", path.display()))
        })?;
    }
    let name = form.file(plan.keep);
    publish(disk, folder.path(), name, &mut |out| out.write_all(&text))
        .map_err(|error| cannot("write", &folder.path().join(name), &error))?;
    Ok(name)
}

fn add_file(
    text: &mut Vec<u8>,
    bytes: Vec<u8>,
    form: TextForm,
    first: bool,
) -> Result<(), Box<dyn std::error::Error>> {
    let reader = SerializedFileReader::new(bytes::Bytes::from(bytes))?;
    if form == TextForm::Csv && first {
        let schema = reader.metadata().file_metadata().schema();
        let names: Vec<&str> = schema.get_fields().iter().map(|field| field.name()).collect();
        let mut header = csv::Writer::from_writer(&mut *text);
        header.write_record(names)?;
        header.flush()?;
    }
    let mut lines = csv::Writer::from_writer(Vec::new());
    for row in reader.get_row_iter(None)? {
        let row = row?;
        match form {
            TextForm::Csv => {
                lines.write_record(row.get_column_iter().map(|(_, field)| plain(field)))?;
            }
            TextForm::Jsonl => object(text, &row)?,
        }
    }
    if form == TextForm::Csv {
        text.extend(lines.into_inner().map_err(|error| error.to_string())?);
    }
    Ok(())
}

fn plain(field: &Field) -> String {
    match field {
        Field::Null => String::new(),
        Field::Bool(flag) => flag.to_string(),
        Field::Long(number) => number.to_string(),
        Field::Double(number) => number.to_string(),
        Field::Str(word) => word.clone(),
        other => other.to_string(),
    }
}

/// In the order of the columns.
fn object(text: &mut Vec<u8>, row: &Row) -> std::io::Result<()> {
    for (at, (name, field)) in row.get_column_iter().enumerate() {
        let value = match field {
            Field::Bool(flag) => json!(flag),
            Field::Long(number) => json!(number),
            Field::Double(number) => json!(number),
            Field::Str(word) => json!(word),
            _ => json!(null),
        };
        write!(text, "{}{}:{value}", if at == 0 { '{' } else { ',' }, json!(name))?;
    }
    text.extend(b"}\n");
    Ok(())
}

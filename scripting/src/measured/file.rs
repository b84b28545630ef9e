//! The file: its header, its rows and its template.

use super::MeasuredColumn;
use super::csv_cells::CsvCells;
use super::csv_header::CsvHeader;
use super::csv_row::{CsvRow, csv_rows};
use super::row::MeasuredCells;
use crate::called;
use crate::fault::Fault;
use crate::yaml::InputText;
use railproof_engine::column::SetUp;
use railproof_engine::equipment::Equipment;
use railproof_engine::evidence::MeasuredBank;
use railproof_engine::planning::protocol;
use railproof_engine::units::{INCH_M, Speed, short_number};
use std::fmt::Write;
use std::path::Path;

/// The most banks of a file; each is played some ten thousand times.
pub const MOST_BANKS: usize = 500;

/// The banks of a file.
#[derive(Debug, Clone, Default)]
pub struct Measurements {
    /// The banks, a row each.
    pub banks: Vec<MeasuredBank>,
    /// The line of the file in which each stands.
    pub lines: Vec<usize>,
    /// Rows without a result.
    pub open_rows: usize,
    /// The file's text.
    pub text: String,
}

/// Reads measured banks.
///
/// # Errors
/// A [`Fault`] at its line: no file, no header, a column that is unknown, twice or missing, a cell that is not
/// what its column takes, a number for a ball that dropped, more than [`MOST_BANKS`] banks.
pub fn read_measurements(path: &Path, table: &Equipment) -> Result<Measurements, Fault> {
    read(&InputText::open(path)?, table)
}

/// Reads measured banks from text; `label` is what messages call it.
///
/// # Errors
/// As [`read_measurements`].
pub fn parse_measurements(
    text: &str,
    label: &str,
    table: &Equipment,
) -> Result<Measurements, Fault> {
    read(&InputText::new(label, text)?, table)
}

fn read(input: &InputText, table: &Equipment) -> Result<Measurements, Fault> {
    let mut columns: Option<CsvHeader<MeasuredColumn>> = None;
    let mut measured =
        Measurements { banks: vec![], lines: vec![], open_rows: 0, text: input.text.to_string() };
    for row in csv_rows(input) {
        let row = row?;
        let Some(header) = &columns else {
            columns = Some(header(&row)?);
            continue;
        };
        if measured.banks.len() == MOST_BANKS {
            return Err(Fault::bad_input(format!("more than {MOST_BANKS} banks"))
                .at(row.place)
                .with_hint(
                    "keep the best hundred of them; more would take long and say little more",
                ));
        }
        row.fits(header.count())?;
        let cells = MeasuredCells(CsvCells { header, row: &row });
        if cells.is_open() {
            measured.open_rows += 1;
            continue;
        }
        measured.banks.push(cells.bank(table)?);
        measured.lines.push(row.line);
    }
    if columns.is_none() {
        return Err(Fault::bad_input(format!("`{}` holds no banks", input.label))
            .with_hint(format!("`{}` shows what to write", called::command("fit --template"))));
    }
    Ok(measured)
}

fn header(row: &CsvRow) -> Result<CsvHeader<MeasuredColumn>, Fault> {
    if row.record.iter().next().is_some_and(|it| it.starts_with(|sign: char| sign.is_ascii_digit()))
    {
        return Err(Fault::bad_input("the first row must name the columns")
            .at(row.place.clone())
            .with_hint("such as: contact,start,pocket,off_rail,speed,seen,number"));
    }
    let needed = MeasuredColumn::ALL.into_iter().filter(|column| column.is_needed());
    CsvHeader::read(row, |_| None)?.with(needed, row, "the first row")
}

/// A file to write measured banks into: the quick protocol, with the results left open.
pub fn template() -> String {
    let mut text = String::from(
        "# Banks that you measured, one row each. Lines that begin with # are notes.\n\
         # Use a tape for contact and start (to 3 mm). Shoot the ball with the tip on it, or hit it\n\
         # full with the cue ball, without side, and let it slide. The corners alternate. The starts stand short and\n\
         # long of the usual rules: most banks miss, so that you can read where the ball first meets a rail\n\
         # (to 0.05 of a diamond).\n\
         # Off contacts below 2 a frozen ball may come back into the cue ball. A ball hit hard can leave the\n\
         # table: mind people nearby, and keep to the house's rules.\n#\n",
    );
    for column in MeasuredColumn::ALL {
        let _ = writeln!(text, "# {}: {}", column.name(), column.meaning());
    }
    text + &rows_to_fill(protocol())
}

/// A file to write these banks' results into.
pub fn rows_of_plan<'a>(set_ups: impl Iterator<Item = &'a SetUp>) -> String {
    "# The next banks, in their order: write down what you saw, then put these rows under those of your file.\n"
        .to_owned()
        + &rows_to_fill(set_ups.copied())
}

/// A header, and a row for each bank without its result.
fn rows_to_fill(set_ups: impl Iterator<Item = SetUp>) -> String {
    let mut text = "contact,start,pocket,off_rail,speed,seen,number\n".to_owned();
    for set_up in set_ups {
        let (number, off_in) =
            (|number| short_number(number, 4), short_number(set_up.off_rail_m / INCH_M, 2));
        let _ = writeln!(
            text,
            "{},{},{},{off_in} in,{},,",
            number(set_up.line.contact),
            number(set_up.line.start),
            set_up.pocket.name(),
            speed_cell(set_up.speed)
        );
    }
    text
}

fn speed_cell(speed: Speed) -> String {
    match speed {
        Speed::Word(word) => word.name().to_owned(),
        Speed::MetresPerSecond(m_s) => format!("{m_s} m/s"),
        Speed::TableLengths(lengths) => format!("{lengths} lengths"),
    }
}

//! One bank, and what was seen of one, as a person writes them in a line.

use super::MeasuredColumn;
use super::csv_cells::CsvCells;
use super::csv_header::CsvHeader;
use super::csv_row::csv_rows;
use super::row::MeasuredCells;
use crate::fault::Fault;
use crate::yaml::InputText;
use railproof_engine::column::SetUp;
use railproof_engine::equipment::Equipment;
use railproof_engine::evidence::Seen;
use railproof_engine::rail::BankGeometry;

/// The columns of a bank in one line.
const BANK: [MeasuredColumn; 5] = [
    MeasuredColumn::Contact,
    MeasuredColumn::Start,
    MeasuredColumn::OffRail,
    MeasuredColumn::Speed,
    MeasuredColumn::Pocket,
];
/// The pocket where none is named.
const USUAL_POCKET: &str = "foot-right";
/// The columns of what was seen.
const SEEN: [MeasuredColumn; 2] = [MeasuredColumn::Seen, MeasuredColumn::Number];

/// A bank that a person writes in one line: contact, start, distance off the rail, speed, and the pocket if it is not
/// foot-right, parted by commas; `label` is what messages call it.
///
/// # Errors
/// A [`Fault`] at its part for a part that is missing or isn't what its column takes.
pub fn parse_bank(text: &str, label: &str, table: &Equipment) -> Result<SetUp, Fault> {
    const HINT: &str =
        "write it like \"2, 4.4, 12 in, 3 m/s\" or \"2, 4.4, 0, medium, head-right\"";
    let fault = || {
        Fault::bad_input(format!("`{label}` takes contact, start, distance off the rail and speed"))
    };
    let parts = text.split(',').count();
    let whole = match parts {
        4 => format!("{}, {USUAL_POCKET}", text.trim_end()),
        5 => text.to_owned(),
        _ => return Err(fault().with_hint(HINT)),
    };
    let input = InputText::new(label, &whole)?;
    let row = csv_rows(&input).next().ok_or_else(|| fault().with_hint(HINT))??;
    row.fits(BANK.len())?;
    Ok(MeasuredCells(CsvCells { header: &CsvHeader::of(&BANK), row: &row }).set_up(table)?.0)
}

/// What a person saw of a bank: a word, and of a ball that was long or short the number where it met a rail, such as
/// `long 0.6`; `label` is what messages call it.
///
/// # Errors
/// A [`Fault`] at its part for a word that is none of a result, or a number that no such ball meets.
pub fn parse_seen(
    text: &str,
    label: &str,
    table: &Equipment,
    geometry: &BankGeometry,
) -> Result<Seen, Fault> {
    const HINT: &str = "write it like \"long\", \"short\" or \"long 0.6\"";
    let parts: Vec<&str> =
        text.split([' ', ',']).filter(|part| !matches!(*part, "" | "too")).collect();
    let fault = || Fault::bad_input(format!("`{label}` takes a word and at most a number"));
    let whole = match parts.as_slice() {
        [word] => format!("{word},"),
        [word, number] => format!("{word},{number}"),
        _ => return Err(fault().with_hint(HINT)),
    };
    let input = InputText::new(label, &whole)?;
    let row = csv_rows(&input).next().ok_or_else(|| fault().with_hint(HINT))??;
    row.fits(SEEN.len()).map_err(|_| fault().with_hint(HINT))?;
    // It stands in no file: a frame would show a cell that nobody wrote.
    let cells = MeasuredCells(CsvCells { header: &CsvHeader::of(&SEEN), row: &row });
    cells.seen(table, geometry).map_err(|fault| Fault {
        message: format!("`{label}`: {}", fault.message),
        place: None,
        ..fault
    })
}

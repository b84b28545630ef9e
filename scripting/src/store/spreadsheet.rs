//! Tables for spreadsheets, which take a cell that begins like a formula for one and compute it.

use std::io::{self, Write};

/// Beginnings that spreadsheets compute (OWASP, "CSV Injection": = + - @, tab, carriage return).
const BEGINNINGS: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// A CSV text in which no cell of words begins like a formula: an apostrophe stands before it, which marks text.
pub(super) fn safe(csv: &[u8], out: &mut dyn Write) -> io::Result<()> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(csv);
    let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(out);
    for record in reader.records() {
        writer.write_record(record?.iter().map(cell))?;
    }
    writer.flush()
}

fn cell(text: &str) -> String {
    let computed = text.starts_with(BEGINNINGS) && text.parse::<f64>().is_err();
    if computed { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_text_and_numbers_stay_numbers() {
        let csv = "point,rule,miss\n0,=1+1,-0.5\n1,\"@a,b\",+3e-4\n2,-x,\n3,plain,\"\ttab\"\n";
        let mut out = Vec::new();
        safe(csv.as_bytes(), &mut out).unwrap();
        let expected = "point,rule,miss\n0,'=1+1,-0.5\n1,\"'@a,b\",+3e-4\n2,'-x,\n3,plain,'\ttab\n";
        assert_eq!(String::from_utf8(out).unwrap(), expected);
    }
}

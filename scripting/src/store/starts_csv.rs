//! Exact start numbers as CSV.

use super::columns::value;
use crate::record::StartsRecord;
use std::io::{self, Write};

/// Writes the whole table.
pub(super) fn write(starts: &StartsRecord, out: &mut dyn Write) -> io::Result<()> {
    let axes = starts.plan.axes();
    let mut writer = csv::Writer::from_writer(out);
    let columns: Vec<String> = std::iter::once("point".to_owned())
        .chain(axes.iter().map(|axis| axis.input.column()))
        .chain(["exact_start_diamonds", "why_not"].map(str::to_owned))
        .collect();
    writer.write_record(&columns)?;
    for row in &starts.rows {
        let digits = starts.plan.digits(row.point);
        writer.write_field(row.point.to_string())?;
        for (axis, digit) in digits.iter().enumerate() {
            writer.write_field(value(&starts.plan, axis, *digit))?;
        }
        match &row.start {
            Ok(start) => writer.write_record([start.to_string(), String::new()])?,
            Err(why) => writer.write_record([String::new(), why.to_string()])?,
        }
    }
    writer.flush()
}

//! The rows of a sweep of whole shots as CSV: one line a shot, units in the columns' names.

use super::columns::text;
use crate::plan::{ShotAxis, ShotValues};
use crate::record::ShotsRecord;
use railproof_engine::results::{Measure, SHOT_MEASURES};
use std::io::{self, Write};

/// Writes the whole table.
pub(super) fn write(shots: &ShotsRecord, out: &mut dyn Write) -> io::Result<()> {
    let mut writer = csv::Writer::from_writer(out);
    // As a key that varies, it has its column among the axes.
    let varies_equipment = shots.axes.iter().any(|axis| axis.name == "equipment");
    let columns: Vec<String> = std::iter::once("point".to_owned())
        .chain(shots.axes.iter().map(ShotAxis::column))
        .chain((!varies_equipment).then(|| "equipment".to_owned()))
        .chain(SHOT_MEASURES.iter().map(Measure::column))
        .chain(["why_not".to_owned()])
        .collect();
    writer.write_record(&columns)?;
    for (point, row) in shots.rows.iter().enumerate() {
        writer.write_field(point.to_string())?;
        for (axis, digit) in shots.axes.iter().zip(shots.digits(point)) {
            writer.write_field(match &axis.values {
                ShotValues::Numbers { si, .. } => si[digit].to_string(),
                ShotValues::Words(words) => words[digit].clone(),
            })?;
        }
        let result = row.result();
        if !varies_equipment {
            let equipment = result.equipment.map_or("", |equipment| equipment.name.as_str());
            writer.write_field(equipment)?;
        }
        for measure in SHOT_MEASURES {
            writer.write_field(text(measure, &result))?;
        }
        writer.write_record([row.outcome.as_ref().err().map_or("", String::as_str)])?;
    }
    writer.flush()
}

//! The rows of a sweep of whole shots as CSV: one line a shot, units in the columns' names.

use super::degrees;
use crate::record::{ShotRow, ShotValues, ShotsRecord};
use std::io::{self, Write};

const OUTCOME_COLUMNS: [&str; 24] = [
    "equipment",
    "cue_x_m",
    "cue_y_m",
    "object_x_m",
    "object_y_m",
    "stroke_speed_m_s",
    "stroke_aim_deg",
    "stroke_side",
    "stroke_height",
    "stroke_elevation_deg",
    "verdict",
    "made",
    "kissed",
    "kissed_at_s",
    "last_rail",
    "miss_mm",
    "clearance_long_mm",
    "clearance_short_mm",
    "arrival_speed_m_s",
    "duration_s",
    "events",
    "flagged",
    "rail_model_played",
    "why_not",
];

/// Writes the whole table.
pub(super) fn write(shots: &ShotsRecord, out: &mut dyn Write) -> io::Result<()> {
    let mut writer = csv::Writer::from_writer(out);
    let axes = shots.axes.iter().map(|axis| match &axis.values {
        ShotValues::Numbers { si_unit, .. } if !si_unit.is_empty() => {
            format!("{}_{}", axis.name, si_unit.replace('/', "_").replace('^', ""))
        }
        _ => axis.name.clone(),
    });
    let columns: Vec<String> = std::iter::once("point".to_owned())
        .chain(axes)
        .chain(OUTCOME_COLUMNS.map(str::to_owned))
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
        writer.write_record(fields(shots, row))?;
    }
    writer.flush()
}

/// An absent number is an empty field.
fn number(value: Option<f64>) -> String {
    value.filter(|value| value.is_finite()).map_or_else(String::new, |value| value.to_string())
}

fn fields(shots: &ShotsRecord, row: &ShotRow) -> [String; OUTCOME_COLUMNS.len()] {
    let outcome = row.outcome.as_ref().ok();
    let verdict = outcome.map(|outcome| outcome.verdict);
    let arrival = verdict.and_then(|verdict| verdict.arrival);
    let millimetres = |metres: Option<f64>| number(metres.map(|metres| 1e3 * metres));
    let equipment = shots.equipment.get(row.equipment);
    [
        equipment.map_or_else(String::new, |equipment| equipment.name.clone()),
        number(row.cue.map(|cue| cue.x)),
        number(row.cue.map(|cue| cue.y)),
        number(Some(row.object.x)),
        number(Some(row.object.y)),
        number(row.stroke.map(|stroke| stroke.speed_m_s)),
        number(row.stroke.map(|stroke| degrees(stroke.aim_rad))),
        number(row.stroke.map(|stroke| stroke.side_offset)),
        number(row.stroke.map(|stroke| stroke.height_offset)),
        number(row.stroke.map(|stroke| degrees(stroke.elevation_rad))),
        row.verdict_name().to_owned(),
        row.is_made().to_string(),
        row.kissed().to_string(),
        number(row.kissed_s()),
        arrival
            .and_then(|arrival| arrival.last_rail)
            .map_or_else(String::new, |rail| rail.name().to_owned()),
        millimetres(arrival.map(|arrival| arrival.miss_m)),
        millimetres(arrival.map(|arrival| arrival.clearance_long_m)),
        millimetres(arrival.map(|arrival| arrival.clearance_short_m)),
        number(arrival.map(|arrival| arrival.state.velocity.norm())),
        number(outcome.map(|outcome| outcome.duration_s)),
        outcome.map_or_else(String::new, |outcome| outcome.events.to_string()),
        outcome.map_or_else(String::new, |outcome| outcome.flagged.to_string()),
        equipment
            .map_or_else(String::new, |equipment| equipment.cushion.rail_model.name().to_owned()),
        row.outcome.as_ref().err().cloned().unwrap_or_default(),
    ]
}

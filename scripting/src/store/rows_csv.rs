//! The rows of a map as CSV: one line a bank, units in the columns' names.

use super::columns::{column_name, value};
use super::degrees;
use crate::record::MapRecord;
use railproof_engine::bank::{Bank, Direction, Rebounded};
use railproof_engine::sweep::{Input, Row};
use railproof_engine::vector::{Vec2, Vec3};
use rayon::prelude::*;
use std::io::{self, Write};

/// Rows that are turned into text by one thread at a time.
const ROWS_PER_PIECE: usize = 2048;
/// Pieces that are in memory together.
const PIECES_TOGETHER: usize = 32;

/// The columns after the inputs.
const OUTCOME_COLUMNS: [&str; 43] = [
    "rail_played",
    "pocket_played",
    "rail_model_played",
    "rule",
    "start_diamonds",
    "verdict",
    "long_or_short",
    "miss_mm",
    "miss_diamonds",
    "clearance_mm",
    "clearance_long_mm",
    "clearance_short_mm",
    "launch_x_m",
    "launch_y_m",
    "launch_speed_m_s",
    "at_rail_contact_diamonds",
    "at_rail_time_s",
    "at_rail_speed_m_s",
    "at_rail_roll_fraction",
    "at_rail_spin_x_rad_s",
    "at_rail_spin_y_rad_s",
    "at_rail_spin_z_rad_s",
    "incidence_deg",
    "held_s",
    "departure_diamonds",
    "rebound_speed_m_s",
    "rebound_spin_x_rad_s",
    "rebound_spin_y_rad_s",
    "rebound_spin_z_rad_s",
    "rebound_angle_deg",
    "angle_difference_deg",
    "rebound_restitution",
    "rolls_after_s",
    "bend_deg",
    "arrival_time_s",
    "arrival_speed_m_s",
    "outside_checked_speed",
    "hop",
    "ending",
    "ending_at",
    "ending_x_m",
    "ending_y_m",
    "flagged",
];

/// Writes the whole table.
pub(super) fn write(map: &MapRecord, out: &mut dyn Write) -> io::Result<()> {
    let mut header = csv::Writer::from_writer(Vec::new());
    let inputs = input_axes(map).map(|axis| column_name(map.plan.axes()[axis].input));
    let columns: Vec<String> = std::iter::once("point".to_owned())
        .chain(inputs)
        .chain(OUTCOME_COLUMNS.map(str::to_owned))
        .collect();
    header.write_record(&columns)?;
    out.write_all(&finished(header)?)?;
    for batch in map.rows.chunks(ROWS_PER_PIECE * PIECES_TOGETHER) {
        let pieces: Vec<io::Result<Vec<u8>>> =
            batch.par_chunks(ROWS_PER_PIECE).map(|rows| piece(map, rows)).collect();
        for piece in pieces {
            out.write_all(&piece?)?;
        }
    }
    Ok(())
}

/// The start number that was played has its own column already.
fn input_axes(map: &MapRecord) -> impl Iterator<Item = usize> {
    let axes = map.plan.axes();
    (0..axes.len()).filter(|axis| axes[*axis].input != Input::Start)
}

fn piece(map: &MapRecord, rows: &[Row]) -> io::Result<Vec<u8>> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let mut table: Option<(usize, Bank)> = None;
    for row in rows {
        let digits = map.plan.digits(row.point);
        let key = map.plan.table_key(&digits);
        if table.as_ref().is_none_or(|(known, _)| *known != key) {
            let bank = map.plan.bank(&digits).map_err(io::Error::other)?;
            table = Some((key, bank));
        }
        let Some((_, bank)) = &table else { continue };
        writer.write_field(row.point.to_string())?;
        for axis in input_axes(map) {
            writer.write_field(value(&map.plan, axis, digits[axis]))?;
        }
        writer.write_record(outcome_fields(map, row, bank))?;
    }
    finished(writer)
}

fn finished(writer: csv::Writer<Vec<u8>>) -> io::Result<Vec<u8>> {
    writer.into_inner().map_err(|error| io::Error::other(error.to_string()))
}

/// An absent number is an empty field; so is an infinite one (a ball that never rolls).
fn number(value: Option<f64>) -> String {
    value.filter(|value| value.is_finite()).map_or_else(String::new, |value| value.to_string())
}

fn outcome_fields(map: &MapRecord, row: &Row, bank: &Bank) -> [String; OUTCOME_COLUMNS.len()] {
    let outcome = &row.outcome;
    let geometry = bank.geometry();
    let verdict = outcome.verdict();
    let miss = outcome.miss_m();
    let millimetres = |metres: Option<f64>| number(metres.map(|metres| metres * 1e3));
    let (at_rail, rebound, arrival) = (outcome.at_rail, outcome.rebound, outcome.arrival);
    let incoming = at_rail.map(|at_rail| at_rail.state.velocity);
    let after = |measure: fn(&Rebounded, Vec2) -> f64| {
        number(
            rebound.zip(incoming).map(|(rebound, incoming)| degrees(measure(&rebound, incoming))),
        )
    };
    let launch = geometry.to_table(outcome.launch.position);
    let radius = bank.equipment().ball.radius_m();
    let place = outcome.ending_place().map(|place| geometry.to_table(place));
    // In the table frame, as the places are.
    let spin = |spin: Option<Vec3>, part: fn(Vec3) -> f64| {
        number(spin.map(|spin| part(geometry.spin_to_table(spin))))
    };
    let spin_in = at_rail.map(|at_rail| at_rail.state.spin);
    let spin_out = rebound.map(|rebound| rebound.state.spin);
    let flag = |set: fn(&Rebounded) -> bool| {
        rebound.map_or_else(String::new, |rebound| set(&rebound).to_string())
    };
    [
        geometry.rail.name().to_owned(),
        geometry.pocket.name().to_owned(),
        bank.model().name().to_owned(),
        map.rules.get(row.rule).map_or_else(String::new, |rule| rule.name.clone()),
        number(Some(row.line.start)),
        verdict.name().to_owned(),
        verdict.direction().map_or("", direction_word).to_owned(),
        millimetres(miss),
        number(miss.map(|miss| miss / geometry.diamond_m)),
        millimetres(outcome.clearance_m()),
        millimetres(arrival.map(|arrival| arrival.clearance_long_m)),
        millimetres(arrival.map(|arrival| arrival.clearance_short_m)),
        number(Some(launch.x)),
        number(Some(launch.y)),
        number(Some(outcome.launch.velocity.norm())),
        number(at_rail.map(|at_rail| at_rail.contact)),
        number(at_rail.map(|at_rail| at_rail.time_s)),
        number(incoming.map(Vec2::norm)),
        number(at_rail.and_then(|at_rail| at_rail.state.natural_roll_fraction(radius))),
        spin(spin_in, |spin| spin.x),
        spin(spin_in, |spin| spin.y),
        spin(spin_in, |spin| spin.z),
        number(at_rail.map(|at_rail| degrees(at_rail.incidence_rad()))),
        number(rebound.map(|rebound| rebound.held_s)),
        number(rebound.map(|rebound| rebound.departure)),
        number(rebound.map(|rebound| rebound.state.velocity.norm())),
        spin(spin_out, |spin| spin.x),
        spin(spin_out, |spin| spin.y),
        spin(spin_out, |spin| spin.z),
        after(Rebounded::angle_rad),
        number(outcome.angle_difference_rad().map(degrees)),
        number(rebound.map(|rebound| rebound.restitution)),
        number(rebound.map(|rebound| rebound.rolls_after_s)),
        after(Rebounded::bend_rad),
        number(arrival.map(|arrival| arrival.time_s)),
        number(arrival.map(|arrival| arrival.state.velocity.norm())),
        flag(|rebound| rebound.outside_checked_speed),
        flag(|rebound| rebound.hop),
        outcome.ending.name().to_owned(),
        outcome.ending.at(geometry).unwrap_or_default().to_owned(),
        number(place.map(|place| place.x)),
        number(place.map(|place| place.y)),
        outcome.flagged().to_string(),
    ]
}

fn direction_word(direction: Direction) -> &'static str {
    match direction {
        Direction::Long => "long",
        Direction::Short => "short",
    }
}

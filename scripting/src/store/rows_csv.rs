//! The rows of a map as CSV: one line a bank, units in the columns' names.

use super::columns::{text, value};
use crate::record::MapRecord;
use railproof_engine::results::{BANK_MEASURES, BankResult, BankResults, Measure};
use railproof_engine::sweep::{Input, LagSpeeds, Row, Tables};
use rayon::prelude::*;
use std::io::{self, Write};

/// Rows that are turned into text by one thread at a time.
const ROWS_PER_PIECE: usize = 2048;
/// Pieces that are in memory together.
const PIECES_TOGETHER: usize = 32;

/// The measures, without those that stand among the inputs.
fn measures() -> impl Iterator<Item = &'static Measure<BankResults>> {
    BANK_MEASURES.iter().filter(|measure| measure.name != "contact")
}

/// Writes the whole table.
pub(super) fn write(map: &MapRecord, out: &mut dyn Write) -> io::Result<()> {
    let mut header = csv::Writer::from_writer(Vec::new());
    let inputs = input_axes(map).flat_map(|axis| {
        let input = map.plan.axes()[axis].input;
        let in_si = (input == Input::Lag).then(|| Input::Speed.column());
        std::iter::once(input.column()).chain(in_si)
    });
    let columns: Vec<String> = std::iter::once("point".to_owned())
        .chain(inputs)
        .chain(["rule".to_owned()])
        .chain(measures().map(Measure::column))
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
    let mut tables = Tables::default();
    let mut lags = LagSpeeds::default();
    for row in rows {
        let digits = map.plan.digits(row.point);
        writer.write_field(row.point.to_string())?;
        for axis in input_axes(map) {
            writer.write_field(value(&map.plan, axis, digits[axis]))?;
            if map.plan.axes()[axis].input == Input::Lag {
                // The speed on the row's table stands beside the lag.
                let table = tables.of_point(&map.plan, &digits).ok();
                let lengths = map.plan.number(Input::Lag, &digits);
                let m_s = table.zip(lengths).map(|(it, n)| lags.m_s(n, it.equipment()));
                let m_s = m_s.filter(|m_s| m_s.is_finite());
                writer.write_field(m_s.map_or_else(String::new, |m_s| m_s.to_string()))?;
            }
        }
        writer.write_field(map.rules.get(row.rule).map_or("", |rule| rule.name.as_str()))?;
        let result =
            BankResult::of_row(&mut tables, &map.plan, &digits, row).map_err(io::Error::other)?;
        writer.write_record(measures().map(|measure| text(measure, &result)))?;
    }
    finished(writer)
}

fn finished(writer: csv::Writer<Vec<u8>>) -> io::Result<Vec<u8>> {
    writer.into_inner().map_err(|error| io::Error::other(error.to_string()))
}

//! The start numbers of one contact, speed by speed and distance by distance: what is written down for a lesson.

use super::BankQuestion;
use railproof_engine::bank::{Launch, exact_start, holding_starts, speed_on};
use railproof_engine::rail::Line;
use railproof_engine::units::{INCH_M, Speed, SpeedWord};

/// Distances off the rail beside the one that was asked for, inches and centimetres.
const INCHES: [f64; 4] = [0.0, 5.0, 10.0, 20.0];
const CENTIMETRES: [f64; 4] = [0.0, 10.0, 25.0, 50.0];
/// Two that differ by less are one, as a share of a speed and in metres.
const SAME: f64 = 1e-9;

/// Start numbers by speed and distance off the rail.
#[derive(Debug, Clone, PartialEq)]
pub struct StartTable {
    /// The speeds, m/s, least first, each with its word where it has one.
    pub speeds: Vec<(f64, Option<SpeedWord>)>,
    /// The distances off the rail, m, least first.
    pub off_rails_m: Vec<f64>,
    /// The starts, a row for each distance; `None` where none goes through the middle of the mouth and holds.
    pub starts: Vec<Vec<Option<TabledStart>>>,
}

/// A start number through the middle of the mouth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TabledStart {
    /// The line, groove reading.
    pub line: Line,
    /// The model is less sure of it.
    pub flagged: bool,
    /// The speed and the distance are those that were asked for.
    pub asked: bool,
}

impl StartTable {
    /// Of the contact that was asked for, sent as it was, at the speeds that have a word and at its own.
    pub fn of(question: &BankQuestion, in_inches: bool) -> Self {
        let BankQuestion { bank, line, launch, .. } = question;
        let mut speeds: Vec<(f64, Option<SpeedWord>)> = SpeedWord::ALL
            .into_iter()
            .map(|word| (speed_on(Speed::Word(word), bank.equipment()), Some(word)))
            .collect();
        let near = |a: f64, b: f64| (a - b).abs() <= SAME * a.abs().max(1.0);
        if speeds.iter().all(|(speed_m_s, _)| !near(*speed_m_s, launch.speed_m_s)) {
            speeds.push((launch.speed_m_s, None));
        }
        speeds.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut off_rails_m: Vec<f64> = if in_inches {
            INCHES.map(|inches| inches * INCH_M).to_vec()
        } else {
            CENTIMETRES.map(|centimetres| centimetres / 100.0).to_vec()
        };
        if off_rails_m.iter().all(|off_rail_m| !near(*off_rail_m, launch.off_rail_m)) {
            off_rails_m.push(launch.off_rail_m);
        }
        off_rails_m.sort_by(f64::total_cmp);
        let start = |off_rail_m: f64, speed_m_s: f64| {
            let sent = Launch { off_rail_m, speed_m_s, ..*launch };
            let start = exact_start(bank, line.contact, sent).ok()?;
            holding_starts(bank, line.contact, sent, start)?;
            let line = Line { start, ..*line };
            Some(TabledStart {
                line,
                flagged: bank.play(line, sent).is_ok_and(|outcome| outcome.flagged()),
                asked: near(off_rail_m, launch.off_rail_m) && near(speed_m_s, launch.speed_m_s),
            })
        };
        let row =
            |off_rail_m: &f64| speeds.iter().map(|(m_s, _)| start(*off_rail_m, *m_s)).collect();
        let starts = off_rails_m.iter().map(row).collect();
        Self { speeds, off_rails_m, starts }
    }
}

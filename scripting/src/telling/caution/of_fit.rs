//! The cautions of a fit.

use super::Cautions;
use crate::fitting::FitFindings;
use railproof_engine::bank::speed_on;
use railproof_engine::equipment::Equipment;
use railproof_engine::units::Speed;

impl Cautions {
    /// Those of the banks that were measured, and of those that are asked for next.
    pub fn of_fit(found: &FitFindings) -> Self {
        let measured = found.predicted.iter().map(|bank| bank.bank.set_up.speed);
        let next = found.told.next.banks.iter().map(|(set_up, _)| set_up.speed);
        Self::of_speeds(measured.chain(next), &found.known.table)
    }

    /// Those of balls that start at these speeds.
    pub fn of_speeds(speeds: impl Iterator<Item = Speed>, table: &Equipment) -> Self {
        Self::of_speed(speeds.map(|speed| speed_on(speed, table)).fold(0.0, f64::max))
    }
}

//! The cautions of a fit.

use super::Cautions;
use crate::fitting::FitFindings;
use railproof_engine::bank::speed_on;

impl Cautions {
    /// Those of the banks that were measured, and of those that are asked for next.
    pub fn of_fit(found: &FitFindings) -> Self {
        let table = &found.known.table;
        let measured = found.predicted.iter().map(|bank| bank.bank.set_up.speed);
        let next = found.told.next.iter().map(|(set_up, _)| set_up.speed);
        let speeds_m_s = measured.chain(next).map(|speed| speed_on(speed, table));
        Self::of_speed(speeds_m_s.fold(0.0, f64::max))
    }
}

//! The slope of the best proportional rule on every member's table.

use super::{CredibleInterval, EnsembleStarts};
use crate::bank::BankError;
use crate::column::SetUp;
use crate::ensemble::Ensemble;
use crate::equipment::{Equipment, RailModel};
use crate::rail::{Line, Pocket, Rail};
use crate::sweep::fit_through_origin;
use crate::units::Speed;

/// The slopes of start = slope × contact that go nearest to the middle of the mouth.
#[derive(Debug, Clone, PartialEq)]
pub struct SlopeAnswer {
    /// A slope for each member; not a number where a contact has no start.
    pub slopes: Vec<f64>,
    /// Their interval.
    pub interval: Option<CredibleInterval>,
}

/// Contact numbers over which a slope is fitted.
const CONTACTS: [f64; 5] = [1.5, 2.0, 2.5, 3.0, 3.5];
/// Frozen stun balls at this speed, m/s.
const SPEED_M_S: f64 = 4.0;

/// The slope for a frozen ball that slides, off a long rail into a corner, on every member's table.
///
/// # Errors
/// [`BankError`] for a table without such banks.
pub fn best_slopes(
    table: &Equipment,
    model: RailModel,
    ensemble: &Ensemble,
) -> Result<SlopeAnswer, BankError> {
    let set_up = |contact| {
        let line = Line::new(contact, contact);
        SetUp::stun(Rail::Left, Pocket::FootRight, line, 0.0, Speed::MetresPerSecond(SPEED_M_S))
    };
    let starts = EnsembleStarts::of(table, model, ensemble, &CONTACTS.map(set_up), &|| ())?;
    let every: Vec<usize> = (0..CONTACTS.len()).collect();
    let lines = starts.lines(&every, fit_through_origin);
    let slopes = lines.iter().map(|line| line.map_or(f64::NAN, |fit| fit.slope)).collect();
    let interval = starts.interval(&lines, |line| line.slope);
    Ok(SlopeAnswer { slopes, interval })
}

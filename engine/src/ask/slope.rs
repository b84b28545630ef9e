//! The slope of the best proportional rule on every member's table.

use super::CredibleInterval;
use crate::bank::{Bank, BankError, Launch, exact_start};
use crate::ensemble::Ensemble;
use crate::equipment::{Equipment, RailModel};
use crate::rail::{Pocket, Rail};
use crate::sweep::fit_through_origin;
use rayon::prelude::*;

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
    let slopes = ensemble
        .members()
        .par_iter()
        .map(|member| {
            let equipment = member.equipment(table);
            let bank = Bank::new(&equipment, Rail::Left, Pocket::FootRight, model)?;
            let launch = Launch::frozen_stun(SPEED_M_S);
            let pairs: Option<Vec<(f64, f64)>> = CONTACTS
                .into_iter()
                .map(|contact| {
                    exact_start(&bank, contact, launch).ok().map(|start| (contact, start))
                })
                .collect();
            Ok(pairs.and_then(|pairs| fit_through_origin(&pairs)).map_or(f64::NAN, |fit| fit.slope))
        })
        .collect::<Result<Vec<f64>, BankError>>()?;
    let interval = CredibleInterval::of(&slopes, ensemble.weights());
    Ok(SlopeAnswer { slopes, interval })
}

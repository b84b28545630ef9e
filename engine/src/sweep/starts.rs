//! The exact start number at every point.

use super::{Input, Plan, PlanError, Tables};
use crate::bank::{NoAnswer, exact_start};
use rayon::prelude::*;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The exact start number at a point.
#[derive(Debug, Clone, PartialEq)]
pub struct StartRow {
    /// Index of the point in the plan.
    pub point: usize,
    /// Its contact number, diamonds.
    pub contact: f64,
    /// The exact start number, or why there is none.
    pub start: Result<f64, NoAnswer>,
}

/// The exact start number at every point, in order for any number of threads. `tick` is called once a
/// point, from any thread.
///
/// # Errors
/// As [`compare`](super::compare), for the plan itself; a point without an exact start is a row that
/// says why.
pub fn exact_starts(plan: &Plan, tick: &(impl Fn() + Sync)) -> Result<Vec<StartRow>, PlanError> {
    if plan.axis(Input::Start).is_some() {
        return Err(PlanError::Contradiction {
            first: Input::Start.name(),
            second: "exact start numbers",
        });
    }
    let points = plan.checked_len(1)?;
    // Points after a refused one are left out: the first refusal in order is still found.
    let first_refused = AtomicUsize::new(usize::MAX);
    let rows: Vec<Option<Result<StartRow, PlanError>>> = (0..points)
        .into_par_iter()
        .with_min_len(64.min(points / 64 + 1))
        .map_init(Tables::default, |tables, point| {
            if point > first_refused.load(Ordering::Relaxed) {
                return None;
            }
            let row = start_at(plan, point, tables);
            if row.is_err() {
                first_refused.fetch_min(point, Ordering::Relaxed);
            }
            tick();
            Some(row)
        })
        .collect();
    rows.into_iter().flatten().collect()
}

fn start_at(plan: &Plan, point: usize, tables: &mut Tables) -> Result<StartRow, PlanError> {
    let digits = plan.digits(point);
    let bank = tables.of_point(plan, &digits)?;
    let launch = plan.launch(&digits, bank).validated(bank.geometry().span_m)?;
    let contact = plan.number(Input::Contact, &digits).unwrap_or(0.0);
    Ok(StartRow { point, contact, start: exact_start(bank, contact, launch) })
}

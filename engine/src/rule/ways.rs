//! The error of each way of going between known lines.

use super::{LineTable, Outside, Rule, RuleError, ShiftFrom, WayBetween};
use crate::rail::BankGeometry;
use serde::Serialize;

/// One contact number: the start that each way gives for it, less the exact one. Groove reading,
/// diamonds; positive starts too far from the pocket's end of the rail.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WaysRow {
    /// The contact number.
    pub contact: f64,
    /// The distance of the contact past the nearest known line; negative before it.
    pub from_line: f64,
    /// The exact start number.
    pub exact: f64,
    /// Error of interpolation; `None` outside the known lines.
    pub interpolated: Option<f64>,
    /// Error of the proportional shift from the nearest line.
    pub proportional: f64,
    /// Error of the parallel shift from the nearest line.
    pub parallel: f64,
}

/// The errors of the three ways, contact by contact.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WaysTable {
    /// The ratio of the proportional shift.
    pub ratio: f64,
    /// In the order of the contacts asked for.
    pub rows: Vec<WaysRow>,
    /// Contacts for which there is no exact start number, and so no row.
    pub without_exact: Vec<f64>,
}

impl WaysTable {
    /// The largest errors in size: (interpolated, proportional, parallel). 0 without rows.
    pub fn worst(&self) -> (f64, f64, f64) {
        let worst = |error: fn(&WaysRow) -> f64| {
            self.rows.iter().map(error).fold(0.0, |worst: f64, error| worst.max(error.abs()))
        };
        (
            worst(|row| row.interpolated.unwrap_or(0.0)),
            worst(|row| row.proportional),
            worst(|row| row.parallel),
        )
    }
}

/// Compares interpolation, a proportional shift of the given ratio and a parallel shift, both from
/// the nearest line, with the exact start number for each contact (groove reading, diamonds).
/// The table's own way between its lines does not matter. With one known line there is nothing to
/// interpolate.
///
/// `exact` gives the reference; `None` where there is none.
///
/// # Errors
/// [`RuleError`] for a ratio or contact that is not finite, or lines that meet in the groove.
pub fn ways_table(
    table: &LineTable,
    ratio: f64,
    geometry: &BankGeometry,
    contacts: &[f64],
    mut exact: impl FnMut(f64) -> Option<f64>,
) -> Result<WaysTable, RuleError> {
    let from = ShiftFrom::Nearest;
    let proportional = Rule::Lines(table.with_way(WayBetween::ProportionalShift { ratio, from })?);
    let parallel = Rule::Lines(table.with_way(WayBetween::ParallelShift { from })?);
    let interpolated = match table.with_way(WayBetween::Interpolate { outside: Outside::Refuse }) {
        Ok(table) => Some(Rule::Lines(table)),
        Err(RuleError::TooFewLines { .. }) => None,
        Err(other) => return Err(other),
    };
    let known: Vec<f64> = table
        .lines()
        .iter()
        .map(|line| line.groove_from(table.reading(), geometry).contact)
        .collect();
    let mut report = WaysTable { ratio, rows: Vec::new(), without_exact: Vec::new() };
    for &contact in contacts {
        let Some(reference) = exact(contact) else {
            report.without_exact.push(contact);
            continue;
        };
        let error = |rule: &Rule| {
            rule.line_for_contact(contact, geometry).map(|line| line.start - reference)
        };
        let between = match interpolated.as_ref().map(error) {
            None | Some(Err(RuleError::OutsideLines { .. })) => None,
            Some(found) => Some(found?),
        };
        let from_line = known
            .iter()
            .map(|line| contact - line)
            .min_by(|a, b| a.abs().total_cmp(&b.abs()))
            .unwrap_or(0.0);
        report.rows.push(WaysRow {
            contact,
            from_line,
            exact: reference,
            interpolated: between,
            proportional: error(&proportional)?,
            parallel: error(&parallel)?,
        });
    }
    Ok(report)
}

//! What would hold where nothing that was asked for does, in sentences.

use super::asked_units::AskedUnits;
use super::wording::{joined, share_of};
use crate::playing::{FittingSlope, NearestBank};
use railproof_engine::units::short_number;

/// A slope that holds so large a share is offered for all.
const NEARLY_ALL: f64 = 0.9;

/// For balls sent as one was, at contact numbers about its own: `For balls sent like this, about 1.9 × contact holds`.
pub(super) fn slope_of_bank(found: &FittingSlope) -> String {
    let slope = short_number(found.slope, 2);
    let about = if found.holds == found.of {
        ""
    } else {
        ", but not for every contact number near this one"
    };
    format!(
        "For balls sent like this, at this speed, {slope} × contact holds (across the grooves{about})."
    )
}

/// For the banks of a sweep of which none holds: `About 1.9 × contact would hold 58 % of such banks.`
pub fn slope_of_sweep(found: &FittingSlope) -> String {
    let [slope, least, most] =
        [found.slope, found.wanted.0, found.wanted.1].map(|it| short_number(it, 2));
    if found.holds == 0 {
        return format!(
            "No single slope would hold: to come through the middle of the mouth they need from {least} to {most} × \
             contact across the grooves."
        );
    }
    let share = share_of(found.holds, found.of);
    if found.holds as f64 >= NEARLY_ALL * found.of as f64 {
        return format!(
            "What would hold: {slope} × contact across the grooves, for {share} of {} of these banks that were tried with it.",
            found.of
        );
    }
    format!(
        "The best slope, {slope} × contact across the grooves, holds {share} of {} of these banks that were tried with it; to come \
         through the middle of the mouth they need from {least} to {most}.",
        found.of
    )
}

/// Banks that would go in: `contact 3.5 from 7.66, or at 3.3 m/s from 8.1`.
pub(super) fn nearest_banks(found: &[NearestBank], contact: f64, units: AskedUnits) -> String {
    let told: Vec<String> = found
        .iter()
        .map(|near| {
            let start = short_number(near.line.start, 2);
            if near.line.contact == contact {
                format!("at {} from {start}", units.speed(near.speed_m_s, f64::round))
            } else {
                format!("contact {} from {start}", short_number(near.line.contact, 2))
            }
        })
        .collect();
    joined(&told)
}

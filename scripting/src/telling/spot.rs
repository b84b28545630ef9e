//! The one spot at which every ball may be aimed, in a sentence.

use super::asked_units::AskedUnits;
use crate::playing::SpotFindings;
use railproof_engine::units::short_number;

/// A number nearer to the zero line is on it.
const LEAST_NUMBER: f64 = 0.005;

/// Where to stand a marker, how good it is, and how to shift a line.
pub fn spot_sentence(found: &SpotFindings, units: AskedUnits) -> String {
    let along = if found.spot.number.abs() < LEAST_NUMBER {
        "on the pocket's zero line".to_owned()
    } else {
        format!("at number {} counted from the pocket", short_number(found.spot.number, 2))
    };
    let range = found.slopes.map_or_else(String::new, |slopes| {
        format!(
            " (nine times in ten from {} to {})",
            short_number(slopes.ninety.0, 2),
            short_number(slopes.ninety.1, 2)
        )
    });
    let contacts = found.errors.iter().map(|(contact, _)| *contact);
    let least = contacts.clone().fold(f64::INFINITY, f64::min);
    let most = contacts.fold(f64::NEG_INFINITY, f64::max);
    let off = match found.largest_error() {
        error if error < LEAST_NUMBER => "less than 0.01".to_owned(),
        error => short_number(error, 2),
    };
    format!(
        "{}, {} rail to the {} pocket, frozen balls that slide at {} m/s: aim every ball at one spot, {} behind the nose \
         of the {} rail, {along}: that is {} times the contact{range}. From contact {} to {} its starts are off by {} of a diamond at most. If you shift a line by \
         a tenth at the contact, shift it by {} tenths at the start, or it no longer leads to the spot.",
        found.table,
        found.rail.name(),
        found.pocket.name(),
        short_number(found.speed_m_s, 2),
        units.length(found.behind_nose_m),
        found.rail.name(),
        short_number(found.slope, 2),
        short_number(least, 2),
        short_number(most, 2),
        off,
        short_number(found.slope, 2),
    )
}

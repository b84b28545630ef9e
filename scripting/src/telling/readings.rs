//! A line's numbers by both readings.

use railproof_engine::rail::{BankGeometry, Line, Reading};
use railproof_engine::units::short_number;

/// After a number that no diamond has.
const PAST_END: &str = " (past the rail's end, where no diamond is)";

/// `contact 2 from 4.4 across the grooves; through the diamonds that is 1.76 from 4.64`.
pub fn line_readings(line: Line, geometry: &BankGeometry) -> String {
    format!(
        "contact {} from {} across the grooves; through the diamonds that is {}",
        short_number(line.contact, 3),
        short_number(line.start, 3),
        through_the_diamonds(line, geometry)
    )
}

/// A line across the grooves, as it is read through the diamonds: `1.76 from 4.64`.
pub(super) fn through_the_diamonds(line: Line, geometry: &BankGeometry) -> String {
    let read = line.read_as(Reading::Sight, geometry);
    let told = |number: f64| format!("{}{}", short_number(number, 2), past_end(number, geometry));
    format!("{} from {}", told(read.contact), told(read.start))
}

/// A note on a number that no diamond has.
pub(super) fn past_end(number: f64, geometry: &BankGeometry) -> &'static str {
    let diamonds = if geometry.rail.is_end() { 4.0 } else { 8.0 };
    if (0.0..=diamonds).contains(&number) { "" } else { PAST_END }
}

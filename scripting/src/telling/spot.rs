//! The one spot at which every ball may be aimed, in a sentence.

use super::asked_units::AskedUnits;
use railproof_engine::ask::CredibleInterval;
use railproof_engine::rail::Rail;
use railproof_engine::rule::AimSpot;
use railproof_engine::units::short_number;

/// The spot, and how well it serves.
#[derive(Debug, Clone)]
pub struct SpotFindings {
    /// The spot.
    pub spot: AimSpot,
    /// The slope of the rule that it stands for.
    pub slope: f64,
    /// The slope over all the tables that the table could be.
    pub slopes: Option<CredibleInterval>,
    /// How far behind the nose it stands, m.
    pub behind_nose_m: f64,
    /// For each contact, by how much its start misses the exact one, diamonds.
    pub errors: Vec<(f64, f64)>,
    /// The rail.
    pub rail: Rail,
}

impl SpotFindings {
    /// The largest error of a start, diamonds.
    pub fn largest_error(&self) -> f64 {
        self.errors.iter().map(|(_, error)| error.abs()).fold(0.0, f64::max)
    }
}

/// Where to stand a marker, how good it is, and how to shift a line.
pub fn spot_sentence(found: &SpotFindings, units: AskedUnits) -> String {
    let along = if found.spot.number.abs() < 0.005 {
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
    format!(
        "Aim every ball at one spot, {} behind the nose of the {} rail, {along}: that is {} times the \
         contact{range}. From contact {} to {} its starts are off by {} of a diamond at most. If you shift a line by \
         a tenth at the contact, shift it by {} tenths at the start, or it no longer leads to the spot.",
        units.tenth(found.behind_nose_m),
        found.rail.name(),
        short_number(found.slope, 2),
        short_number(least, 2),
        short_number(most, 2),
        short_number(found.largest_error(), 2),
        short_number(found.slope, 2),
    )
}

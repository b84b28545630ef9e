//! The one spot, for other programs.

use crate::playing::SpotFindings;
use crate::telling::caution::Cautions;
use serde::Serialize;

/// Where it is, and how well it serves.
#[derive(Debug, Clone, Serialize)]
pub struct SpotAnswer {
    /// The table.
    pub table: String,
    /// The rail banked off.
    pub rail: &'static str,
    /// The target.
    pub pocket: &'static str,
    /// The speed of the balls.
    pub speed_m_s: f64,
    /// Behind the nose of the rail, square to it.
    pub behind_nose_m: f64,
    /// Along the rail from the pocket's zero.
    pub number_diamonds: f64,
    /// Of its rule, start = slope × contact + offset.
    pub slope: f64,
    /// Of the same.
    pub offset_diamonds: f64,
    /// The slope nine times in ten, on a table that isn't known exactly: from this one.
    pub slope_from: Option<f64>,
    /// Up to this one.
    pub slope_to: Option<f64>,
    /// By how much the start of each contact misses the exact one.
    pub errors: Vec<SpotErrorAnswer>,
    /// The cautions of the answer.
    pub cautions: Cautions,
}

/// The error of one contact.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct SpotErrorAnswer {
    pub contact: f64,
    pub error_diamonds: f64,
}

impl SpotAnswer {
    /// Of a spot.
    pub fn new(found: &SpotFindings) -> Self {
        let error =
            |&(contact, error_diamonds): &(f64, f64)| SpotErrorAnswer { contact, error_diamonds };
        Self {
            table: found.table.clone(),
            rail: found.rail.name(),
            pocket: found.pocket.name(),
            speed_m_s: found.speed_m_s,
            behind_nose_m: found.behind_nose_m,
            number_diamonds: found.spot.number + 0.0,
            slope: found.slope,
            offset_diamonds: found.offset + 0.0,
            slope_from: found.slopes.map(|slopes| slopes.ninety.0),
            slope_to: found.slopes.map(|slopes| slopes.ninety.1),
            errors: found.errors.iter().map(error).collect(),
            cautions: found.cautions(),
        }
    }
}

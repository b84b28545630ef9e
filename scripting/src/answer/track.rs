//! A bank off a film for other programs.

use super::known::IntervalAnswer;
use railproof_engine::rail::Rail;
use railproof_engine::track::{RollAtRail, TrackAmount, TrackedBank};
use serde::Serialize;

/// A bank off a film.
#[derive(Debug, Clone, Serialize)]
pub struct TrackAnswer {
    /// The rail.
    pub rail: Rail,
    /// Speed as the ball comes to the rail.
    pub speed_before_m_s: IntervalAnswer,
    /// Angle of its way from the rail's normal.
    pub angle_before_rad: IntervalAnswer,
    /// Speed as it leaves the rail.
    pub speed_after_m_s: IntervalAnswer,
    /// Angle of that way from the normal.
    pub angle_after_rad: IntervalAnswer,
    /// Speed square to the rail, after over before.
    pub restitution: IntervalAnswer,
    /// Speed along the rail, after over before; null where the ball may have come square.
    pub along_kept: Option<IntervalAnswer>,
    /// Slowing before the rail.
    pub slowing_m_s2: IntervalAnswer,
    /// rolls, slides or not-determined.
    pub state_at_rail: &'static str,
    /// From where to where the roll lies; null where it is not determined.
    pub roll_at_rail: Option<(f64, f64)>,
    /// Points fitted before the rail.
    pub points_before: usize,
    /// Points fitted after it.
    pub points_after: usize,
    /// Scatter of the ball about its fits.
    pub scatter_m: f64,
    /// The coefficient of the lens that was undone; null where it was taken to bend nothing.
    pub lens_k1: Option<IntervalAnswer>,
    /// The furthest that a mark lies from its place.
    pub worst_mark_m: f64,
}

impl From<&TrackedBank> for TrackAnswer {
    fn from(bank: &TrackedBank) -> Self {
        let (state_at_rail, roll_at_rail) = match bank.roll {
            RollAtRail::Rolls => ("rolls", Some((1.0, 1.0))),
            RollAtRail::Slides { gained } => ("slides", Some((gained, 1.0))),
            RollAtRail::NotDetermined => ("not-determined", None),
        };
        Self {
            rail: bank.rail,
            speed_before_m_s: bank.speed_before.into(),
            angle_before_rad: bank.angle_before.into(),
            speed_after_m_s: bank.speed_after.into(),
            angle_after_rad: bank.angle_after.into(),
            restitution: bank.restitution.into(),
            along_kept: bank.along_kept.map(IntervalAnswer::from),
            slowing_m_s2: bank.slowing.into(),
            state_at_rail,
            roll_at_rail,
            points_before: bank.fitted.0,
            points_after: bank.fitted.1,
            scatter_m: bank.scatter_m,
            lens_k1: bank.lens_k1.map(IntervalAnswer::from),
            worst_mark_m: bank.worst_mark_m,
        }
    }
}

impl From<TrackAmount> for IntervalAnswer {
    fn from(amount: TrackAmount) -> Self {
        Self { middle: amount.middle, half: amount.fifty, ninety: amount.ninety }
    }
}

//! The place to which a bank comes beside its pocket or in it.

use crate::bank::{Arrival, BankEnding, BankVerdict, Outcome};
use crate::rail::BankGeometry;
use crate::vector::Vec2;

/// The place to which a bank comes, along the rails unrolled at its target
/// ([`BankGeometry::unrolled_m`]), and the bounds of each outcome there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// The verdict.
    pub verdict: BankVerdict,
    /// The miss at the mouth, m, positive long; NaN where it never comes to the mouth line.
    pub miss_m: f64,
    /// Where the ball's way crosses the first groove beside the target, m; NaN where it never comes there.
    pub along_m: f64,
    /// Its speed where its way crosses the mouth line, m/s; 0 where it meets a rail and would rest before that
    /// line.
    pub speed_m_s: f64,
    /// The stretch in which it would clear both mouth points, m; NaN where it would not come to the mouth line.
    pub holds_m: (f64, f64),
    /// The stretch without cushion, m: outside it the ball meets a rail first.
    pub mouth_m: (f64, f64),
}

impl Landing {
    /// Of an outcome.
    pub fn of(geometry: &BankGeometry, outcome: &Outcome) -> Self {
        let nowhere = (f64::NAN, f64::NAN);
        let mut landing = Self {
            verdict: outcome.verdict(),
            miss_m: outcome.miss_m().unwrap_or(f64::NAN),
            along_m: f64::NAN,
            speed_m_s: 0.0,
            holds_m: nowhere,
            mouth_m: geometry.unrolled_mouth_m(),
        };
        let met = match outcome.ending {
            BankEnding::OtherRail(side, place) => geometry.unrolled_m(side, place),
            _ => None,
        };
        let Some(arrival) = outcome.arrival else {
            landing.along_m = met.unwrap_or(f64::NAN);
            return landing;
        };
        let place = match outcome.ending {
            BankEnding::AtMouth => crossing_m(geometry, &arrival, 0.0),
            _ => met,
        };
        let ends = (
            crossing_m(geometry, &arrival, -arrival.clearance_short_m),
            crossing_m(geometry, &arrival, arrival.clearance_long_m),
        );
        if let (Some(place), (Some(from), Some(to))) = (place, ends) {
            landing.along_m = place;
            landing.speed_m_s = arrival.state.velocity.norm();
            landing.holds_m = (from, to);
        }
        landing
    }

    /// True where the ball rests before it comes to a place.
    pub const fn is_stopped(&self) -> bool {
        matches!(self.verdict, BankVerdict::StoppedBeforeRail | BankVerdict::StoppedBeforeMouth)
    }

    /// True where the ball comes to a place beside its target or into it.
    pub fn is_told(&self) -> bool {
        self.along_m.is_finite()
    }
}

/// The crossing of the way at the mouth line when it is moved square to itself, m; positive is longer.
fn crossing_m(geometry: &BankGeometry, arrival: &Arrival, moved_m: f64) -> Option<f64> {
    let direction = arrival.state.velocity.unit_or_zero();
    let square = Vec2::new(direction.y, -direction.x);
    let toward_long = if square.dot(geometry.mouth.toward_long) > 0.0 { square } else { -square };
    geometry.unrolled_crossing_m(arrival.state.position + toward_long * moved_m, direction)
}

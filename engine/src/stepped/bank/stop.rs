//! Lines at which the stepping ends.

use super::CompliantEnd;
use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};

/// A line that ends the stepping when the centre crosses it towards growing `normal`·p.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StopLine {
    /// Normal; need not be a unit vector.
    pub normal: Vec2,
    /// `normal`·p on the line, m.
    pub offset_m: f64,
    /// Watched also before the ball has come off the cushion.
    pub before_departure: bool,
}

/// The stop lines and which of them count now.
pub(super) struct ActiveStopLines<'a> {
    lines: &'a [StopLine],
    departed: bool,
}

impl<'a> ActiveStopLines<'a> {
    pub(super) fn new(lines: &'a [StopLine]) -> Self {
        Self { lines, departed: false }
    }

    pub(super) fn after_contact(&mut self) {
        self.departed = true;
    }

    /// # Errors
    /// [`CompliantEnd::Crossed`] for the line that is crossed first between two states.
    pub(super) fn check(
        &self,
        time_s: f64,
        step_s: f64,
        before: &BallState,
        after: &BallState,
    ) -> Result<(), CompliantEnd> {
        let mut first: Option<(f64, usize)> = None;
        for (index, line) in self.lines.iter().enumerate() {
            let from = line.normal.dot(before.position) - line.offset_m;
            let to = line.normal.dot(after.position) - line.offset_m;
            let counts = self.departed || line.before_departure;
            if counts && from < 0.0 && to >= 0.0 {
                let share = from / (from - to);
                if first.is_none_or(|(earliest, _)| share < earliest) {
                    first = Some((share, index));
                }
            }
        }
        let Some((share, line)) = first else { return Ok(()) };
        let mix = |a: f64, b: f64| a + share * (b - a);
        let level = |a: Vec2, b: Vec2| Vec2::new(mix(a.x, b.x), mix(a.y, b.y));
        let state = BallState {
            position: level(before.position, after.position),
            velocity: level(before.velocity, after.velocity),
            spin: Vec3::new(
                mix(before.spin.x, after.spin.x),
                mix(before.spin.y, after.spin.y),
                mix(before.spin.z, after.spin.z),
            ),
        };
        Err(CompliantEnd::Crossed { line, time_s: time_s + share * step_s, state })
    }
}

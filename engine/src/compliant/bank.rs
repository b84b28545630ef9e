//! The whole bank: to the cushion, off it, and on until a stop line or rest.

use super::impact::Run;
use super::{CompliantEnd, CompliantImpact, CompliantSettings};
use crate::equipment::Equipment;
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

/// A stepped bank.
#[derive(Debug, Clone, PartialEq)]
pub struct CompliantBank {
    /// The impact; `None` when something ended the bank before the ball came off the cushion.
    pub impact: Option<CompliantImpact>,
    /// Time, s, and centre, m, at each step.
    pub path: Vec<(f64, Vec2)>,
    /// The cause of its end.
    pub end: CompliantEnd,
}

/// Steps a whole bank: as [`step_to_departure`](super::step_to_departure), then on until a stop
/// line is crossed or the ball rests. The cushion at `groove_y_m` is gone after the impact: a stop
/// line there catches a ball that comes back to it.
pub fn step_bank(
    equipment: &Equipment,
    start: BallState,
    groove_y_m: f64,
    lines: &[StopLine],
    settings: &CompliantSettings,
) -> CompliantBank {
    let mut run = match Run::new(equipment, start, groove_y_m, lines, settings) {
        Ok(run) => run,
        Err(end) => return CompliantBank { impact: None, path: Vec::new(), end },
    };
    let mut impact = None;
    let end = loop {
        let stage = if impact.is_none() {
            run.free(true).and_then(|()| run.contact()).map(Some)
        } else {
            run.free(false).map(|()| None)
        };
        match stage {
            Ok(departed) => impact = departed.or(impact),
            Err(end) => break end,
        }
    };
    CompliantBank { impact, path: run.path, end }
}

/// The stop lines and which of them count now.
pub(super) struct Watch<'a> {
    lines: &'a [StopLine],
    departed: bool,
}

impl<'a> Watch<'a> {
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

//! The whole bank: to the cushion, off it, and on until a stop line or rest.

use super::impact::BankRun;
use super::{CompliantEnd, CompliantImpact, CompliantSettings, StopLine};
use crate::equipment::Equipment;
use crate::motion::BallState;
use crate::vector::Vec2;

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
    let mut run = match BankRun::new(equipment, start, groove_y_m, lines, settings) {
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

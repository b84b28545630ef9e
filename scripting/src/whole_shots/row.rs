//! The row of one whole shot.

use crate::telling::caution::Cautions;
use railproof_engine::equipment::Equipment;
use railproof_engine::results::{NO_SHOT, ShotOutcome, ShotResult};
use railproof_engine::stroke::Stroke;
use railproof_engine::sweep::Tally;
use railproof_engine::vector::Vec2;
use std::sync::Arc;

/// The row of one point.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotRow {
    /// The table it was played on, where there is one.
    pub equipment: Option<Arc<Equipment>>,
    /// Where the cue ball lay, m.
    pub cue: Option<Vec2>,
    /// Where the ball that is meant for the pocket lay, m.
    pub object: Option<Vec2>,
    /// The stroke, its aim solved.
    pub stroke: Option<Stroke>,
    /// The cautions of the shot; nothing where there is no such shot.
    pub cautions: Cautions,
    /// The outcome, or the reason why there is no such shot.
    pub outcome: Result<ShotOutcome, String>,
}

impl ShotRow {
    /// The row of a point at which there is no layout.
    pub fn without_layout(why: String) -> Self {
        Self {
            equipment: None,
            cue: None,
            object: None,
            stroke: None,
            cautions: Cautions::default(),
            outcome: Err(why),
        }
    }

    /// The row as its measures are read.
    pub fn result(&self) -> ShotResult<'_> {
        ShotResult {
            equipment: self.equipment.as_deref(),
            cue: self.cue,
            object: self.object,
            stroke: self.stroke,
            outcome: self.outcome.as_ref().ok(),
        }
    }

    /// The miss of the pocket's middle, m.
    pub fn miss_m(&self) -> Option<f64> {
        Some(self.outcome.as_ref().ok()?.verdict.arrival?.miss_m)
    }

    /// True when the ball dropped where it should.
    pub fn is_made(&self) -> bool {
        self.outcome.as_ref().is_ok_and(|outcome| outcome.verdict.is_made())
    }

    /// When there was a double kiss, s.
    pub fn kissed_at_s(&self) -> Option<f64> {
        self.outcome.as_ref().ok()?.verdict.kissed_at_s
    }

    /// True when there was a double kiss.
    pub fn kissed(&self) -> bool {
        self.kissed_at_s().is_some()
    }

    /// Counts it.
    pub fn count_in(&self, tally: &mut Tally) {
        match &self.outcome {
            Ok(outcome) => {
                let miss_m = self.miss_m().unwrap_or(f64::NAN);
                tally.add_result(outcome.verdict.pocket.place(), outcome.flagged, miss_m);
                tally.kissed += u64::from(self.kissed());
            }
            Err(_) => tally.failed += 1,
        }
    }

    /// The word for what became of it.
    pub fn verdict_name(&self) -> &'static str {
        self.outcome.as_ref().map_or(NO_SHOT, |outcome| outcome.verdict.pocket.name())
    }
}

//! A sweep of whole shots, as plain data.

use crate::telling::caution::Cautions;
use railproof_engine::equipment::Equipment;
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::Verdict;

/// Every point of a grid, and what came of its shot.
#[derive(Debug)]
pub struct ShotsRecord {
    /// A name unique in the scenario, fit for a file name.
    pub name: String,
    /// The axes; the last one varies fastest.
    pub axes: Vec<ShotAxis>,
    /// The tables that were played on, each once.
    pub equipment: Vec<Equipment>,
    /// The text of the function that made the shots.
    pub made_by: String,
    /// One for each point, in order.
    pub rows: Vec<ShotRow>,
}

/// One thing that varies, under the scenario's own name for it.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotAxis {
    /// Its name.
    pub name: String,
    /// Its values.
    pub values: ShotValues,
}

/// The values of an axis.
#[derive(Debug, Clone, PartialEq)]
pub enum ShotValues {
    /// Numbers.
    Numbers {
        /// In the unit that the first was written in.
        amounts: Vec<f64>,
        /// That unit; empty for plain numbers.
        unit: &'static str,
        /// In SI units.
        si: Vec<f64>,
        /// The SI unit; empty for plain numbers.
        si_unit: &'static str,
    },
    /// Words.
    Words(Vec<String>),
}

/// The row of one point.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotRow {
    /// Which of the record's tables it was played on.
    pub equipment: usize,
    /// Where the cue ball lay, m.
    pub cue: Option<Vec2>,
    /// Where the ball that is meant for the pocket lay, m.
    pub object: Vec2,
    /// The stroke, its aim solved.
    pub stroke: Option<Stroke>,
    /// The cautions of the shot; nothing where there is no such shot.
    pub cautions: Cautions,
    /// The outcome, or the reason why there is no such shot.
    pub outcome: Result<ShotOutcome, String>,
}

/// The outcome of a shot.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotOutcome {
    /// The verdict.
    pub verdict: Verdict,
    /// When the last ball came to rest, s.
    pub duration_s: f64,
    /// The number of its events.
    pub events: usize,
    /// A touch was outside its model's checked range, or a ball would have hopped or jumped.
    pub flagged: bool,
}

impl ShotsRecord {
    /// The cautions of any of its shots.
    pub fn cautions(&self) -> Cautions {
        self.rows.iter().fold(Cautions::default(), |all, row| all.and(&row.cautions))
    }

    /// The places in the axes of a row.
    pub fn digits(&self, row: usize) -> Vec<usize> {
        let mut rest = row;
        let mut digits = vec![0; self.axes.len()];
        for (digit, axis) in digits.iter_mut().zip(&self.axes).rev() {
            *digit = rest % axis.values.len();
            rest /= axis.values.len();
        }
        digits
    }
}

impl ShotValues {
    /// The number of values.
    pub fn len(&self) -> usize {
        match self {
            Self::Numbers { amounts, .. } => amounts.len(),
            Self::Words(words) => words.len(),
        }
    }

    /// True when there are none, which a sweep refuses.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

impl ShotRow {
    /// The miss of the pocket's middle, m.
    pub fn miss_m(&self) -> Option<f64> {
        Some(self.outcome.as_ref().ok()?.verdict.arrival?.miss_m)
    }

    /// True when the ball dropped where it should.
    pub fn is_made(&self) -> bool {
        self.outcome.as_ref().is_ok_and(|outcome| outcome.verdict.is_made())
    }

    /// When there was a double kiss, s.
    pub fn kissed_s(&self) -> Option<f64> {
        self.outcome.as_ref().ok()?.verdict.kissed_s
    }

    /// True when there was a double kiss.
    pub fn kissed(&self) -> bool {
        self.kissed_s().is_some()
    }

    /// The verdict in words; `no shot` where there is none.
    pub fn verdict_name(&self) -> &'static str {
        self.outcome.as_ref().map_or("no-shot", |outcome| outcome.verdict.pocket.name())
    }
}

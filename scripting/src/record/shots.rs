//! A sweep of whole shots, as plain data.

use crate::telling::caution::Cautions;
use railproof_engine::equipment::Equipment;
use railproof_engine::results::{NO_SHOT, ShotOutcome, ShotResult};
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::Vec2;

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

impl ShotsRecord {
    /// The cautions of any of its shots.
    pub fn cautions(&self) -> Cautions {
        self.rows.iter().fold(Cautions::default(), |all, row| all.and(&row.cautions))
    }

    /// A row as its measures are read.
    pub fn result<'a>(&'a self, row: &'a ShotRow) -> ShotResult<'a> {
        ShotResult {
            equipment: &self.equipment[row.equipment],
            cue: row.cue,
            object: row.object,
            stroke: row.stroke,
            outcome: row.outcome.as_ref().ok(),
        }
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

impl ShotAxis {
    /// Its name with its SI unit, as a column of a file has it.
    pub fn column(&self) -> String {
        match &self.values {
            ShotValues::Numbers { si_unit, .. } if !si_unit.is_empty() => {
                format!("{}_{}", self.name, si_unit.replace('/', "_").replace('^', ""))
            }
            _ => self.name.clone(),
        }
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
    pub fn kissed_at_s(&self) -> Option<f64> {
        self.outcome.as_ref().ok()?.verdict.kissed_at_s
    }

    /// True when there was a double kiss.
    pub fn kissed(&self) -> bool {
        self.kissed_at_s().is_some()
    }

    /// The word for what became of it.
    pub fn verdict_name(&self) -> &'static str {
        self.outcome.as_ref().map_or(NO_SHOT, |outcome| outcome.verdict.pocket.name())
    }
}

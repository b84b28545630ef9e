//! A sweep of shots in a script's hands: its rows, and selections of them.

use super::axes::{self, say};
use crate::plan::{ShotAxis, ShotValues};
use crate::record::ShotsRecord;
use crate::renamed;
use crate::scenario::results::{AxisValues, ResultAxis, ResultTable, Results};
use crate::telling::caution::Cautions;
use crate::telling::{AskedUnits, count, shot_outcome};
use crate::whole_shots::ShotRow;
use railproof_engine::results::SHOT_VERDICTS;
use std::sync::Arc;

/// A sweep of shots, or some of its rows.
#[derive(Debug, Clone)]
pub struct ShotsObject {
    pub record: Arc<ShotsRecord>,
    /// The kept places of each axis, in order.
    pub kept: Vec<Vec<usize>>,
}

impl ShotsObject {
    /// All rows.
    pub fn whole(record: Arc<ShotsRecord>) -> Self {
        let kept = record.axes.iter().map(|axis| (0..axis.values.len()).collect()).collect();
        Self { record, kept }
    }

    /// The kept rows, in order, each with its index.
    pub fn rows(&self) -> impl Iterator<Item = (usize, &ShotRow)> {
        self.record.rows.iter().enumerate().filter(|(at, _)| {
            let digits = self.record.digits(*at);
            digits.iter().zip(&self.kept).all(|(digit, kept)| kept.binary_search(digit).is_ok())
        })
    }

    /// The cautions of any of these shots.
    pub fn cautions(&self) -> Cautions {
        self.rows().fold(Cautions::default(), |all, (_, row)| all.and(&row.cautions))
    }

    pub fn count(&self) -> usize {
        self.kept.iter().map(Vec::len).product()
    }

    pub fn made(&self) -> usize {
        self.rows().filter(|(_, row)| row.is_made()).count()
    }

    pub fn share_made(&self) -> f64 {
        self.made() as f64 / self.count() as f64
    }

    /// A row's point in words.
    pub fn say_row(&self, at: usize) -> String {
        let digits = self.record.digits(at);
        let said: Vec<String> =
            self.record.axes.iter().zip(&digits).map(|(axis, digit)| say(axis, *digit)).collect();
        said.join(", ")
    }

    /// Its kind, for messages.
    pub fn subject(&self) -> String {
        let told: Vec<String> = self
            .record
            .axes
            .iter()
            .zip(&self.kept)
            .filter(|(axis, kept)| kept.len() < axis.values.len())
            .map(|(axis, kept)| match kept.as_slice() {
                [only] => say(axis, *only),
                [first, .., last] => format!("{} to {}", say(axis, *first), say(axis, *last)),
                [] => String::new(),
            })
            .collect();
        let counted = count(self.count() as u64, "shot", "shots");
        if told.is_empty() { counted } else { format!("{counted}, {}", told.join(", ")) }
    }
}

/// A row's outcome in words.
fn words(row: &ShotRow, units: AskedUnits) -> String {
    match &row.outcome {
        Err(why) => why.clone(),
        Ok(_) => shot_outcome(row.verdict_name(), row.miss_m(), row.kissed(), units),
    }
}

impl ResultTable for ShotsObject {
    fn axes(&self) -> Vec<ResultAxis> {
        let kept = |(axis, kept): (&ShotAxis, &Vec<usize>)| {
            let shown = axes::shown_axis(axis, kept);
            ResultAxis {
                name: axis.name.clone(),
                values: match &axis.values {
                    ShotValues::Numbers { si, .. } => {
                        AxisValues::Numbers(kept.iter().map(|at| si[*at]).collect())
                    }
                    ShotValues::Words(words) => {
                        AxisValues::Words(kept.iter().map(|at| words[*at].clone()).collect())
                    }
                },
                title: shown.title,
                unit: shown.unit,
                amounts: match &axis.values {
                    ShotValues::Numbers { amounts, .. } => {
                        kept.iter().map(|at| amounts[*at]).collect()
                    }
                    ShotValues::Words(_) => Vec::new(),
                },
                ticks: shown.ticks,
                labels: shown.labels,
                symbol: axes::unit(&axis.values),
                by_word: false,
            }
        };
        self.record.axes.iter().zip(&self.kept).map(kept).collect()
    }

    fn axis(&self, name: &str) -> Result<usize, (String, String)> {
        let names = || self.record.axes.iter().map(|axis| axis.name.as_str());
        names().position(|known| known == name).ok_or_else(|| {
            let hint = renamed::hint_or_all(name, names(), "what varies");
            (format!("there is no axis `{name}` here"), hint)
        })
    }

    fn rows(&self) -> Vec<usize> {
        self.rows().map(|(at, _)| at).collect()
    }
}

impl Results for ShotsObject {
    fn subject(&self) -> String {
        self.subject()
    }

    fn noun(&self) -> &'static str {
        "shot"
    }

    fn outcomes(&self) -> &'static [&'static str] {
        &SHOT_VERDICTS
    }

    fn outcome(&self, row: usize) -> &'static str {
        self.record.rows[row].verdict_name()
    }

    fn miss_m(&self, row: usize) -> Option<f64> {
        self.record.rows[row].miss_m()
    }

    fn sees_kisses(&self) -> bool {
        true
    }

    fn kissed(&self, row: usize) -> Option<bool> {
        let row = &self.record.rows[row];
        row.outcome.is_ok().then(|| row.kissed())
    }

    fn label(&self, row: usize) -> String {
        self.say_row(row)
    }

    fn sentence(&self, row: usize) -> String {
        words(&self.record.rows[row], self.units())
    }

    fn units(&self) -> AskedUnits {
        self.record.units
    }
}

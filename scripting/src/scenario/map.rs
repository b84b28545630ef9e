//! A comparison that was played, or some of its rows: a table of results, and its totals.

use super::point_selection::PointSelection;
use super::results::{ResultAxis, ResultTable, Results};
use crate::record::MapRecord;
use crate::telling::{AskedUnits, bank_outcome, rail_met};
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::{Row, Tally};
use std::sync::Arc;

/// A comparison, or some of its rows.
#[derive(Debug, Clone)]
pub struct Map {
    pub record: Arc<MapRecord>,
    pub picked: PointSelection,
}

impl Map {
    /// The kept rows, in order, each with its index.
    pub fn rows(&self) -> impl Iterator<Item = (usize, &Row)> {
        self.picked
            .rows()
            .into_iter()
            .filter_map(|at| self.record.rows.get(at).map(|row| (at, row)))
    }

    pub fn tally(&self) -> Tally {
        Tally::of(self.rows().map(|(_, row)| row))
    }

    /// The misses of the kept rows that have one, m.
    pub fn misses(&self) -> Vec<f64> {
        self.rows().filter_map(|(_, row)| row.outcome.miss_m()).collect()
    }

    /// Largest minus smallest miss, m.
    pub fn spread_m(&self) -> Option<f64> {
        let misses = self.misses();
        let least = misses.iter().copied().reduce(f64::min)?;
        let most = misses.iter().copied().reduce(f64::max)?;
        Some(most - least)
    }
}

impl ResultTable for Map {
    fn axes(&self) -> Vec<ResultAxis> {
        self.picked.axes()
    }

    fn axis(&self, name: &str) -> Result<usize, (String, String)> {
        self.picked.axis(name)
    }

    fn rows(&self) -> Vec<usize> {
        self.picked.rows()
    }
}

impl Results for Map {
    fn subject(&self) -> String {
        self.picked.subject()
    }

    fn noun(&self) -> &'static str {
        "bank"
    }

    fn outcomes(&self) -> &'static [&'static str] {
        &BankVerdict::NAMES
    }

    fn outcome(&self, row: usize) -> &'static str {
        self.record.rows.get(row).map_or("", |row| row.outcome.verdict().name())
    }

    fn miss_m(&self, row: usize) -> Option<f64> {
        self.record.rows.get(row)?.outcome.miss_m()
    }

    fn sees_kisses(&self) -> bool {
        false
    }

    fn kissed(&self, _: usize) -> Option<bool> {
        None
    }

    fn label(&self, row: usize) -> String {
        self.picked.say_row(row)
    }

    fn sentence(&self, row: usize) -> String {
        let Some(row) = self.record.rows.get(row) else { return String::new() };
        let plan = self.picked.plan();
        let bank = plan.bank(&plan.digits(row.point)).ok();
        let met = bank.and_then(|bank| rail_met(&bank, row.outcome.ending));
        bank_outcome(&row.outcome, met.as_deref(), self.units())
    }

    fn units(&self) -> AskedUnits {
        self.record.units
    }
}

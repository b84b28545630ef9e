//! A map's rows as a baseline keeps them, with the numbers that they come from.

use super::names::tame;
use super::rules::{StoredRule, key_of};
use super::tables::StoredTable;
use crate::record::MapRecord;
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::{Input, Plan, Values};
use railproof_engine::units::short_number;
use std::collections::BTreeSet;

/// Rows of a map in a form that can be written, read back and compared.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct BaselineRows {
    /// Digest of the plan they came from.
    pub(super) question_sha256: String,
    /// The engine's version; nothing in files of before.
    pub(super) engine: Option<String>,
    /// The tables that they were played on; none in files of before.
    pub(super) tables: Vec<StoredTable>,
    /// The rules; of files of before their names alone.
    pub(super) rules: Vec<StoredRule>,
    /// Inputs with one value: column name and value.
    pub(super) constants: Vec<(String, String)>,
    /// Columns of the inputs that vary.
    pub(super) columns: Vec<String>,
    /// In order of points and rules.
    pub(super) rows: Vec<Entry>,
}

/// One bank.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entry {
    /// Values of the columns that vary.
    pub(super) inputs: Vec<String>,
    /// The rule's name; empty when the plan gives start numbers itself.
    pub(super) rule: String,
    pub(super) verdict: BankVerdict,
    /// mm, positive long; `None` when the ball never came to the mouth line.
    pub(super) miss_mm: Option<f64>,
    /// Room to the nearer mouth point, mm; it is not stored.
    pub(super) clearance_mm: Option<f64>,
}

impl BaselineRows {
    /// The chosen rows of a map; indices that are not there are left out.
    pub(super) fn of(map: &MapRecord, rows: &[usize], question_sha256: String) -> Self {
        let mut chosen = rows.to_vec();
        chosen.sort_unstable();
        chosen.dedup();
        let axes = map.plan.axes();
        let varying: Vec<usize> =
            (0..axes.len()).filter(|axis| is_column(&map.plan, *axis)).collect();
        let constants = (0..axes.len())
            .filter(|axis| !varying.contains(axis))
            .map(|axis| (axes[axis].input.column(), text_of(&map.plan, axis, 0)))
            .collect();
        let keys: Vec<String> = map.rules.iter().map(key_of).collect();
        let entry = |index: usize| {
            let row = map.rows.get(index)?;
            let digits = map.plan.digits(row.point);
            Some(Entry {
                inputs: varying
                    .iter()
                    .map(|axis| text_of(&map.plan, *axis, digits[*axis]))
                    .collect(),
                rule: keys.get(row.rule).cloned().unwrap_or_default(),
                verdict: row.outcome.verdict(),
                miss_mm: row.outcome.miss_m().map(|miss| miss * 1e3),
                clearance_mm: row.outcome.clearance_m().map(|clearance| clearance * 1e3),
            })
        };
        // What no chosen row comes from is no part of it.
        let played = || chosen.iter().filter_map(|index| map.rows.get(*index));
        let used: BTreeSet<usize> = played().map(|row| row.rule).collect();
        let rules = map.rules.iter().enumerate().filter(|(at, _)| used.contains(at));
        let rules = rules.map(|(_, rule)| StoredRule::of(rule)).collect();
        let tables = axes.iter().enumerate().find_map(|(axis, it)| match &it.values {
            Values::Equipment(all) => Some((axis, all)),
            _ => None,
        });
        let tables = tables.map_or_else(Vec::new, |(axis, all)| {
            let used: BTreeSet<usize> =
                played().map(|row| map.plan.digits(row.point)[axis]).collect();
            let used = used.into_iter().filter_map(|at| all.get(at));
            used.map(|it| StoredTable::of(it, tame(&it.name))).collect()
        });
        Self {
            question_sha256,
            engine: Some(railproof_engine::VERSION.to_owned()),
            tables,
            rules,
            constants,
            columns: varying.iter().map(|axis| axes[*axis].input.column()).collect(),
            rows: chosen.into_iter().filter_map(entry).collect(),
        }
    }

    /// Whether it holds the numbers that its rows come from.
    pub(super) fn holds_numbers(&self) -> bool {
        !self.tables.is_empty()
    }

    /// The values of an input, a column's name, each once, in the order in which they came.
    pub(super) fn values(&self, name: &str) -> Vec<&str> {
        let mut seen = BTreeSet::new();
        let constants = self.constants.iter().filter(|(known, _)| known == name);
        let constants = constants.map(|(_, value)| value.as_str());
        let column = self.columns.iter().position(|column| column == name);
        let rows = self.rows.iter().filter_map(|row| Some(row.inputs.get(column?)?.as_str()));
        constants.chain(rows).filter(|value| seen.insert(*value)).collect()
    }

    /// A row in words: its varying values, and the rule where there are several.
    pub(super) fn label(&self, entry: &Entry) -> String {
        let mut parts: Vec<String> = self
            .columns
            .iter()
            .zip(&entry.inputs)
            .map(|(column, value)| format!("{column} {value}"))
            .collect();
        // One rule is told once, for the whole map.
        if self.rules.len() > 1 && !entry.rule.is_empty() {
            parts.push(format!("by {}", entry.rule));
        }
        parts.join(", ")
    }
}

/// The contact number always has a column, so that every row says something.
fn is_column(plan: &Plan, axis: usize) -> bool {
    let axis = &plan.axes()[axis];
    axis.values.len() > 1 || axis.input == Input::Contact
}

/// A value as a baseline writes it: numbers to a billionth, so that rounding in the script's own
/// arithmetic does not make another point of it.
fn text_of(plan: &Plan, axis: usize, digit: usize) -> String {
    let values = &plan.axes()[axis].values;
    match values.number(digit) {
        Some(number) => short_number(number, 9),
        None => tame(values.word(digit).unwrap_or_default()),
    }
}

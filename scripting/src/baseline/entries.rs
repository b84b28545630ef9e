//! A map's rows as a baseline keeps them.

use crate::record::MapRecord;
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::{Input, Plan};
use railproof_engine::units::short_number;
use std::collections::BTreeMap;

/// Rows of a map in a form that can be written, read back and compared.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct BaselineRows {
    /// Digest of the plan they came from.
    pub(super) question_sha256: String,
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
        let entry = |index: usize| {
            let row = map.rows.get(index)?;
            let digits = map.plan.digits(row.point);
            Some(Entry {
                inputs: varying
                    .iter()
                    .map(|axis| text_of(&map.plan, *axis, digits[*axis]))
                    .collect(),
                rule: map.rules.get(row.rule).map_or_else(String::new, |rule| tame(&rule.name)),
                verdict: row.outcome.verdict(),
                miss_mm: row.outcome.miss_m().map(|miss| miss * 1e3),
            })
        };
        Self {
            question_sha256,
            constants,
            columns: varying.iter().map(|axis| axes[*axis].input.column()).collect(),
            rows: chosen.into_iter().filter_map(entry).collect(),
        }
    }

    /// Rows by what was played, in words that do not depend on which inputs happen to vary; of
    /// rows that read alike each has its number.
    pub(super) fn by_point(&self) -> BTreeMap<RowKey, (usize, &Entry)> {
        let mut found = BTreeMap::new();
        let mut seen: BTreeMap<Vec<(String, String)>, usize> = BTreeMap::new();
        for (index, entry) in self.rows.iter().enumerate() {
            let mut inputs: Vec<(String, String)> = self.constants.clone();
            inputs.extend(self.columns.iter().cloned().zip(entry.inputs.iter().cloned()));
            inputs.push(("rule".to_owned(), entry.rule.clone()));
            inputs.sort();
            let count = seen.entry(inputs.clone()).or_insert(0);
            found.insert(RowKey { inputs, occurrence: *count }, (index, entry));
            *count += 1;
        }
        found
    }

    /// A row in words: its varying values, and the rule.
    pub(super) fn label(&self, entry: &Entry) -> String {
        let mut parts: Vec<String> = self
            .columns
            .iter()
            .zip(&entry.inputs)
            .map(|(column, value)| format!("{column} {value}"))
            .collect();
        if !entry.rule.is_empty() {
            parts.push(format!("by {}", entry.rule));
        }
        parts.join(", ")
    }
}

/// The bank played: every input and the rule.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct RowKey {
    inputs: Vec<(String, String)>,
    occurrence: usize,
}

impl RowKey {
    /// The key of the first row that reads like this one, which is another.
    pub(super) fn first(&self) -> Option<Self> {
        (self.occurrence > 0).then(|| Self { inputs: self.inputs.clone(), occurrence: 0 })
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

/// Names come from people; a tab or a line break in one would break the file.
fn tame(name: &str) -> String {
    let plain: String =
        name.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    plain.trim().to_owned()
}

//! The rows of a stored map and of this one side by side, bank by bank.

use super::edge;
use super::entries::{BaselineRows, Entry};
use super::pairing::Pairing;
use std::collections::BTreeMap;

/// Half of the last decimal that is stored, mm.
const STORED_ROUNDING_MM: f64 = 0.5e-3;

/// The bank played: every input and the rule, by their names now, and which of the rows that read alike.
type RowKey = (Vec<(String, String)>, usize);

/// One bank, stored and now.
pub(super) struct RowPair<'a> {
    /// Every input and the rule.
    pub(super) inputs: Vec<(String, String)>,
    pub(super) before: Option<&'a Entry>,
    pub(super) after: Option<&'a Entry>,
    pub(super) change: RowChange,
}

/// The difference of one bank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum RowChange {
    Same,
    /// The same verdict, misses so far apart, mm.
    Moved(f64),
    /// Another verdict, so far from the edge between the two, mm.
    AtEdge(f64),
    Verdict,
    New,
    /// Whether the bank is stored more often than it is played.
    Gone {
        again: bool,
    },
}

/// The rows, those of now first and in their order.
pub(super) fn aligned<'a>(
    stored: &'a BaselineRows,
    now: &'a BaselineRows,
    pairing: &Pairing<'_>,
    within_mm: f64,
) -> Vec<RowPair<'a>> {
    let edges_stand = pairing.edges_stand() || stored.question_sha256 == now.question_sha256;
    // What had one value and has another is told for the whole map, not for every row.
    let told: Vec<(String, String)> = now
        .constants
        .iter()
        .filter(|(name, _)| stored.constants.iter().any(|(other, _)| other == name))
        .cloned()
        .collect();
    let mut before = by_key(stored, |name, value| match name {
        "rule" => pairing.rule_now(value).unwrap_or(value).to_owned(),
        "equipment" => pairing.table_names.get(value).map_or(value, String::as_str).to_owned(),
        _ => {
            let constant = told.iter().find(|(known, _)| known == name);
            constant.map_or(value, |(_, is)| is).to_owned()
        }
    });
    let after = by_key(now, |_, value| value.to_owned());
    let mut in_order: Vec<(RowKey, (usize, &Entry))> = after.into_iter().collect();
    in_order.sort_by_key(|(_, (index, _))| *index);
    let mut pairs = Vec::with_capacity(in_order.len());
    let mut played: BTreeMap<Vec<(String, String)>, usize> = BTreeMap::new();
    for (key, (_, entry)) in in_order {
        *played.entry(key.0.clone()).or_default() += 1;
        let old = before.remove(&key).map(|(_, old)| old);
        let change = old.map_or(RowChange::New, |old| change(old, entry, within_mm, edges_stand));
        pairs.push(RowPair { inputs: key.0, before: old, after: Some(entry), change });
    }
    let mut gone: Vec<(RowKey, (usize, &Entry))> = before.into_iter().collect();
    gone.sort_by_key(|(_, (index, _))| *index);
    pairs.extend(gone.into_iter().map(|((inputs, _), (_, entry))| {
        let again = played.contains_key(&inputs);
        RowPair { inputs, before: Some(entry), after: None, change: RowChange::Gone { again } }
    }));
    pairs
}

/// Rows by what was played, in words that do not depend on which inputs happen to vary.
fn by_key(
    rows: &BaselineRows,
    now: impl Fn(&str, &str) -> String,
) -> BTreeMap<RowKey, (usize, &Entry)> {
    let mut seen: BTreeMap<Vec<(String, String)>, usize> = BTreeMap::new();
    let told = |(name, value): (&String, &String)| (name.clone(), now(name, value));
    let constants: Vec<(String, String)> =
        rows.constants.iter().map(|(name, value)| told((name, value))).collect();
    let mut found = BTreeMap::new();
    for (index, entry) in rows.rows.iter().enumerate() {
        let mut inputs = constants.clone();
        inputs.extend(rows.columns.iter().zip(&entry.inputs).map(|(name, value)| {
            let is_word = name == "equipment";
            (name.clone(), if is_word { now(name, value) } else { value.clone() })
        }));
        inputs.push(("rule".to_owned(), now("rule", &entry.rule)));
        inputs.sort();
        let occurrence = seen.entry(inputs.clone()).or_insert(0);
        found.insert((inputs, *occurrence), (index, entry));
        *occurrence += 1;
    }
    found
}

fn change(old: &Entry, now: &Entry, within_mm: f64, edges_stand: bool) -> RowChange {
    let apart = match (old.miss_mm, now.miss_mm) {
        (None, None) => 0.0,
        (Some(before), Some(after)) => (after - before).abs(),
        // A miss on one side only: as far as can be.
        _ => f64::INFINITY,
    };
    let beyond = apart > within_mm + STORED_ROUNDING_MM;
    if old.verdict != now.verdict {
        let near = edge::distance_mm(old, now, apart, edges_stand).filter(|_| !beyond);
        return near.map_or(RowChange::Verdict, RowChange::AtEdge);
    }
    if beyond { RowChange::Moved(apart) } else { RowChange::Same }
}

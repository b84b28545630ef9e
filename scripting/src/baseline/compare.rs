//! The differences between a stored map and this one.

use super::entries::{BaselineRows, Entry};
use super::text::miss_text;

/// At most this many rows are listed for each kind of change; the counts are always whole.
const MOST_LISTED: usize = 12;
/// Half of the last decimal that is stored, mm.
const STORED_ROUNDING_MM: f64 = 0.5e-3;

/// The last line of the changes where something else was asked.
pub const OTHER_QUESTION: &str = "the numbers differ because the scenario now plays other banks, another table or \
                                  another rule (or railproof is another version): nothing broke";

/// The changes in words, counts first; empty when nothing moved beyond the tolerance.
pub(super) fn moved(stored: &BaselineRows, now: &BaselineRows, within_mm: f64) -> Vec<String> {
    let (before, after) = (stored.by_point(), now.by_point());
    let mut verdicts = Vec::new();
    let mut misses: Vec<(f64, String)> = Vec::new();
    let mut added: Vec<(usize, String)> = Vec::new();
    for (key, (index, entry)) in &after {
        let Some((_, old)) = before.get(key) else {
            added.push((*index, now.label(entry)));
            continue;
        };
        let label = now.label(entry);
        if old.verdict != entry.verdict {
            verdicts.push((*index, format!("{label}: {}, now {}", told(old), told(entry))));
        } else if let Some(by) = beyond(old, entry, within_mm) {
            let change = format!(
                "{label}: miss {} mm, now {} mm ({by:.3} mm apart)",
                miss_text(old.miss_mm),
                miss_text(entry.miss_mm)
            );
            misses.push((by, change));
        }
    }
    let removed: Vec<(usize, String)> = before
        .iter()
        .filter(|(key, _)| !after.contains_key(key))
        .map(|(key, (index, entry))| {
            let label = stored.label(entry);
            let again = key.first().is_some_and(|first| after.contains_key(&first));
            (*index, if again { format!("{label} (stored more than once)") } else { label })
        })
        .collect();
    misses.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
    let misses = misses.into_iter().map(|(_, change)| change).collect();
    let mut lines = Vec::new();
    list(&mut lines, "verdict changed", "verdicts changed", in_order(verdicts));
    let beyond = format!("moved by more than {within_mm} mm");
    list(
        &mut lines,
        &format!("miss {beyond}"),
        &format!("misses {beyond}, the largest first"),
        misses,
    );
    list(&mut lines, "bank is new", "banks are new", in_order(added));
    list(&mut lines, "bank is gone", "banks are gone", in_order(removed));
    if !lines.is_empty() && stored.question_sha256 != now.question_sha256 {
        lines.extend(changed_constants(stored, now));
        lines.push(OTHER_QUESTION.to_owned());
    }
    lines
}

/// Inputs with one value, and another one now.
fn changed_constants(stored: &BaselineRows, now: &BaselineRows) -> Vec<String> {
    now.constants
        .iter()
        .filter_map(|(name, value)| {
            let (_, old) = stored.constants.iter().find(|(other, _)| other == name)?;
            (old != value).then(|| format!("{name} was {old} and is {value}"))
        })
        .collect()
}

/// The distance between two misses, when it is more than allowed.
fn beyond(old: &Entry, entry: &Entry, within_mm: f64) -> Option<f64> {
    match (old.miss_mm, entry.miss_mm) {
        (None, None) => None,
        (Some(before), Some(after)) => {
            let by = (after - before).abs();
            (by > within_mm + STORED_ROUNDING_MM).then_some(by)
        }
        // The same verdict with a miss on one side only: as far as can be.
        _ => Some(f64::INFINITY),
    }
}

fn told(entry: &Entry) -> String {
    match entry.miss_mm {
        Some(_) => format!("{} ({} mm)", entry.verdict.name(), miss_text(entry.miss_mm)),
        None => entry.verdict.name().to_owned(),
    }
}

fn in_order(mut changes: Vec<(usize, String)>) -> Vec<String> {
    changes.sort_by_key(|(index, _)| *index);
    changes.into_iter().map(|(_, change)| change).collect()
}

/// The count in words, then the first of the changes set in.
fn list(lines: &mut Vec<String>, one: &str, many: &str, changes: Vec<String>) {
    let count = changes.len();
    if count == 0 {
        return;
    }
    lines.push(if count == 1 { format!("1 {one}:") } else { format!("{count} {many}:") });
    lines.extend(changes.into_iter().take(MOST_LISTED).map(|change| format!("  {change}")));
    if count > MOST_LISTED {
        lines.push(format!("  and {} more", count - MOST_LISTED));
    }
}

//! The differences between a stored map and this one, in words.

use super::align::{RowChange, RowPair, aligned};
use super::edge::EDGE_BAND_MM;
use super::entries::{BaselineRows, Entry};
use super::pairing::Pairing;
use super::parameters::{moved, moved_axis, moved_input};
use super::text::miss_text;
use crate::record::MovedParameter;
use railproof_engine::sweep::Input;
use railproof_engine::units::plain;

/// At most this many rows are listed for each kind of change; the counts are always whole.
const MOST_LISTED: usize = 12;
/// At most this many parameters are told in words; JSON has more.
const MOST_PARAMETERS: usize = 8;
/// A file of others may hold any number of parts of a rule.
const MOST_KEPT: usize = 100;

/// The last line of the changes where something else was asked.
pub const OTHER_QUESTION: &str = "the numbers differ because the scenario now plays other banks, another table or \
                                  another rule (or railproof is another version): nothing broke";

/// The last line of the changes where the question is the stored one.
pub const SAME_QUESTION: &str =
    "no parameter moved: the same banks on the same table by the same rule come out otherwise";

/// The last line of the changes where the question is the stored one, and only rows are there or not.
pub const OTHER_ROWS: &str = "no parameter moved, and each bank that is stored once is as it was: rows were taken out of \
                          the baseline or put into it, or other banks of the same map are held to it now";

/// Said of files of before, which hold rows alone.
pub const NO_NUMBERS: &str = "the stored map holds no numbers of its table and rule, so the parameter that moved \
                          can't be told; --accept stores them";

/// All that differs.
pub(super) struct Differences<'a> {
    /// What fails, in words.
    pub(super) moved: Vec<String>,
    /// Also where nothing fails.
    pub(super) parameters: Vec<MovedParameter>,
    pub(super) warnings: Vec<String>,
    pub(super) notes: Vec<String>,
    /// The rows side by side.
    pub(super) rows: Vec<RowPair<'a>>,
}

impl Differences<'_> {
    /// The number of rows with such a change.
    pub(super) fn count(&self, wanted: impl Fn(RowChange) -> bool) -> usize {
        self.rows.iter().filter(|row| wanted(row.change)).count()
    }
}

/// The differences beyond the tolerance, counts first.
pub(super) fn differences<'a>(
    stored: &'a BaselineRows,
    now: &'a BaselineRows,
    within_mm: f64,
) -> Differences<'a> {
    let pairing = Pairing::of(stored, now);
    let rows = aligned(stored, now, &pairing, within_mm);
    let inputs = moved_inputs(stored, now);
    let other_banks = !inputs.is_empty();
    let mut parameters = inputs;
    let other_question = stored.question_sha256 != now.question_sha256;
    // The same question has the same values; rows of some may have gone.
    if other_question {
        parameters.extend(moved_axes(stored, now));
    }
    parameters.extend(moved_parts(stored, now, &pairing));
    parameters.truncate(MOST_KEPT);
    let mut lines = changed_rows((stored, now), &rows, within_mm, other_question);
    let told = parameter_lines(&parameters);
    let fails = !lines.is_empty() || other_banks;
    let mut notes = Vec::new();
    let holds_none = !stored.holds_numbers();
    if fails {
        lines.splice(0..0, told);
        let is_other_row = |row: &RowPair<'_>| {
            matches!(row.change, RowChange::New | RowChange::Gone { .. } | RowChange::Same)
        };
        let rows_alone = parameters.is_empty() && rows.iter().all(is_other_row);
        if holds_none && (other_question || !rows_alone) {
            lines.push(NO_NUMBERS.to_owned());
        }
        let last = match (other_question, rows_alone) {
            (true, _) => OTHER_QUESTION,
            (false, true) => OTHER_ROWS,
            (false, false) => SAME_QUESTION,
        };
        lines.push(last.to_owned());
    } else {
        if !told.is_empty() {
            let told = told.join("; ");
            notes.push(format!("{told}; no miss moved by more than {} mm", plain(within_mm)));
        }
        notes.extend(renamed(&pairing));
        if holds_none {
            notes.push(
                "the stored map holds no numbers of its table and rule; --accept stores them"
                    .to_owned(),
            );
        }
    }
    let warnings = at_edges(now, &rows);
    Differences { moved: lines, parameters, warnings, notes, rows }
}

/// Inputs with one value, and another one now; tables are told by their numbers.
fn moved_inputs(stored: &BaselineRows, now: &BaselineRows) -> Vec<MovedParameter> {
    let both = now.constants.iter().filter_map(|(name, is)| {
        let (_, was) = stored.constants.iter().find(|(other, _)| other == name)?;
        (was != is && name != "equipment").then_some((name, was, is))
    });
    both.filter_map(|(name, was, is)| {
        let input = Input::all().find(|input| input.column() == *name)?;
        Some(moved_input(input, was, is))
    })
    .collect()
}

/// Inputs that vary, now or as stored, at other values.
fn moved_axes(stored: &BaselineRows, now: &BaselineRows) -> Vec<MovedParameter> {
    let varies = |input: &Input| {
        let name = input.column();
        *input != Input::Equipment
            && (stored.columns.contains(&name) || now.columns.contains(&name))
    };
    let inputs = Input::all().filter(varies);
    let moved = inputs.filter_map(|input| {
        let name = input.column();
        moved_axis(input, &stored.values(&name), &now.values(&name))
    });
    moved.collect()
}

/// Numbers of the tables and parts of the rules that moved.
fn moved_parts(
    stored: &BaselineRows,
    now: &BaselineRows,
    pairing: &Pairing<'_>,
) -> Vec<MovedParameter> {
    let several = now.tables.len() > 1;
    let mut found: Vec<MovedParameter> = Vec::new();
    for (old, new) in &pairing.tables {
        let on = if several { format!("on {} ", new.name) } else { String::new() };
        let changes = old.changes(new, &on);
        if old.name != new.name && !changes.is_empty() {
            found.push(moved_table(&old.name, &new.name));
        }
        found.extend(changes);
    }
    if pairing.tables.is_empty() {
        let other = pairing.table_names.iter().filter(|(old, new)| old != new);
        found.extend(other.map(|(old, new)| moved_table(old, new)));
    }
    let only = now.rules.len() == 1;
    found.extend(pairing.rules.iter().flat_map(|(old, new)| old.changes(new, only)));
    if let Some(was) = stored.engine.as_ref().filter(|was| now.engine.as_ref() != Some(*was)) {
        let is = now.engine.as_deref().unwrap_or_default();
        found.push(moved("engine", "railproof's engine", was, is));
    }
    found
}

fn moved_table(old: &str, new: &str) -> MovedParameter {
    let words = moved("equipment", "the table", &format!("`{old}`"), &format!("`{new}`")).words;
    MovedParameter { words, ..moved("equipment", "the table", old, new) }
}

/// What goes by another name and is the same.
fn renamed(pairing: &Pairing<'_>) -> Vec<String> {
    let rules = pairing.rules.iter().filter(|(old, new)| old.is_alike(new));
    let rules = rules.map(|(old, new)| ("rule", &old.key, &new.key));
    let tables = pairing.tables.iter().filter(|(old, new)| old.is_alike(new));
    let tables = tables.map(|(old, new)| ("table", &old.name, &new.name));
    rules
        .chain(tables)
        .filter(|(_, old, new)| old != new)
        .map(|(what, old, new)| format!("the {what} `{old}` is called `{new}` now"))
        .collect()
}

fn parameter_lines(parameters: &[MovedParameter]) -> Vec<String> {
    let mut lines: Vec<String> =
        parameters.iter().take(MOST_PARAMETERS).map(|one| one.words.clone()).collect();
    if parameters.len() > MOST_PARAMETERS {
        lines.push(format!("and {} more parameters moved", parameters.len() - MOST_PARAMETERS));
    }
    lines
}

/// What fails of the rows.
fn changed_rows(
    (stored, now): (&BaselineRows, &BaselineRows),
    rows: &[RowPair<'_>],
    within_mm: f64,
    other_question: bool,
) -> Vec<String> {
    let (mut verdicts, mut added, mut removed) = (Vec::new(), Vec::new(), Vec::new());
    let mut misses: Vec<(f64, String)> = Vec::new();
    for row in rows {
        match (row.change, row.before, row.after) {
            (RowChange::Verdict, Some(old), Some(entry)) => {
                verdicts.push(format!("{}: {}, now {}", now.label(entry), told(old), told(entry)));
            }
            (RowChange::Moved(by), Some(old), Some(entry)) => {
                let label = now.label(entry);
                let (was, is) = (miss_text(old.miss_mm), miss_text(entry.miss_mm));
                let change = format!(
                    "{label}: miss {was} mm, now {is} mm ({} mm apart)",
                    miss_text(Some(by))
                );
                misses.push((by, change));
            }
            (RowChange::New, _, Some(entry)) => added.push(now.label(entry)),
            (RowChange::Gone { again }, Some(entry), _) => {
                let label = stored.label(entry);
                let again = if again { " (stored more than once)" } else { "" };
                removed.push(format!("{label}{again}"));
            }
            _ => {}
        }
    }
    misses.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
    let misses = misses.into_iter().map(|(_, change)| change).collect();
    let mut lines = Vec::new();
    list(&mut lines, "verdict changed", "verdicts changed", verdicts);
    let beyond = format!("moved by more than {} mm", plain(within_mm));
    list(
        &mut lines,
        &format!("miss {beyond}"),
        &format!("misses {beyond}, the largest first"),
        misses,
    );
    if other_question {
        list(&mut lines, "bank is new", "banks are new", added);
        list(&mut lines, "bank is gone", "banks are gone", removed);
    } else {
        list(
            &mut lines,
            "bank is missing from the baseline",
            "banks are missing from the baseline",
            added,
        );
        let beyond = "of the baseline but not of the map that is held to it";
        list(&mut lines, &format!("row is {beyond}"), &format!("rows are {beyond}"), removed);
    }
    lines
}

/// The verdicts that changed at an edge.
fn at_edges(now: &BaselineRows, rows: &[RowPair<'_>]) -> Vec<String> {
    let flipped = rows.iter().filter_map(|row| match (row.change, row.before, row.after) {
        (RowChange::AtEdge(by), Some(old), Some(entry)) => {
            let (was, is) = (told(old), told(entry));
            Some(format!("{}: {was}, now {is}, {by:.3} mm from the edge", now.label(entry)))
        }
        _ => None,
    });
    let mut lines = Vec::new();
    list(
        &mut lines,
        &format!("verdict changed within {EDGE_BAND_MM} mm of an edge"),
        &format!("verdicts changed within {EDGE_BAND_MM} mm of an edge"),
        flipped.collect(),
    );
    lines
}

fn told(entry: &Entry) -> String {
    match entry.miss_mm {
        Some(_) => format!("{} ({} mm)", entry.verdict.name(), miss_text(entry.miss_mm)),
        None => entry.verdict.name().to_owned(),
    }
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

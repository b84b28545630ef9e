//! Corrections of a rule, in sentences and as a small table.

use super::chance_words::{behind_words, chance_words};
use super::discovered::searched_words;
use super::wording::count;
use crate::discovering::CorrectedFindings;
use railproof_engine::discover::{CorrectionRow, Corrections};
use std::fmt::Write as _;

/// All that was found: the table to keep, what each row gains, and smaller and larger tables.
pub fn corrected_sentences(found: &CorrectedFindings) -> String {
    let tables = &found.found.tables;
    let kept = found.found.named();
    let mut text = format!("The rule: {}, by {}.\n", found.rule.name, found.asked.player.name);
    if found.found.rows.is_empty() {
        let _ = writeln!(
            text,
            "Correct nothing: with the rule as it is they make {} balls of a hundred, and no table of corrections \
             makes more, as far as can be told.",
            chance_words(kept.chance)
        );
    } else {
        let _ = writeln!(
            text,
            "With the table below they make {} balls of a hundred, without it {}: it gains {}.\n",
            chance_words(kept.chance),
            chance_words(tables[0].chance),
            behind_words(kept.gain)
        );
        text += "Tenths of a diamond on the start, when; gained of a hundred balls that it is for, and of all balls:\n";
        for row in &found.found.rows {
            text += &row_words(row);
        }
    }
    if tables.len() > 1 {
        text += "\nBalls of a hundred, how many more than without a table, the table:\n";
        for (at, it) in tables.iter().enumerate() {
            let mark = if at == found.found.named { '>' } else { ' ' };
            let (chance, gain) = (chance_words(it.chance), behind_words(it.gain));
            let _ =
                writeln!(text, "{mark} {chance:>10}  {gain:>10}  {}", table_words(it.corrections));
        }
    }
    if found.found.named + 1 < tables.len() {
        text += "Larger tables make about as many and are more to remember.\n";
    }
    let ground = searched_words(
        &found.asked,
        &format!(
            "Tables of up to {}",
            count(found.found.asked as u64, "correction", "corrections")
        ),
        found.searched,
        found.told,
        "",
    );
    let _ = writeln!(text, "\n{ground}");
    text
}

fn row_words(row: &CorrectionRow) -> String {
    let (there, all) = (behind_words(row.gain_there), behind_words(row.gain));
    let more = if row.at_most { " (the most that was tried)" } else { "" };
    format!("  {:+3}  {:<27}  {there:>10}  {all:>10}{more}\n", row.tenths, row.what.words())
}

/// A table in a line, such as `add a tenth of a diamond if soft; …`.
pub fn table_words(corrections: Corrections) -> String {
    match corrections.words().as_slice() {
        [] => "none".to_owned(),
        words => words.join("; "),
    }
}

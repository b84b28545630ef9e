//! The words around a table of start numbers.

use super::bank::bank_units;
use super::readings::PAST_END_NOTE;
use crate::playing::{BankQuestion, StartTable};
use railproof_engine::rail::Reading;
use railproof_engine::units::{INCH_M, short_number};

/// On a page that is printed.
pub const NOT_TO_SCALE: &str = "The drawing is not to scale, and printers scale it again: measure on your table, not \
    on the paper.";

/// What the two readings on a page are.
pub const BOTH_READINGS: &str = "Across the grooves: counted where the ball's centre is when it touches a cushion, as \
    rules count. Through the diamonds: the same line, where it passes over the diamonds of both rails.";

/// `Where to start for contact 2`.
pub fn starts_title(question: &BankQuestion) -> String {
    let contact = short_number(question.line.contact, 3);
    let often =
        if StartTable::player(question).is_some() { ", and how often it is made" } else { "" };
    let [large, small] = match question.reading {
        Reading::Groove => ["across the grooves", "through the diamonds"],
        Reading::Sight => ["through the diamonds", "across the grooves"],
    };
    format!("Where to start for contact {contact}, {large}; in small print, {small}{often}")
}

/// The speeds above the columns, and the distances before the rows.
pub fn starts_labels(question: &BankQuestion, table: &StartTable) -> (Vec<String>, Vec<String>) {
    let units = bank_units(question);
    let asked = question.speed_text.trim();
    let speeds = table.speeds.iter().map(|(m_s, word)| {
        let shown = units.speed_to(*m_s, 2, f64::round);
        match word {
            Some(word) => format!("{} ({shown})", word.name()),
            None if asked.ends_with("lengths") => format!("{asked} ({shown})"),
            None => shown,
        }
    });
    let in_inches = units.in_inches();
    let off_rails = table.off_rails_m.iter().map(|off_rail_m| match *off_rail_m {
        0.0 => "frozen".to_owned(),
        metres if in_inches => {
            format!("{} in off", short_number(metres / INCH_M, 2))
        }
        metres => format!("{} cm off", short_number(100.0 * metres, 1)),
    });
    (speeds.collect(), off_rails.collect())
}

/// What the signs in the cells mean.
pub fn starts_note(question: &BankQuestion, table: &StartTable) -> String {
    let cells = || table.starts.iter().flatten();
    let mut parts = vec![match StartTable::player(question) {
        Some(player) => {
            format!("Each start is the one from which {} who is told it makes most", player.name)
        }
        None => "Each start goes through the middle of the mouth".to_owned(),
    }];
    // The one that was asked for is left as it is where it serves.
    if cells().flatten().any(|start| start.asked && start.line.start == question.line.start) {
        parts.push("the framed one is yours, and serves".to_owned());
    }
    if cells().any(|cell| cell.is_some_and(|start| start.flagged)) {
        parts.push(
            "*: less sure, it meets the rail harder than was checked, or would hop".to_owned(),
        );
    }
    if cells().any(Option::is_none) {
        parts.push("–: no start was found".to_owned());
    }
    format!("{}. {PAST_END_NOTE}", parts.join("; "))
}

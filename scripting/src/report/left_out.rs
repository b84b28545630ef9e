//! The parts of a run that are missing, in a line each.

use super::page::Page;
use crate::fault::{Fault, tame};
use crate::record::{LeftOut, Record};
use std::collections::BTreeSet;

/// Everything that the scenario asks for and does not get, with why.
pub(super) fn show(page: &mut Page, record: &Record) {
    for one in &record.left_out {
        let text = format!("{}: {}", page.look.marked("left out", "1;33"), sentence(record, one));
        page.line(0, &text);
    }
    if let Some(fault) = &record.stopped {
        let word = page.look.marked("stopped", "1;31");
        page.line(0, &format!("{word}: {}; nothing after it was played", at_line(record, fault)));
    }
}

/// Why, with its line, and the other lines that say nothing then.
fn sentence(record: &Record, one: &LeftOut) -> String {
    let mut words = at_line(record, &one.fault);
    if let Some(hint) = &one.fault.hint {
        words = format!("{words} ({})", tame(hint));
    }
    let silent: BTreeSet<usize> =
        one.silent.iter().copied().filter(|line| Some(*line) != one.line()).collect();
    let lines: Vec<String> = silent.iter().map(usize::to_string).collect();
    match lines.as_slice() {
        [] => words,
        [only] => format!("{words}, so line {only} says nothing"),
        [others @ .., last] => {
            format!("{words}, so lines {} and {last} say nothing", others.join(", "))
        }
    }
}

/// The message after its line, and after its file where that is not the scenario itself.
fn at_line(record: &Record, fault: &Fault) -> String {
    let Some(place) = &fault.place else { return tame(&fault.message) };
    let own = record.file.display().to_string() == place.label();
    let file = if own { String::new() } else { format!("{}, ", tame(place.label())) };
    format!("{file}line {}: {}", place.line_column().0, tame(&fault.message))
}

//! The parts of a run that are missing, in a line each.

use super::page::Page;
use crate::fault::{Fault, tame};
use crate::record::{LeftOut, Record};
use std::collections::BTreeSet;

/// Everything that the scenario asks for and does not get, with why.
pub(super) fn show(page: &mut Page, record: &Record) {
    for one in &record.left_out {
        let text = format!("{}: {}", page.look.marked("left out", "1;33"), sentence(one));
        page.line(0, &text);
    }
    if let Some(fault) = &record.stopped {
        let word = page.look.marked("stopped", "1;31");
        page.line(0, &format!("{word}: {}; nothing after it was played", at_line(fault)));
    }
}

/// Why, with its line, and the other lines that say nothing then.
fn sentence(one: &LeftOut) -> String {
    let mut words = at_line(&one.fault);
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

fn at_line(fault: &Fault) -> String {
    match &fault.place {
        Some(place) => format!("line {}: {}", place.line_column().0, tame(&fault.message)),
        None => tame(&fault.message),
    }
}

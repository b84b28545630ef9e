//! The numbers of a table before and after the banks.

use super::page::{NO_BANK, drawn, picture};
use crate::fitting::{FitFindings, NumberFindings};
use crate::picture::{FitBody, FitPicture, NumberStrip};
use crate::telling::span;

/// The picture of the numbers.
pub fn numbers_picture(found: &FitFindings) -> FitPicture {
    let strips = found.told.numbers.iter().map(strip).collect();
    let asked = "Which of a table's numbers do the banks pin down?";
    picture(found, &title(found), asked, FitBody::Numbers(strips), Vec::new())
}

fn title(found: &FitFindings) -> String {
    let told = found.told.numbers.iter().filter(|number| number.is_determined()).count();
    let told = if told == 0 { "none".to_owned() } else { told.to_string() };
    let of = found.told.numbers.len();
    match found.predicted.len() {
        0 => NO_BANK.to_owned(),
        1 => format!("This bank pins down {told} of {of} numbers"),
        banks => format!("These {banks} banks pin down {told} of {of} numbers"),
    }
}

fn strip(number: &NumberFindings) -> NumberStrip {
    let unit = number.unit;
    let ends = number.before.ninety;
    let is_told = number.is_determined();
    let words = if is_told {
        format!("{}, from {}", unit.told(number.after.middle), span(&number.after, unit))
    } else {
        "not determined".to_owned()
    };
    NumberStrip {
        label: unit.titled(&number.title),
        before: drawn(&number.before, unit.si),
        before_ends: (unit.told(ends.0), unit.told(ends.1)),
        after: drawn(&number.after, unit.si),
        words,
        is_told,
    }
}

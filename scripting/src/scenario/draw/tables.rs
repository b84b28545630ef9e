//! The tables behind a picture of many, in a sentence.

use crate::fitting::{MeasuredTable, TableOrigin};
use crate::telling::count;

/// Whose tables they are, how many, and how they were come by.
pub fn tables(known: &MeasuredTable) -> String {
    let tables = known.ensemble.len();
    let how = match known.origin {
        TableOrigin::Banks(banks) => {
            format!("that {}", count(banks as u64, "measured bank allows", "measured banks allow"))
        }
        TableOrigin::Wide => "of published ranges, none of them measured".to_owned(),
        TableOrigin::Practice { .. } => "on which common practice comes true".to_owned(),
    };
    format!("{}: {tables} tables {how}.", known.name())
}

//! The values of inputs and measures, as files write them.

use railproof_engine::results::{Measure, MeasureReading, ResultKind};
use railproof_engine::sweep::Plan;

/// The value of one axis, numbers exactly as they are (shortest text that reads back the same).
pub(super) fn value(plan: &Plan, axis: usize, digit: usize) -> String {
    let values = &plan.axes()[axis].values;
    match values.number(digit) {
        Some(number) => number.to_string(),
        None => values.word(digit).unwrap_or_default().to_owned(),
    }
}

/// A measure of a result. Nothing is an empty field; so is an infinite number (a ball that never rolls).
pub(super) fn text<K: ResultKind>(measure: &Measure<K>, result: &K::Result<'_>) -> String {
    match measure.reading {
        MeasureReading::Word(of) => of(result).unwrap_or_default().to_owned(),
        MeasureReading::Flag(of) => of(result).map_or_else(String::new, |flag| flag.to_string()),
        MeasureReading::Number(..) | MeasureReading::Diamonds(_) | MeasureReading::Count(_) => {
            let number = measure.number(result).filter(|number| number.is_finite());
            number.map_or_else(String::new, |number| number.to_string())
        }
    }
}

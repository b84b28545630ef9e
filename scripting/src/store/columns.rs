//! The values of inputs, as files write them.

use railproof_engine::sweep::Plan;

/// The value of one axis, numbers exactly as they are (shortest text that reads back the same).
pub(super) fn value(plan: &Plan, axis: usize, digit: usize) -> String {
    let values = &plan.axes()[axis].values;
    match values.number(digit) {
        Some(number) => number.to_string(),
        None => values.word(digit).unwrap_or_default().to_owned(),
    }
}

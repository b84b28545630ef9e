//! No axis of a plan has a value twice: its rows could not be told apart.

use railproof_engine::sweep::{Axis, Values};
use railproof_engine::units::plain;

/// Whether two SI values are the same to a person: 12 inches and a foot are.
pub fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

/// Refuses an axis that has a value twice; of equipment, a name.
///
/// # Errors
/// The value, in words.
pub fn check_distinct(axis: &Axis) -> Result<(), String> {
    let twin = match &axis.values {
        Values::Range(_) => None,
        Values::Numbers(numbers) => {
            let mut sorted = numbers.clone();
            sorted.sort_by(f64::total_cmp);
            let twins = sorted.windows(2).find(|pair| same(pair[0], pair[1]));
            twins.map(|pair| plain(pair[0]))
        }
        values => {
            let mut words: Vec<&str> = (0..values.len()).filter_map(|at| values.word(at)).collect();
            words.sort_unstable();
            words.windows(2).find(|pair| pair[0] == pair[1]).map(|pair| pair[0].to_owned())
        }
    };
    twin.map_or(Ok(()), |value| Err(format!("`{}` has {value} twice", axis.input.name())))
}

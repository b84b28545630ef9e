//! The banks that are measured, and how they are written down.

use railproof_engine::column::SetUp;
use railproof_engine::evidence::Watching;
use railproof_engine::planning::protocol;

/// A twentieth of a diamond of the end rail.
const READ_TO_M: f64 = 0.05 * 0.3175;

/// So many banks, every third one told in a word: the protocol's six, again and again, each round a quarter of a
/// diamond from the one before.
pub fn banks(count: usize) -> Vec<(SetUp, Watching)> {
    let six: Vec<SetUp> = protocol().collect();
    (0..count)
        .map(|at| {
            let mut set_up = six[at % six.len()];
            let round = (at / six.len()) as f64;
            set_up.line.contact -= 0.25 * round * if at % 2 == 0 { 1.0 } else { -1.0 };
            set_up.line.start = 2.0 * set_up.line.contact;
            let watching = if at % 3 == 2 {
                Watching::Words
            } else {
                Watching::Numbers { read_to_m: READ_TO_M }
            };
            (set_up, watching)
        })
        .collect()
}

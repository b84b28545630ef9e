//! The banks that are measured, and how they are written down.

use railproof_engine::column::SetUp;
use railproof_engine::evidence::Watching;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::units::{INCH_M, Speed, SpeedWord};

/// A twentieth of a diamond of the end rail.
const READ_TO_M: f64 = 0.05 * 0.3175;

/// Contact, inches off the rail, speed. The start is twice the contact, which misses on most tables.
const AT_TWICE: [(f64, f64, SpeedWord); 6] = [
    (2.0, 0.0, SpeedWord::Soft),
    (3.5, 0.0, SpeedWord::Medium),
    (3.0, 0.0, SpeedWord::Firm),
    (3.5, 4.0, SpeedWord::Firm),
    (2.5, 12.0, SpeedWord::Soft),
    (2.5, 12.0, SpeedWord::Medium),
];

/// Six banks that anybody would begin with, into alternate corners.
pub fn six_at_twice_the_contact() -> Vec<SetUp> {
    let banks = AT_TWICE.into_iter().enumerate().map(|(at, (contact, inches, word))| {
        let pocket = if at % 2 == 0 { Pocket::FootRight } else { Pocket::HeadRight };
        let line = Line::new(contact, 2.0 * contact);
        SetUp::stun(Rail::Left, pocket, line, inches * INCH_M, Speed::Word(word))
    });
    banks.collect()
}

/// So many banks, every third one told in a word: six at twice the contact, again and again, each round a quarter of a
/// diamond from the one before.
pub fn banks(count: usize) -> Vec<(SetUp, Watching)> {
    let six = six_at_twice_the_contact();
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

//! Six banks to begin with, when nothing is known of a table.

use crate::column::SetUp;
use crate::rail::{Line, Pocket, Rail};
use crate::units::{INCH_M, Speed, SpeedWord};

/// Contact, inches off the rail, speed; the start is twice the contact, which misses on most tables, so that the
/// place can be read.
const BANKS: [(f64, f64, SpeedWord); 6] = [
    (2.0, 0.0, SpeedWord::Soft),
    (3.5, 0.0, SpeedWord::Medium),
    (3.0, 0.0, SpeedWord::Firm),
    (3.5, 4.0, SpeedWord::Firm),
    (2.5, 12.0, SpeedWord::Soft),
    (2.5, 12.0, SpeedWord::Medium),
];

/// The six banks, into alternate corners.
pub fn protocol() -> impl Iterator<Item = SetUp> + Clone {
    BANKS.into_iter().enumerate().map(|(at, (contact, inches, word))| {
        let pocket = if at % 2 == 0 { Pocket::FootRight } else { Pocket::HeadRight };
        let line = Line::new(contact, 2.0 * contact);
        SetUp::stun(Rail::Left, pocket, line, inches * INCH_M, Speed::Word(word))
    })
}

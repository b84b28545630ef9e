//! Six banks to begin with, when nothing is known of a table.

use crate::column::SetUp;
use crate::rail::{Line, Pocket, Rail};
use crate::units::{INCH_M, Speed, SpeedWord};

/// Contact, start, inches off the rail, speed: what [`super::PlayedCandidates::next`] plans for the usual purpose on a
/// nine-foot table of which published ranges alone are known, under `nose-and-cloth`, put into an order in which the
/// corners alternate.
///
/// Six at twice the contact were shipped before. Over 24 made-up tables these leave 0.96 ± 0.03 of the width of the slope
/// that those leave, 0.86 ± 0.04 of that of the place from 4 inches off and 0.92 ± 0.02 of that from 12.
const BANKS: [(f64, f64, f64, SpeedWord); 6] = [
    (3.0, 5.5, 4.0, SpeedWord::Medium),
    (3.25, 6.0, 8.0, SpeedWord::Firm),
    (3.5, 7.0, 0.0, SpeedWord::Firm),
    (3.0, 5.5, 0.0, SpeedWord::Soft),
    (3.0, 5.5, 0.0, SpeedWord::Medium),
    (3.0, 6.75, 4.0, SpeedWord::Firm),
];

/// The six banks, into alternate corners.
pub fn protocol() -> impl Iterator<Item = SetUp> + Clone {
    BANKS.into_iter().enumerate().map(|(at, (contact, start, inches, word))| {
        let pocket = if at % 2 == 0 { Pocket::FootRight } else { Pocket::HeadRight };
        let line = Line::new(contact, start);
        SetUp::stun(Rail::Left, pocket, line, inches * INCH_M, Speed::Word(word))
    })
}

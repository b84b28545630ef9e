//! `frontier { … }`: what it answers, expects and writes.

mod answers;
mod expectations;
mod files;

/// Banks off one rail at some contacts and distances, by speed; impulses at the nose alone, so that
/// a bank costs little.
const BANKS: &str = "local banks = grid { equipment = hall, rail_model = 'nose-only', contact = { 2, 2.5 }, \
                     off_rail = span(inches(0), inches(16), inches(4)), \
                     speed = span(mps(1), mps(8), mps(0.5)), spin = 'stun' }\n";
/// The edges along speed, and traced over the distance.
const FRONT: &str = "local front = frontier { banks = banks, rule = ratio, along = 'speed', tolerance = mps(0.01) }\n";
const TRACED: &str = "local front = frontier { banks = banks, rule = ratio, along = 'speed', \
                      tolerance = mps(0.02), over = 'off_rail', over_tolerance = inches(0.1) }\n";

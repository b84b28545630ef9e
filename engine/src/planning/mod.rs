//! The next banks worth measuring.
//!
//! Members make a joint guess of a bank's place and of the numbers that are wanted. What a reading of that place
//! would leave of the guess's variance is told in closed form by Bayes-linear updating (M. Goldstein and
//! D. Wooff 2007, *Bayes Linear Statistics*): var − cov²/(var of the place + var of its scatter and reading).
//! Banks are chosen one after another, each for what the ones before it leave. The numbers that are wanted are the
//! rule's slope and places off the rail, or where one bank comes to, or which of two cushions the table has.

mod candidate;
mod greedy;
mod protocol;
mod purpose;

pub use candidate::{PlayedCandidates, candidates};
pub use greedy::{MOST_REPEATS, PlannedBank, WantedNumber, plan_next, plan_with_repeats};
pub use protocol::protocol;
pub use purpose::{chance_of_the_right_one, either_cushion, places, usual_banks, usual_numbers};

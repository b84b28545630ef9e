//! The next banks worth measuring.
//!
//! Members make a joint guess of a bank's place and of the numbers that are wanted. What a reading of that place
//! would leave of the guess's variance is told in closed form by Bayes-linear updating (M. Goldstein and
//! D. Wooff 2007, *Bayes Linear Statistics*): var − cov²/(var of the place + var of its scatter and reading).
//! Banks are chosen one after another, each for what the ones before it leave.

mod candidate;
mod greedy;
mod protocol;

pub use candidate::candidates;
pub use greedy::{PlannedBank, WantedNumber, plan_next};
pub use protocol::protocol;

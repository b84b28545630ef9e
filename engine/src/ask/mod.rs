//! Questions asked of an ensemble: shares of its members, and intervals of their numbers.

mod bank;
mod interval;
mod share;
mod slope;

pub use bank::{KnownBank, holding_shares};
pub use interval::CredibleInterval;
pub use share::{Agreement, MemberShare};
pub use slope::{SlopeAnswer, best_slopes};

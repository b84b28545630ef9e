//! The numbers kept about a block of banks.

use super::lane::{BLOCK, Column, Mask};
use crate::bank::BankVerdict;

/// The numbers of a block that every caller wants.
pub(super) struct BasicOutcomes {
    pub(super) verdict: [BankVerdict; BLOCK],
    pub(super) flagged: Mask,
    /// Miss, clearance to the long and to the short point.
    pub(super) numbers: [Column; 3],
}

/// The rest.
pub(super) struct FurtherOutcomes {
    pub(super) hop: Mask,
    pub(super) outside_checked_speed: Mask,
    /// Contact, time, speed, roll and incidence at the rail; departure, speed, angle and
    /// restitution off it; time and speed at the mouth line.
    pub(super) numbers: [Column; 11],
}

//! Placeholder until the integrated impact lands.

use super::{Bounce, CushionContact, Rebound};

/// How an integrated impact went.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ImpactTrace {
    /// Steps taken.
    pub steps: u32,
}

/// To come.
pub fn nose_and_cloth(contact: &CushionContact, before: Bounce) -> Rebound {
    super::nose_only(contact, before)
}

/// To come.
pub fn nose_and_cloth_traced(contact: &CushionContact, before: Bounce) -> (Rebound, ImpactTrace) {
    (super::nose_only(contact, before), ImpactTrace::default())
}

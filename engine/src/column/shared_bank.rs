//! Things that share a rail and a pocket, and so a bank of the engine.

use crate::rail::{Pocket, Rail};

/// A rail and a pocket, and the places of those that have them.
pub(crate) type SharedBank = ((Rail, Pocket), Vec<usize>);

/// The places of all, in their order, by the rail and the pocket of each.
pub(crate) fn by_bank(banks: impl Iterator<Item = (Rail, Pocket)>) -> Vec<SharedBank> {
    let mut groups: Vec<SharedBank> = Vec::new();
    for (at, bank) in banks.enumerate() {
        match groups.iter_mut().find(|(other, _)| *other == bank) {
            Some((_, places)) => places.push(at),
            None => groups.push((bank, vec![at])),
        }
    }
    groups
}

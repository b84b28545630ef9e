//! The members that are asked where asking all would take long.

use super::{MeasuredTable, TableOrigin};
use railproof_engine::ensemble::Ensemble;

/// Members for the choice of the next banks and for slopes.
pub(super) const ASKED: usize = 512;

/// Some members of a table.
pub(super) fn asked(known: &MeasuredTable) -> Ensemble {
    match known.origin {
        TableOrigin::Banks(_) => evenly(&known.ensemble, ASKED),
        TableOrigin::Wide | TableOrigin::Practice { .. } => first(&known.ensemble, ASKED),
    }
}

/// The first members: of Sobol's points every second one has only half of some coordinates, the first ones have
/// all.
pub(super) fn first(ensemble: &Ensemble, count: usize) -> Ensemble {
    let members = ensemble.members();
    Ensemble::even(members[..count.min(members.len())].to_vec())
}

/// So many members, evenly taken.
pub(super) fn evenly(ensemble: &Ensemble, count: usize) -> Ensemble {
    let members = ensemble.members();
    let step = (members.len() / count).max(1);
    Ensemble::even(members.iter().step_by(step).copied().collect())
}

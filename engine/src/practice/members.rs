//! The members of the wide ensemble of which the choosing facts are true.

use super::FACTS;
use crate::bank::BankError;
use crate::column::{Hand, Landing, SetUp, columns};
use crate::ensemble::{Ensemble, Member};
use crate::equipment::{Equipment, RailModel};

/// Members chosen by the facts of practice.
#[derive(Debug, Clone, PartialEq)]
pub struct PracticeMembers {
    /// The members, of equal weight.
    pub ensemble: Ensemble,
    /// The number of wide members that were tried for them.
    pub tried: usize,
}

/// Members are tried so many at a time.
const BLOCK: usize = 1024;

/// The first members of the wide ensemble of which every choosing fact is true: as many as asked for, or as
/// many as [`Ensemble::MOST`] tries give.
///
/// `nine_foot` is the table of which the facts are said.
///
/// # Errors
/// As [`columns`].
pub fn practice_members(
    nine_foot: &Equipment,
    model: RailModel,
    count: usize,
    seed: u64,
) -> Result<PracticeMembers, BankError> {
    let choosing: Vec<_> = FACTS.iter().filter(|fact| fact.chooses).collect();
    let mut chosen: Vec<Member> = Vec::with_capacity(count);
    let mut tried = 0;
    while chosen.len() < count && tried < Ensemble::MOST {
        let mut block = Ensemble::wide_members(tried..tried + BLOCK, seed);
        for fact in &choosing {
            let set_ups: Vec<SetUp> = fact.set_ups().collect();
            let seen = columns(nine_foot, model, &block, &set_ups, Hand::Exact)?;
            let mut at = 0;
            block.retain(|_| {
                let landings: Vec<Landing> = seen.iter().map(|column| column[at]).collect();
                at += 1;
                fact.is_true_of(&landings)
            });
        }
        chosen.extend(block);
        tried += BLOCK;
    }
    chosen.truncate(count);
    Ok(PracticeMembers { ensemble: Ensemble::even(chosen), tried })
}

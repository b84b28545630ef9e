//! On how many tables of an ensemble the facts come true.

use super::{FACTS, Fact};
use crate::ask::MemberShare;
use crate::bank::BankError;
use crate::column::{Hand, SetUp, over_members};
use crate::ensemble::Ensemble;
use crate::equipment::{Equipment, RailModel};

/// The share of tables on which each fact comes true.
#[derive(Debug, Clone)]
pub struct FactShares {
    /// In the order of [`FACTS`].
    pub facts: Vec<(&'static Fact, MemberShare)>,
    /// The share on which all choosing facts come true together.
    pub all_choosing: MemberShare,
}

impl FactShares {
    /// Plays every fact's banks on every member's table; `nine_foot` is the table of which they are said.
    ///
    /// # Errors
    /// As [`over_members`].
    pub fn of(
        nine_foot: &Equipment,
        model: RailModel,
        ensemble: &Ensemble,
    ) -> Result<Self, BankError> {
        let set_ups: Vec<SetUp> = FACTS.iter().flat_map(Fact::set_ups).collect();
        let truths =
            over_members(nine_foot, model, ensemble.members(), &set_ups, Hand::Exact, |_, row| {
                let mut rest = row;
                FACTS
                    .iter()
                    .map(|fact| {
                        let (own, others) = rest.split_at(fact.set_ups().count());
                        rest = others;
                        fact.is_true_of(own)
                    })
                    .collect::<Vec<bool>>()
            })?;
        let share = |fact: usize| {
            MemberShare::of(truths.iter().map(move |truth| truth[fact]), ensemble.weights())
        };
        let chosen = truths
            .iter()
            .map(|truth| FACTS.iter().zip(truth).all(|(fact, truth)| *truth || !fact.chooses));
        Ok(Self {
            facts: FACTS.iter().enumerate().map(|(at, fact)| (fact, share(at))).collect(),
            all_choosing: MemberShare::of(chosen, ensemble.weights()),
        })
    }
}

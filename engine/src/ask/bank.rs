//! Banks asked of an ensemble.

use super::{CredibleInterval, MemberShare};
use crate::bank::{Bank, BankError, BankVerdict, exact_start};
use crate::column::{Hand, SetUp, columns};
use crate::ensemble::Ensemble;
use crate::equipment::{Equipment, RailModel};
use rayon::prelude::*;

/// What becomes of a bank on the tables of an ensemble.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownBank {
    /// The share of every verdict that comes up, in the order of [`BankVerdict::ALL`].
    pub verdicts: Vec<(BankVerdict, MemberShare)>,
    /// The start number through the middle of the mouth; `None` where no table has one.
    pub start: Option<CredibleInterval>,
    /// The share of tables that have such a start.
    pub has_start: MemberShare,
}

impl KnownBank {
    /// Plays a bank as it is meant on every member's table, and looks for every one's exact start.
    ///
    /// # Errors
    /// [`BankError`] for a rail and a pocket that make no bank.
    pub fn of(
        table: &Equipment,
        model: RailModel,
        ensemble: &Ensemble,
        set_up: &SetUp,
    ) -> Result<Self, BankError> {
        let members = ensemble.members();
        let column = columns(table, model, members, &[*set_up], Hand::Exact)?.remove(0);
        let share_of = |verdict: BankVerdict| {
            MemberShare::of(
                column.iter().map(|landing| landing.verdict == verdict),
                ensemble.weights(),
            )
        };
        let starts = members
            .par_iter()
            .map(|member| {
                let equipment = member.equipment(table);
                let bank = Bank::new(&equipment, set_up.rail, set_up.pocket, model)?;
                let launch = set_up.launch(&equipment);
                Ok(exact_start(&bank, set_up.line.contact, launch).unwrap_or(f64::NAN))
            })
            .collect::<Result<Vec<f64>, BankError>>()?;
        let is_start = starts.iter().map(|start| start.is_finite());
        Ok(Self {
            verdicts: BankVerdict::ALL
                .into_iter()
                .map(|verdict| (verdict, share_of(verdict)))
                .filter(|(_, share)| share.share > 0.0)
                .collect(),
            start: CredibleInterval::of(&starts, ensemble.weights()),
            has_start: MemberShare::of(is_start, ensemble.weights()),
        })
    }

    /// The share of tables on which it holds.
    pub fn holds(&self) -> MemberShare {
        let found = self.verdicts.iter().find(|(verdict, _)| *verdict == BankVerdict::Holds);
        found.map_or(MemberShare { share: 0.0, error: 0.0 }, |(_, share)| *share)
    }
}

/// The share of an ensemble's tables on which each bank holds.
///
/// # Errors
/// As [`columns`].
pub fn holding_shares(
    table: &Equipment,
    model: RailModel,
    ensemble: &Ensemble,
    set_ups: &[SetUp],
) -> Result<Vec<MemberShare>, BankError> {
    let seen = columns(table, model, ensemble.members(), set_ups, Hand::Exact)?;
    Ok(seen
        .iter()
        .map(|column| {
            let holds = column.iter().map(|landing| landing.verdict == BankVerdict::Holds);
            MemberShare::of(holds, ensemble.weights())
        })
        .collect())
}

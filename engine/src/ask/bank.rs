//! Banks asked of an ensemble.

use super::{CredibleInterval, EnsembleStarts, MemberShare};
use crate::bank::{BankError, BankVerdict};
use crate::column::{Hand, SetUp, columns, over_members};
use crate::ensemble::{Ensemble, Member};
use crate::equipment::{Equipment, RailModel};

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
        let start = EnsembleStarts::of(table, model, ensemble, &[*set_up], &|| ())?.start(0);
        Ok(Self {
            verdicts: BankVerdict::ALL
                .into_iter()
                .map(|verdict| (verdict, share_of(verdict)))
                .filter(|(_, share)| share.share > 0.0)
                .collect(),
            start: start.start,
            has_start: start.has_start,
        })
    }

    /// The share of tables on which it holds.
    pub fn holds(&self) -> MemberShare {
        let found = self.verdicts.iter().find(|(verdict, _)| *verdict == BankVerdict::Holds);
        found.map_or(MemberShare { share: 0.0, error: 0.0 }, |(_, share)| *share)
    }
}

/// The share of an ensemble's tables on which each bank holds. `tick` is called once a member, from any thread.
///
/// # Errors
/// As [`over_members`].
pub fn holding_shares(
    table: &Equipment,
    model: RailModel,
    ensemble: &Ensemble,
    set_ups: &[SetUp],
    tick: &(impl Fn() + Sync + ?Sized),
) -> Result<Vec<MemberShare>, BankError> {
    let tables = holding_tables(table, model, ensemble.members(), set_ups, tick)?;
    Ok((0..set_ups.len())
        .map(|bank| MemberShare::of(tables.iter().map(|holds| holds[bank]), ensemble.weights()))
        .collect())
}

/// Whether each bank holds on each member's table: a row for each member. `tick` is called once a member, from any thread.
///
/// # Errors
/// As [`over_members`].
pub fn holding_tables(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    set_ups: &[SetUp],
    tick: &(impl Fn() + Sync + ?Sized),
) -> Result<Vec<Vec<bool>>, BankError> {
    over_members(table, model, members, set_ups, Hand::Exact, |_, row| {
        tick();
        row.iter().map(|landing| landing.verdict == BankVerdict::Holds).collect()
    })
}

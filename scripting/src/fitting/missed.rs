//! Why a bank missed on a table as it is known.

use super::MeasuredTable;
use railproof_engine::bank::BankError;
use railproof_engine::evidence::MeasuredBank;
use railproof_engine::missed::{MissOdds, NoOdds};

/// Why a bank missed.
#[derive(Debug, Clone)]
pub struct MissFindings {
    /// The bank.
    pub bank: MeasuredBank,
    /// The odds of its causes, or why there are none.
    pub odds: Result<MissOdds, NoOdds>,
}

impl MissFindings {
    /// Of a bank that was seen and is not among those behind the table.
    ///
    /// # Errors
    /// [`BankError`] for a table without the bank.
    pub fn of(known: &MeasuredTable, bank: MeasuredBank) -> Result<Self, BankError> {
        let MeasuredTable { table, model, ensemble, seed, .. } = known;
        let odds = MissOdds::of(table, *model, ensemble, &bank, *seed)?;
        Ok(Self { bank, odds })
    }
}

//! The tables that rows were played on, made once for a run of rows that share one.

use super::BankResult;
use crate::bank::Bank;
use crate::sweep::{Plan, PlanError, Row};

/// The last table of a plan that was asked for.
#[derive(Debug, Default)]
pub struct Tables(Option<(usize, Bank)>);

impl Tables {
    /// A row of the plan with the table that it was played on; `digits` are those of its point.
    ///
    /// # Errors
    /// Only for a row of another plan: a table that is refused is not played on.
    pub fn result<'a>(
        &'a mut self,
        plan: &Plan,
        digits: &[usize],
        row: &'a Row,
    ) -> Result<BankResult<'a>, PlanError> {
        let key = plan.table_key(digits);
        let bank = match self.0.take() {
            Some((known, bank)) if known == key => bank,
            _ => plan.bank(digits)?,
        };
        let (_, bank) = self.0.insert((key, bank));
        Ok(BankResult { bank, line: row.line, outcome: &row.outcome })
    }
}

//! The tables that rows were played on, made once for a run of rows that share one.

use super::{Plan, PlanError};
use crate::bank::Bank;

/// The last table of a plan that was asked for.
#[derive(Debug, Default)]
pub struct Tables(Option<(usize, Bank)>);

impl Tables {
    /// The table of a point, by its digits.
    ///
    /// # Errors
    /// As [`Plan::bank`].
    pub fn of_point(&mut self, plan: &Plan, digits: &[usize]) -> Result<&Bank, PlanError> {
        let key = plan.table_key(digits);
        let bank = match self.0.take() {
            Some((known, bank)) if known == key => bank,
            _ => plan.bank(digits)?,
        };
        Ok(&self.0.insert((key, bank)).1)
    }
}

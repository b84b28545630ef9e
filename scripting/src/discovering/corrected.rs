//! The corrections of one rule that a search has found.

use super::AskedBalls;
use super::findings::half_size;
use crate::fault::Fault;
use railproof_engine::discover::CorrectionTables;
use railproof_engine::rule::NamedRule;
use railproof_engine::rule::RuleError;

/// What was found.
#[derive(Debug, Clone)]
pub struct CorrectedFindings {
    /// The balls, the table and the player.
    pub asked: AskedBalls,
    /// The rule that is corrected.
    pub rule: NamedRule,
    /// Its tables of corrections.
    pub found: CorrectionTables,
    /// The balls and tables on which they were searched, and of which their chances are told.
    pub searched: (usize, usize),
    /// The same of the other half.
    pub told: (usize, usize),
}

impl CorrectedFindings {
    /// Searches.
    ///
    /// # Errors
    /// A [`Fault`] for balls that make no bank, and what `failed` makes of it where the rule's function fails.
    pub fn of(
        asked: AskedBalls,
        rule: NamedRule,
        failed: impl Fn(&RuleError) -> Fault,
    ) -> Result<Self, Fault> {
        let halves = asked.halves()?;
        let found = CorrectionTables::of(&halves, &asked.player.skill, &rule.rule)
            .map_err(|error| failed(&error))?;
        let (searched, told) = (half_size(&halves.searched), half_size(&halves.told));
        Ok(Self { asked, rule, found, searched, told })
    }
}

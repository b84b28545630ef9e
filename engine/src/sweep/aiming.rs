//! The aim of a plan's banks: its own start numbers, or a rule.

use super::{Input, Plan, PlanError};
use crate::bank::Bank;
use crate::rail::Line;
use crate::rule::NamedRule;

/// Refuses a plan that says twice, or not at all, where the ball is aimed.
pub(super) fn check_aim(plan: &Plan, rules: &[NamedRule]) -> Result<(), PlanError> {
    let explicit = plan.axis(Input::Start).is_some();
    if explicit && !rules.is_empty() {
        return Err(PlanError::Contradiction { first: Input::Start.name(), second: "a rule" });
    }
    if !explicit && rules.is_empty() {
        return Err(PlanError::Missing { axis: "a rule, or start" });
    }
    Ok(())
}

/// The line a rule gives for a point's contact number; `label` tells the point.
pub(crate) fn ruled_line(
    named: &NamedRule,
    contact: f64,
    bank: &Bank,
    label: impl Fn() -> String,
) -> Result<Line, PlanError> {
    let rule = || named.name.clone();
    let line = named
        .rule
        .line_for_contact(contact, bank.geometry())
        .map_err(|error| PlanError::Rule { rule: rule(), point: label(), error })?;
    if let Some(range) = Input::Start.parameter() {
        range.check(line.start).map_err(|error| PlanError::FarStart {
            rule: rule(),
            point: label(),
            error: Box::new(error),
        })?;
    }
    Ok(line)
}

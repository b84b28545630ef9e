//! Playing every point by every rule.

use super::{Input, Plan, PlanError, PointValues};
use crate::bank::{Bank, Launch, NoAnswer, Outcome, exact_start};
use crate::rail::Line;
use crate::rule::NamedRule;
use rayon::prelude::*;
use std::sync::atomic::{AtomicUsize, Ordering};

/// One bank of a comparison.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Index of its point in the plan.
    pub point: usize,
    /// Index of its rule; 0 when the plan gives the start numbers itself.
    pub rule: usize,
    /// The line that was played, groove reading.
    pub line: Line,
    /// The outcome.
    pub outcome: Outcome,
}

/// The exact start number at a point.
#[derive(Debug, Clone, PartialEq)]
pub struct StartRow {
    /// Index of the point in the plan.
    pub point: usize,
    /// Its contact number, diamonds.
    pub contact: f64,
    /// The exact start number, or why there is none.
    pub start: Result<f64, NoAnswer>,
}

/// Plays every point by every rule, or along the plan's own start numbers when it has them.
///
/// Rows come in the order of points, and rules within a point, for any number of threads. `tick` is
/// called once a point, from any thread.
///
/// # Errors
/// The first point (in order) that is refused, or at which a rule has no answer; a plan that gives
/// start numbers and rules both, or neither; a plan that is too large.
pub fn compare(
    plan: &Plan,
    rules: &[NamedRule],
    tick: &(impl Fn() + Sync),
) -> Result<Vec<Row>, PlanError> {
    check_aim(plan, rules)?;
    let ways = rules.len().max(1);
    let rows: Vec<Result<Row, PlanError>> = each_point(plan, rules.len(), tick, |point| {
        let Point { digits, bank, launch, index } = point;
        let contact = plan.number(Input::Contact, digits).unwrap_or(0.0);
        (0..ways)
            .map(|rule| {
                let line = match rules.get(rule) {
                    Some(named) => ruled_line(named, contact, bank, || point_label(plan, digits))?,
                    None => Line::new(contact, plan.number(Input::Start, digits).unwrap_or(0.0)),
                };
                let outcome = bank.play_validated(line, launch);
                Ok(Row { point: index, rule, line, outcome })
            })
            .collect()
    })?;
    rows.into_iter().collect()
}

/// The exact start number at every point.
///
/// # Errors
/// As [`compare`], for the plan itself; a point without an exact start is a row that says why.
pub fn exact_starts(plan: &Plan, tick: &(impl Fn() + Sync)) -> Result<Vec<StartRow>, PlanError> {
    if plan.axis(Input::Start).is_some() {
        return Err(PlanError::Contradiction {
            first: Input::Start.name(),
            second: "exact start numbers",
        });
    }
    let rows = each_point(plan, 1, tick, |point| {
        let contact = plan.number(Input::Contact, point.digits).unwrap_or(0.0);
        let start = exact_start(point.bank, contact, point.launch);
        vec![Ok(StartRow { point: point.index, contact, start })]
    })?;
    rows.into_iter().collect()
}

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
pub(super) fn ruled_line(
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

/// A point made ready.
#[derive(Clone, Copy)]
struct Point<'a> {
    index: usize,
    digits: &'a [usize],
    bank: &'a Bank,
    launch: Launch,
}

/// Evaluates every point, in order, on all threads of the pool. Once a point is refused, later ones
/// are left out: the first refusal in order is still found, and what fails slowly fails once a
/// thread instead of once a point.
fn each_point<T: Send>(
    plan: &Plan,
    rules: usize,
    tick: &(impl Fn() + Sync),
    evaluate: impl Fn(Point<'_>) -> Vec<Result<T, PlanError>> + Sync,
) -> Result<Vec<Result<T, PlanError>>, PlanError> {
    let points = plan.checked_len(rules)?;
    let first_refused = AtomicUsize::new(usize::MAX);
    // A table is made once for a run of points that share it.
    let nested: Vec<Vec<Result<T, PlanError>>> = (0..points)
        .into_par_iter()
        .with_min_len(64.min(points / 64 + 1))
        .map_init(
            || None::<(usize, Bank)>,
            |last, index| {
                if index > first_refused.load(Ordering::Relaxed) {
                    return Vec::new();
                }
                let digits = plan.digits(index);
                let key = plan.table_key(&digits);
                if last.as_ref().is_none_or(|(known, _)| *known != key) {
                    match plan.bank(&digits) {
                        Ok(bank) => *last = Some((key, bank)),
                        Err(error) => {
                            first_refused.fetch_min(index, Ordering::Relaxed);
                            return vec![Err(error)];
                        }
                    }
                }
                let Some((_, bank)) = last.as_ref() else { return Vec::new() };
                let launch = plan.launch(&digits, bank);
                let rows = match launch.validated(bank.geometry().span_m) {
                    Ok(launch) => evaluate(Point { index, digits: &digits, bank, launch }),
                    Err(error) => vec![Err(error.into())],
                };
                if rows.iter().any(Result::is_err) {
                    first_refused.fetch_min(index, Ordering::Relaxed);
                }
                tick();
                rows
            },
        )
        .collect();
    Ok(nested.into_iter().flatten().collect())
}

/// A grid's point in words: the inputs that vary, with SI numbers.
pub fn point_label(plan: &Plan, digits: &[usize]) -> String {
    PointValues::of_digits(plan, digits).say(plan)
}

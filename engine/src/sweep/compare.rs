//! Playing every point by every rule.

use super::aiming::check_aim;
use super::{Plan, PlanError, PlayedRows, Player};
use crate::bank::Outcome;
use crate::batch::ColumnChoice;
use crate::rail::Line;
use crate::rule::NamedRule;
use rayon::prelude::*;
use std::ops::Range;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

/// Pieces that a comparison is cut into, as far as it has points: enough for many threads.
const PIECES: u64 = 256;
/// Points in a piece at most, whose banks are in memory twice.
const MOST_IN_PIECE: u64 = 1024;

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
    let points = plan.checked_len(rules.len())? as u64;
    let piece = points.div_ceil(PIECES).clamp(1, MOST_IN_PIECE);
    let first_refused = AtomicU64::new(u64::MAX);
    let pieces: Vec<Result<Vec<Row>, PlanError>> = (0..points.div_ceil(piece))
        .into_par_iter()
        .map(|number| {
            if number > first_refused.load(Ordering::Relaxed) {
                return Ok(Vec::new());
            }
            let from = number * piece;
            let range = from..points.min(from + piece);
            let rows = rows(plan, rules, range.clone());
            if rows.is_err() {
                first_refused.fetch_min(number, Ordering::Relaxed);
            }
            range.for_each(|_| tick());
            rows
        })
        .collect();
    let mut all = Vec::with_capacity(usize::try_from(points).unwrap_or(0) * rules.len().max(1));
    for piece in pieces {
        all.extend(piece?);
    }
    Ok(all)
}

/// The rows of a run of points.
fn rows(plan: &Plan, rules: &[NamedRule], points: Range<u64>) -> Result<Vec<Row>, PlanError> {
    let mut played = PlayedRows::default();
    let mut player = Player::new(plan, rules, ColumnChoice::Whole)?.until_refused();
    player.play(points, &mut played, &AtomicBool::new(false));
    if let Some(failure) = played.failures.into_iter().next() {
        return Err(failure.error);
    }
    let row = |(at, outcome): (usize, &Outcome)| Row {
        point: usize::try_from(played.point[at]).unwrap_or(usize::MAX),
        rule: played.rule[at],
        line: played.inputs.line(at),
        outcome: *outcome,
    };
    Ok(played.outcomes.whole.iter().enumerate().map(row).collect())
}

//! The search over a plan.

use super::answer::{
    Breaking, Certificate, Frontier, FrontierLine, Interval, IntervalEnd, Sheet, Strip,
};
use super::case::Case;
use super::line::{HoldingStretch, Limit};
use super::probe::Probe;
use super::sheet::{Net, SheetLine, sheet};
use super::strips::chains;
use super::{FrontierError, Search, SecondInput};
use crate::attribution::of_difference;
use crate::bank::Outcome;
use crate::rule::NamedRule;
use crate::sweep::{Input, MAX_ROWS, Plan, PlanError, Values};
use rayon::prelude::*;
use std::sync::atomic::{AtomicU64, Ordering};

/// The most probes of a line.
pub(super) const MOST_PROBES: usize = 100_000;
/// The finest tolerance along a line, as a share of its range.
const FINEST_ALONG: f64 = 1e-9;
/// The finest tolerance across lines, as a share of their range: it bounds the number of lines there can
/// be.
const FINEST_ACROSS: f64 = 1e-4;
/// The finest tolerance as a share of the values themselves, below which places can't be told
/// apart.
const FINEST_OF_VALUE: f64 = 1e-13;

/// Finds where each line of a plan holds, by every rule or along the plan's own start numbers.
///
/// The plan's values of the searched inputs are where it looks first; everything else is combined
/// as in a comparison. The answer is the same for any number of threads. `tick` is called once a
/// bank, from any thread.
///
/// # Errors
/// [`FrontierError`] for a search that does not fit the plan, and the first refusal met on the way.
pub fn find_frontier(
    plan: &Plan,
    rules: &[NamedRule],
    search: &Search,
    tick: &(dyn Fn() + Sync),
) -> Result<Frontier, FrontierError> {
    let explicit = plan.axis(Input::Start).is_some();
    if explicit && !rules.is_empty() {
        let (first, second) = (Input::Start.name(), "a rule");
        return Err(PlanError::Contradiction { first, second }.into());
    }
    if !explicit && rules.is_empty() {
        return Err(PlanError::Missing { axis: "a rule, or start" }.into());
    }
    whole_values(plan, search)?;
    let (values, range) = values_of(plan, search.along)?;
    tolerance(search.along, search.tolerance, &values, FINEST_ALONG)?;
    let probes = match search.probes {
        None => values,
        Some(count) if (2..=MOST_PROBES).contains(&count) => even(&values, count),
        Some(probes) => return Err(FrontierError::Probes { probes, most: MOST_PROBES }),
    };
    let across = match search.across {
        Some(across) if across.input == search.along => {
            return Err(FrontierError::Same { input: across.input.name() });
        }
        Some(SecondInput { input, tolerance: given }) => {
            let (values, range) = values_of(plan, input)?;
            tolerance(input, given, &values, FINEST_ACROSS)?;
            Some((input, values, range, given))
        }
        None => None,
    };
    let combined = combinations(plan, search);
    let lines = across.as_ref().map_or(1, |(_, values, ..)| values.len());
    let ways = rules.len().max(1);
    let least = (combined.len() as u128)
        .saturating_mul(ways as u128)
        .saturating_mul(lines as u128)
        .saturating_mul(probes.len() as u128);
    if least > MAX_ROWS as u128 {
        return Err(PlanError::TooLarge { rows: least, limit: MAX_ROWS }.into());
    }
    let net = Net {
        probes: &probes,
        along: search.tolerance,
        across: across.as_ref().map_or(f64::INFINITY, |(.., tolerance)| *tolerance),
    };
    let (searching, explaining) = (AtomicU64::new(0), AtomicU64::new(0));
    let place = |input| plan.axes().iter().position(|axis| axis.input == input).unwrap_or(0);
    let traced = across.as_ref().map(|(input, ..)| *input);
    let places = (place(search.along), traced.map(place));
    let sheets = combined
        .par_iter()
        .flat_map(|digits| (0..ways).into_par_iter().map(move |rule| (digits, rule)))
        .map(|(digits, rule)| {
            let case = Case::new(plan, digits, rules.get(rule), places, tick)?;
            let lines = match &across {
                None => sheet(&[0.0], net, &case)?,
                Some((_, values, ..)) => sheet(values, net, &case)?,
            };
            searching.fetch_add(case.looks(), Ordering::Relaxed);
            told(&case, rule, digits, &lines, traced.is_some(), &explaining)
        })
        .collect::<Vec<Result<Sheet, PlanError>>>()
        .into_iter()
        .collect::<Result<Vec<Sheet>, PlanError>>()?;
    let dense_across =
        across.as_ref().map_or(1, |(_, _, range, given)| dense_steps(*range, *given));
    Ok(Frontier {
        along: search.along,
        across: traced,
        dense_banks: sheets.len() as u128 * dense_across * dense_steps(range, search.tolerance),
        sheets,
        probes,
        banks_searching: searching.into_inner(),
        banks_explaining: explaining.into_inner(),
    })
}

/// Refuses a plan whose points are not lines: a sample, or a range of an input that is not searched.
fn whole_values(plan: &Plan, search: &Search) -> Result<(), FrontierError> {
    let searched = |input: Input| {
        input == search.along || search.across.is_some_and(|across| across.input == input)
    };
    let spread = plan.sample().is_some()
        || plan
            .axes()
            .iter()
            .any(|axis| matches!(axis.values, Values::Range(_)) && !searched(axis.input));
    if spread { Err(FrontierError::Spread) } else { Ok(()) }
}

/// The plan's different values of an input, ascending, and the distance between their ends.
fn values_of(plan: &Plan, input: Input) -> Result<(Vec<f64>, f64), FrontierError> {
    let name = input.name();
    if input.parameter().is_none() {
        return Err(FrontierError::NotNumbers { input: name });
    }
    let mut values = match plan.axis(input).map(|axis| &axis.values) {
        Some(Values::Numbers(values)) => values.clone(),
        Some(Values::Range(span)) => vec![span.low, span.high],
        _ => return Err(FrontierError::NoRange { input: name, values: "no value" }),
    };
    values.sort_by(f64::total_cmp);
    values.dedup();
    match values.as_slice() {
        [first, .., last] => {
            let range = last - first;
            Ok((values, range))
        }
        _ => Err(FrontierError::NoRange { input: name, values: "one value" }),
    }
}

fn tolerance(input: Input, given: f64, values: &[f64], finest: f64) -> Result<(), FrontierError> {
    let (first, last) = (values[0], values[values.len() - 1]);
    let range = last - first;
    let least = (finest * range).max(FINEST_OF_VALUE * first.abs().max(last.abs()));
    let most = 0.5 * range;
    if given >= least && given <= most {
        return Ok(());
    }
    Err(FrontierError::Tolerance { input: input.name(), tolerance: given, least, most })
}

/// Places of a dense grid over a range; a step that divides it but for rounding divides it.
fn dense_steps(range: f64, tolerance: f64) -> u128 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "positive, and at most a billion by the finest tolerance"
    )]
    let steps = (range / tolerance - 1e-6).ceil() as u128;
    steps + 1
}

/// So many values from the first to the last, evenly.
fn even(values: &[f64], count: usize) -> Vec<f64> {
    let (first, last) = (values[0], values[values.len() - 1]);
    let step = (last - first) / (count - 1) as f64;
    (0..count).map(|k| if k + 1 == count { last } else { first + step * k as f64 }).collect()
}

/// Every combination of the inputs that are not searched, in the plan's order.
fn combinations(plan: &Plan, search: &Search) -> Vec<Vec<usize>> {
    let searched = |input: Input| {
        input == search.along || search.across.is_some_and(|across| across.input == input)
    };
    let mut all = vec![Vec::new()];
    for axis in plan.axes() {
        let count = if searched(axis.input) { 1 } else { axis.values.len() };
        if all.len().saturating_mul(count) > MAX_ROWS {
            // Too many anyhow; the caller counts them and refuses.
            break;
        }
        all = all
            .iter()
            .flat_map(|digits: &Vec<usize>| {
                (0..count).map(move |digit| {
                    let mut digits = digits.clone();
                    digits.push(digit);
                    digits
                })
            })
            .collect();
    }
    all
}

/// The sheet as callers see it, with the cause of every break on its searched lines.
fn told(
    case: &Case<'_>,
    rule: usize,
    digits: &[usize],
    lines: &[SheetLine<Outcome>],
    traced: bool,
    explaining: &AtomicU64,
) -> Result<Sheet, PlanError> {
    let strips = if traced { chains(lines) } else { Vec::new() };
    let lines = lines
        .par_iter()
        .map(|line| {
            let across = traced.then_some(line.across);
            let interval = |stretch| interval(case, across, line, stretch, explaining);
            let intervals =
                line.stretches.iter().map(interval).collect::<Result<_, PlanError>>()?;
            let looked = match &line.seen {
                None => Certificate::Followed,
                Some(seen) => Certificate::Searched {
                    banks: seen.looks.len(),
                    widest_gap: seen.widest_gap,
                    unsettled: seen.unsettled,
                },
            };
            Ok(FrontierLine { across, intervals, looked, nearest: nearest(line) })
        })
        .collect::<Vec<Result<FrontierLine, PlanError>>>()
        .into_iter()
        .collect::<Result<_, PlanError>>()?;
    let strip = |chain: super::strips::Chain| Strip {
        part: chain.part,
        first_line: chain.first_line,
        intervals: chain.stretches,
    };
    let strips = strips.into_iter().map(strip).collect();
    Ok(Sheet { digits: digits.to_vec(), rule, lines, strips })
}

fn nearest(line: &SheetLine<Outcome>) -> Option<(f64, Outcome)> {
    if !line.stretches.is_empty() {
        return None;
    }
    let room = |one: &Probe<Outcome>| one.least_room().unwrap_or(f64::NEG_INFINITY);
    let looks = &line.seen.as_ref()?.looks;
    looks
        .iter()
        .reduce(|best, next| if room(next) > room(best) { next } else { best })
        .map(|one| (one.at, one.what))
}

fn interval(
    case: &Case<'_>,
    across: Option<f64>,
    line: &SheetLine<Outcome>,
    stretch: &HoldingStretch<Outcome>,
    explaining: &AtomicU64,
) -> Result<Interval, PlanError> {
    let best = &stretch.best;
    let end = |limit: &Limit<Outcome>| -> Result<IntervalEnd, PlanError> {
        let Limit::Edge { holding, breaking } = limit else {
            return Ok(IntervalEnd { holding: limit.holding().at, breaking: None });
        };
        let mut why = None;
        if line.seen.is_some() {
            let (edge_table, inside_table) =
                (case.table(across, breaking.at)?, case.table(across, best.at)?);
            let found =
                of_difference((&edge_table, &breaking.what), (&inside_table, &best.what)).ok();
            explaining
                .fetch_add(found.as_ref().map_or(0, |(_, played)| *played), Ordering::Relaxed);
            why = found.map(|(why, _)| why);
        }
        let breaking = Breaking { at: breaking.at, outcome: breaking.what, why };
        Ok(IntervalEnd { holding: holding.at, breaking: Some(breaking) })
    };
    let (low, high) = (end(&stretch.low)?, end(&stretch.high)?);
    let ends = [*stretch.low.holding(), *stretch.high.holding()];
    let looks = line.seen.as_ref().map_or(ends.as_slice(), |seen| seen.looks.as_slice());
    let flagged = looks
        .iter()
        .filter(|one| one.at >= low.holding && one.at <= high.holding)
        .filter(|one| one.what.flagged())
        .fold(None, |range: Option<(f64, f64)>, one| {
            Some((range.map_or(one.at, |(from, _)| from), one.at))
        });
    Ok(Interval { low, high, best: (best.at, best.what), flagged })
}

//! The bank that tells a miss's two likeliest causes apart.

use super::kept::Kept;
use super::{CauseOdds, MissCause};
use crate::bank::BankError;
use crate::column::{Landing, Landings, SetUp};
use crate::ensemble::{Ensemble, Member};
use crate::equipment::{Equipment, RailModel};
use crate::narrow::drawn_again;
use crate::planning::{PlayedCandidates, WantedNumber, chance_of_the_right_one, plan_next};

/// The two likeliest causes of a miss, and what tells them apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToldApart {
    /// The likelier one first.
    pub causes: [MissCause; 2],
    /// The bank that tells them apart best; `None` where none does, as for two causes of one shot that is over.
    pub by: Option<TellingBank>,
}

/// A bank that tells two causes apart by the side of a border to which it comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TellingBank {
    /// The bank.
    pub set_up: SetUp,
    /// The chance that it names the right one, as if both were alike likely before.
    pub chance: f64,
    /// The border along the unrolled rails, m: midway between where it comes to by either cause.
    pub border_m: f64,
    /// It comes longer by the first cause than by the second.
    pub first_is_longer: bool,
}

/// A cause with less is not told apart from the likeliest.
const LEAST_ODDS: f64 = 0.05;
/// A bank that names the right cause less often tells too little to be set up.
const LEAST_CHANCE: f64 = 0.6;
/// Members of which it is asked.
const ASKED: usize = 512;
/// The variance of which cause it was, 0 or 1, where both are alike likely.
const OF_TWO: f64 = 0.25;

impl ToldApart {
    /// `None` where one cause alone counts.
    pub(super) fn of(
        table: &Equipment,
        model: RailModel,
        ensemble: &Ensemble,
        kept: &Kept,
        set_up: &SetUp,
    ) -> Result<Option<Self>, BankError> {
        let mut causes: Vec<CauseOdds> = kept.causes();
        causes.sort_by(|a, b| b.odds.total_cmp(&a.odds));
        if causes[1].odds < LEAST_ODDS {
            return Ok(None);
        }
        let causes = [causes[0].cause, causes[1].cause];
        let by = if causes.iter().any(|cause| cause.is_lasting()) {
            telling(table, model, ensemble, kept, set_up, causes)?
        } else {
            None
        };
        Ok(Some(Self { causes, by }))
    }
}

/// Wanted is 1 where the first cause was the main one and 0 where the second was, both alike likely; each member has
/// its own share of both. The miss itself stands among the candidates. One half of the members chooses the bank, the
/// other says how well it tells, so that the best of many does not look better than it is.
fn telling(
    table: &Equipment,
    model: RailModel,
    ensemble: &Ensemble,
    kept: &Kept,
    set_up: &SetUp,
    causes: [MissCause; 2],
) -> Result<Option<TellingBank>, BankError> {
    let [first, second] = causes.map(|cause| kept.shares_of(cause));
    let both: Vec<f64> = first.iter().zip(&second).map(|(first, second)| first + second).collect();
    let drawn = drawn_again(&both, 0.5);
    let some = drawn.iter().step_by((drawn.len() / ASKED).max(1)).filter(|&&at| both[at] > 0.0);
    let (choose, judge): (Vec<usize>, Vec<usize>) = some.partition(|&&at| at % 2 == 0);
    if choose.is_empty() || judge.is_empty() {
        return Ok(None);
    }
    let drawn = [choose.as_slice(), &judge].concat();
    let members: Vec<Member> = drawn.iter().map(|&at| ensemble.members()[at]).collect();
    let is_first: Vec<f64> = drawn.iter().map(|&at| first[at] / both[at]).collect();
    let (of_choice, of_judge) = is_first.split_at(choose.len());
    let played = PlayedCandidates::of(table, model, &members, &[*set_up])?;
    let for_choice: Vec<Landings> =
        played.seen.iter().map(|column| column[..choose.len()].to_vec()).collect();
    let wanted = WantedNumber { values: of_choice.to_vec() };
    let planned = plan_next(&for_choice, &played.noise_m2, &[wanted], 1);
    let Some(plan) = planned.first() else { return Ok(None) };
    let judged = told_places(&played.seen[plan.candidate][choose.len()..], of_judge);
    // What the shot itself added is no member's own, so that part of the doubt stays.
    let shared = covariance(&judged, |it| it.0, |it| it.1);
    let whole = covariance(&judged, |it| it.1, |it| it.1) + played.noise_m2[plan.candidate];
    let told = shared * shared * plan.readable / (whole * OF_TWO);
    let chance = chance_of_the_right_one((1.0 - told).sqrt());
    let every = told_places(&played.seen[plan.candidate], &is_first);
    let (by_first_m, by_second_m) = (mean_m(&every, |it| it.0), mean_m(&every, |it| 1.0 - it.0));
    Ok((chance >= LEAST_CHANCE).then_some(TellingBank {
        set_up: played.set_ups[plan.candidate],
        chance,
        border_m: 0.5 * (by_first_m + by_second_m),
        first_is_longer: by_first_m > by_second_m,
    }))
}

/// How likely it was the first cause, and the place, m: of members whose ball comes to one.
type ToldPlace = (f64, f64);

fn told_places(column: &[Landing], is_first: &[f64]) -> Vec<ToldPlace> {
    let told = column.iter().zip(is_first).filter(|(landing, _)| landing.is_told());
    told.map(|(landing, &is_first)| (is_first, landing.along_m)).collect()
}

fn covariance(
    places: &[ToldPlace],
    one: impl Fn(&ToldPlace) -> f64,
    other: impl Fn(&ToldPlace) -> f64,
) -> f64 {
    let mean =
        |of: &dyn Fn(&ToldPlace) -> f64| places.iter().map(of).sum::<f64>() / places.len() as f64;
    mean(&|it| one(it) * other(it)) - mean(&one) * mean(&other)
}

fn mean_m(places: &[ToldPlace], weight: impl Fn(&ToldPlace) -> f64) -> f64 {
    let weighted = places.iter().map(|it| (weight(it), it.1));
    let (whole, sum) =
        weighted.fold((0.0, 0.0), |(whole, sum), (weight, m)| (whole + weight, sum + weight * m));
    sum / whole
}

//! Where holding turns into breaking, against dense grids of the same banks.

mod against_grids;
mod band;
mod causes;
mod certificate;
mod refusals;
mod same_answers;

use railproof_engine::equipment::RailModel;
use railproof_engine::frontier::{Frontier, Search, SecondInput, find_frontier};
use railproof_engine::rail::Reading;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use railproof_tests::shipped_equipment;

const INCH_M: f64 = 0.0254;

fn numbers(input: Input, values: &[f64]) -> Axis {
    Axis { input, values: Values::Numbers(values.to_vec()) }
}

fn models(models: &[RailModel]) -> Axis {
    Axis { input: Input::RailModel, values: Values::Models(models.to_vec()) }
}

fn hall() -> Axis {
    let equipment = vec![shipped_equipment("harbour-hall")];
    Axis { input: Input::Equipment, values: Values::Equipment(equipment) }
}

fn ratio(slope: f64) -> Vec<NamedRule> {
    vec![Rule::linear(slope, 0.0, Reading::Groove).unwrap().into()]
}

/// So many values from the one to the other.
fn even(from: f64, to: f64, count: usize) -> Vec<f64> {
    (0..count).map(|k| from + (to - from) * k as f64 / (count - 1) as f64).collect()
}

fn along(input: Input, tolerance: f64) -> Search {
    Search { along: input, tolerance, probes: None, across: None }
}

fn over(search: Search, input: Input, tolerance: f64) -> Search {
    Search { across: Some(SecondInput { input, tolerance }), ..search }
}

#[track_caller]
fn found(plan: &Plan, rules: &[NamedRule], search: &Search) -> Frontier {
    find_frontier(plan, rules, search, &|| ()).unwrap()
}

//! The conditions of a sweep in one line.

use super::models::{model_about, models_of};
use super::wording::{capital, count, grouped_count, joined, values};
use crate::lua::quantity::with_unit;
use crate::plan::SweepPlan;
use railproof_engine::equipment::RailModel;
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use railproof_engine::units::Dimension;

/// The banks played, in words: equipment first, then the varying inputs and the fixed ones, then the model.
pub fn sweep_conditions(plan: &Plan) -> String {
    let mut parts: Vec<String> = plan.axes().iter().filter_map(phrase).collect();
    let models: Vec<String> = models_of(plan).into_iter().map(model).collect();
    parts.push(format!("model: {}", models.join(", ")));
    parts.join("; ")
}

/// The place of a sweep's banks: `On Harbour Hall (invented), off the long rail into the corner pocket.`
pub fn sweep_place(plan: &Plan) -> String {
    let of = |input: Input| {
        let axis = plan.axes().iter().find(|axis| axis.input == input)?;
        let words: Vec<&str> =
            (0..axis.values.len()).filter_map(|at| axis.values.word(at)).collect();
        let many = if words.len() > 1 { "s" } else { "" };
        let names = joined(&words.iter().map(|it| (*it).to_owned()).collect::<Vec<_>>());
        match input {
            Input::Equipment if words.len() > 3 => Some(format!("on {} tables", words.len())),
            Input::Equipment => Some(format!("on {names},")),
            Input::Rail => Some(format!("off the {names} rail{many}")),
            _ => Some(format!("into the {names} pocket{many}")),
        }
    };
    let parts = [Input::Equipment, Input::Rail, Input::Pocket].into_iter().filter_map(of);
    capital(&format!("{}.", parts.collect::<Vec<_>>().join(" ")))
}

/// The number of banks or shots that a plan plays: `24 shots`.
pub fn things_played(plan: &SweepPlan) -> String {
    let noun = plan.noun();
    grouped_count(plan.bank_count(), noun.trim_end_matches('s'), noun)
}

/// The compliant model is a second opinion and says so wherever it is named.
fn model(model: RailModel) -> String {
    match model {
        RailModel::Compliant => format!("{} ({})", model.name(), model_about(model)),
        _ => model.name().to_owned(),
    }
}

/// One input in words; `None` for one that is left at nothing, or told elsewhere.
fn phrase(axis: &Axis) -> Option<String> {
    let Values::Numbers(numbers) = &axis.values else { return words(axis) };
    let zero = numbers.as_slice() == [0.0];
    let dimension = axis.input.parameter().map_or(Dimension::Ratio, |found| found.dimension);
    let told = values(numbers, dimension);
    Some(match axis.input {
        Input::AimError | Input::RunningSide if zero => return None,
        Input::Roll if zero => "stun".to_owned(),
        Input::OffRail if zero => "frozen to the rail".to_owned(),
        Input::Contact => format!("contact {told}"),
        Input::Start => format!("start {told}"),
        Input::OffRail => format!("{told} off the rail"),
        Input::Speed => format!("speed {told}"),
        Input::Lag => format!("speed {}", with_unit(&told, "table lengths")),
        Input::Roll => format!("{told} of natural roll"),
        Input::RunningSide => format!("side spin {told} (running is positive)"),
        Input::AimError => format!("aim error {told} (positive towards the pocket's end)"),
        other => format!("{} {told}", other.meaning()),
    })
}

fn words(axis: &Axis) -> Option<String> {
    let words = (0..axis.values.len()).filter_map(|index| axis.values.word(index));
    let names: Vec<String> = words.map(str::to_owned).collect();
    let list = joined(&names);
    match axis.input {
        Input::Equipment if names.len() > 3 => {
            Some(format!("on {}", count(names.len() as u64, "table", "tables")))
        }
        Input::Equipment => Some(format!("on {list}")),
        Input::Rail => Some(format!("{list} rail")),
        Input::Pocket => Some(format!("{list} pocket")),
        _ => None,
    }
}

//! Faults that only show once a sweep's tables are put together, and the option each complaint belongs to.

use super::missing_inputs::line_to_put_back;
use crate::fault::Fault;
use crate::fields::FEWER_LENGTHS;
use crate::lua::options::Options;
use railproof_engine::bank::{BankError, LaunchError};
use railproof_engine::rail::GeometryError;
use railproof_engine::sweep::{Input, Plan, PlanError};

/// Tables that are put together to be checked before a sweep; those beyond are checked as it runs.
const MOST_TABLES: usize = 10_000;

/// Checks that every combination of tables, rails and pockets makes a bank, and that the ball is on
/// the table.
pub fn check_tables(options: &Options, plan: &Plan) -> Result<(), Fault> {
    let table_axes: Vec<usize> =
        (0..plan.axes().len()).filter(|at| !plan.axes()[*at].input.is_launch()).collect();
    let mut digits = vec![0; plan.axes().len()];
    for _ in 0..MOST_TABLES {
        check_table(plan, &digits).map_err(|error| placed_at_key(options, &error))?;
        // The next combination, like an odometer.
        let turned = table_axes.iter().rev().find(|at| {
            digits[**at] += 1;
            let full = digits[**at] == plan.axes()[**at].values.len();
            if full {
                digits[**at] = 0;
            }
            !full
        });
        if turned.is_none() {
            return Ok(());
        }
    }
    Ok(())
}

fn check_table(plan: &Plan, digits: &[usize]) -> Result<(), PlanError> {
    let bank = plan.bank(digits)?;
    let span_m = bank.geometry().span_m;
    let mut digits = digits.to_vec();
    // Where the launch is furthest out, one input at a time: the others are in their ranges.
    for input in [Input::OffRail, Input::Lag] {
        let Some(at) = plan.axes().iter().position(|axis| axis.input == input) else { continue };
        let first = digits[at];
        for extreme in extremes(plan, at) {
            digits[at] = extreme;
            plan.launch(&digits, &bank).validated(span_m)?;
        }
        digits[at] = first;
    }
    Ok(())
}

/// Where an axis has its smallest and its largest number.
fn extremes(plan: &Plan, at: usize) -> Vec<usize> {
    let axis = &plan.axes()[at];
    let numbers: Vec<(usize, f64)> = (0..axis.values.len())
        .filter_map(|place| axis.values.number(place).map(|number| (place, number)))
        .collect();
    let lowest = numbers.iter().min_by(|a, b| a.1.total_cmp(&b.1));
    let highest = numbers.iter().max_by(|a, b| a.1.total_cmp(&b.1));
    lowest.into_iter().chain(highest).map(|(place, _)| *place).collect()
}

/// The engine's refusal at the option it is about.
pub fn placed_at_key(options: &Options, error: &PlanError) -> Fault {
    let message = error.to_string();
    let keys: Vec<&'static str> = match error {
        PlanError::OutOfRange(refused) | PlanError::Launch(LaunchError::OutOfRange(refused)) => {
            named(refused.name)
        }
        PlanError::Launch(LaunchError::OffTable { .. }) => vec!["off_rail"],
        PlanError::Launch(LaunchError::NoSuchLag) => vec!["lag", "speed"],
        PlanError::Bank(BankError::Geometry(GeometryError::PocketOnRail { .. })) => {
            vec!["pocket", "rail"]
        }
        PlanError::Bank(BankError::Geometry(GeometryError::NoCushion { .. })) => {
            vec!["corner_mouth", "side_mouth"]
        }
        PlanError::Bank(BankError::ShortContact(_)) => {
            vec!["contact_time", "rail_model", "equipment"]
        }
        PlanError::EmptyAxis { axis }
        | PlanError::Twice { axis }
        | PlanError::WrongKind { axis }
        | PlanError::EmptyRange { axis, .. } => vec![*axis],
        PlanError::Sample(_) => vec!["points", "how"],
        PlanError::Contradiction { first, second } => vec![*second, *first],
        PlanError::Missing { .. }
        | PlanError::TooLarge { .. }
        | PlanError::Rule { .. }
        | PlanError::FarStart { .. } => vec![],
    };
    let fault = match keys.into_iter().find(|key| options.knows(key) && options.has(key)) {
        Some(key) => options.complain(key, message),
        None => options.complain_of_call(message),
    };
    match error {
        PlanError::Launch(LaunchError::NoSuchLag) => fault.with_hint(FEWER_LENGTHS),
        PlanError::TooLarge { .. } => fault.with_hint("take coarser steps, or several sweeps"),
        PlanError::Missing { axis } => match line_to_put_back(axis) {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        },
        _ => fault,
    }
}

/// The options that can have led to a refused parameter.
fn named(parameter: &str) -> Vec<&'static str> {
    let mut keys: Vec<&'static str> = Input::all()
        .filter(|input| input.parameter().is_some_and(|own| own.name == parameter))
        .map(Input::name)
        .collect();
    if parameter.starts_with("nose_height") {
        keys.extend(["nose_height", "ball_diameter"]);
    }
    keys.push("equipment");
    keys
}

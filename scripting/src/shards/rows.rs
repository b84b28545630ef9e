//! The rows of a shard as columns.

use super::columns::{ColumnHeader, ColumnValues, FileColumn};
use super::details::detail_columns;
use super::encode::parquet_file;
use super::row_choice::{FailedRows, RowChoice};
use super::run::PlayedRun;
use super::shot_rows::shot_columns;
use crate::plan::{SweepPlan, Swept};
use parquet::errors::Result;
use railproof_engine::bank::{BankVerdict, Direction};
use railproof_engine::results::{BankResults, Measure, bank_measure};
use railproof_engine::sweep::{Axis, Input, Plan, PlayedRows, Values as AxisValues};
use std::borrow::Cow;

/// Inputs that every row has, whatever the plan varies.
const ALWAYS: [Input; 5] =
    [Input::OffRail, Input::Speed, Input::Roll, Input::RunningSide, Input::AimError];

/// The played rows as a Parquet file.
///
/// # Errors
/// Only the refusals of the Parquet writer itself.
pub fn rows_file(
    plan: &SweepPlan,
    played: &PlayedRun,
    pick: RowChoice,
    notes: Vec<(String, String)>,
) -> Result<Vec<u8>> {
    parquet_file(&columns_of(plan, played, pick), notes)
}

fn columns_of<'a>(plan: &SweepPlan, played: &'a PlayedRun, pick: RowChoice) -> Vec<FileColumn<'a>> {
    match (&plan.played, played) {
        (Swept::Banks { banks, .. }, PlayedRun::Banks(played)) => {
            let failed = FailedRows::of(played);
            bank_columns(plan, banks, played, &failed, &pick.bank_rows(played))
        }
        (Swept::Shots(shots), PlayedRun::Shots(played)) => shot_columns(shots, played, pick),
        _ => Vec::new(),
    }
}

/// The columns' names, in order.
pub fn column_names(plan: &SweepPlan) -> Vec<String> {
    let none = PlayedRun::empty_of(plan);
    columns_of(plan, &none, RowChoice::All).into_iter().map(|column| column.about.name).collect()
}

fn bank_columns<'a>(
    plan: &SweepPlan,
    banks: &Plan,
    played: &'a PlayedRows,
    failed: &FailedRows,
    rows: &[usize],
) -> Vec<FileColumn<'a>> {
    let all_rows = rows.len() == played.len();
    let kept = |values: &'a [f64]| {
        if all_rows { Cow::Borrowed(values) } else { rows.iter().map(|row| values[*row]).collect() }
    };
    let numbers = |values: &'a [f64]| ColumnValues::Numbers(kept(values));
    // On a grid an input has few values, in a sample each its own.
    let gridded = |input: Input| {
        let axis = banks.axis(input);
        axis.is_none_or(|axis| !matches!(axis.values, AxisValues::Range(_)))
    };
    let given = |input: Input, values: Cow<'a, [f64]>| {
        if gridded(input) { ColumnValues::Few(values) } else { ColumnValues::Numbers(values) }
    };
    let words = |list: Vec<String>, code: &dyn Fn(usize) -> usize| ColumnValues::Words {
        list,
        codes: rows.iter().map(|row| u32::try_from(code(*row)).unwrap_or(u32::MAX)).collect(),
    };
    let mut all = Vec::new();
    let mut add = |name: &str, unit: &'static str, meaning: &str, values: ColumnValues<'a>| {
        all.push(FileColumn::new(ColumnHeader::new(name, unit, meaning), values));
    };
    let points = rows.iter().map(|row| played.point[*row].cast_signed());
    add("point", "", "index of the point in the plan", ColumnValues::Whole(points.collect()));

    let inputs = &played.inputs;
    add(
        &Input::Contact.column(),
        Input::Contact.unit(),
        const { bank_measure("contact") }.meaning,
        given(Input::Contact, kept(&inputs.contact)),
    );
    for column in &played.axes {
        let Axis { input, values } = &banks.axes()[column.axis];
        let name = input.column();
        if matches!(input, Input::Contact | Input::Start) || ALWAYS.contains(input) {
            continue;
        }
        if input.parameter().is_some() {
            let own = rows.iter().map(|row| column.numbers[*row]).collect();
            add(&name, input.unit(), input.meaning(), given(*input, own));
        } else {
            let list = (0..values.len())
                .map(|at| values.word(at).unwrap_or_default().to_owned())
                .collect();
            let values = words(list, &|row| column.digits[row]);
            add(&name, "", input.meaning(), values);
        }
    }
    let launch = [&inputs.off_rail_m, &inputs.speed_m_s, &inputs.roll, &inputs.side];
    for (input, values) in ALWAYS.iter().zip(launch.into_iter().chain([&inputs.aim_error_rad])) {
        add(&input.column(), input.unit(), input.meaning(), given(*input, kept(values)));
    }
    if !plan.rules().is_empty() {
        let list = plan.rules().iter().map(|rule| rule.name.clone()).collect();
        add("rule", "", "the rule that aimed", words(list, &|row| played.rule[row]));
    }
    let start = const { bank_measure("start") };
    add(&start.column(), start.unit(), start.meaning, numbers(&inputs.start));

    let outcomes = &played.outcomes;
    let mut list: Vec<String> =
        BankVerdict::ALL.iter().map(|verdict| verdict.name().into()).collect();
    list.push(plan.without_answer().0.to_owned());
    let verdict = |row: usize| {
        if failed.is(row) { BankVerdict::ALL.len() } else { outcomes.verdict[row].place() }
    };
    add("verdict", "", const { bank_measure("verdict") }.meaning, words(list, &verdict));
    let side = |row: usize| match outcomes.verdict[row].direction() {
        Some(Direction::Long) => 0,
        Some(Direction::Short) => 1,
        None => usize::MAX,
    };
    let list = [Direction::Long, Direction::Short].map(|side| side.name().to_owned()).to_vec();
    add("long_or_short", "", const { bank_measure("long_or_short") }.meaning, words(list, &side));
    for (measure, values) in outcome_columns(played) {
        add(&measure.column(), measure.unit(), measure.meaning, numbers(values));
    }
    let flag = |row: &usize| (!failed.is(*row)).then(|| outcomes.flagged[*row]);
    let flags = ColumnValues::Flags(rows.iter().map(flag).collect());
    add("flagged", "", const { bank_measure("flagged") }.meaning, flags);
    let list = played.failures.iter().map(|failure| failure.error.to_string()).collect();
    let why = |row: usize| failed.place(row).unwrap_or(usize::MAX);
    add(plan.without_answer().1, "", "why it could not be played", words(list, &why));
    if plan.details {
        let told = |column: &str| all.iter().any(|other| other.about.name == column);
        all.extend(detail_columns(banks, played, rows, &|row| failed.is(row), &told));
    }
    all
}

/// The batch core's columns of numbers with their measures.
fn outcome_columns(played: &PlayedRows) -> [(&'static Measure<BankResults>, &[f64]); 14] {
    let outcomes = &played.outcomes;
    [
        (const { bank_measure("miss") }, outcomes.miss_m.as_slice()),
        (const { bank_measure("clearance_long") }, outcomes.clearance_long_m.as_slice()),
        (const { bank_measure("clearance_short") }, outcomes.clearance_short_m.as_slice()),
        (const { bank_measure("at_rail_contact") }, outcomes.contact_at_rail.as_slice()),
        (const { bank_measure("at_rail_time") }, outcomes.time_at_rail_s.as_slice()),
        (const { bank_measure("at_rail_speed") }, outcomes.speed_at_rail_m_s.as_slice()),
        (const { bank_measure("at_rail_roll_fraction") }, outcomes.roll_at_rail.as_slice()),
        (const { bank_measure("incidence") }, outcomes.incidence_rad.as_slice()),
        (const { bank_measure("departure") }, outcomes.departure.as_slice()),
        (const { bank_measure("rebound_speed") }, outcomes.rebound_speed_m_s.as_slice()),
        (const { bank_measure("rebound_angle") }, outcomes.rebound_angle_rad.as_slice()),
        (const { bank_measure("rebound_restitution") }, outcomes.restitution.as_slice()),
        (const { bank_measure("arrival_time") }, outcomes.arrival_time_s.as_slice()),
        (const { bank_measure("arrival_speed") }, outcomes.arrival_speed_m_s.as_slice()),
    ]
}

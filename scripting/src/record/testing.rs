//! Small records for tests of the rooms that read them.

use super::{MapRecord, Record};
use crate::profile;
use crate::telling::AskedUnits;
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::Reading;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::{Axis, Input, Plan, Values, compare};
use std::sync::Arc;

/// The invented hall.
pub(crate) fn hall() -> Equipment {
    let text = profile::shipped_text("harbour-hall").unwrap();
    profile::parse_profile(text, "harbour-hall").unwrap()
}

/// The invented hall, frozen stun banks at these contacts and speeds.
pub(crate) fn plan(contacts: &[f64], speeds: &[f64]) -> Plan {
    plan_on(contacts, speeds, &[0.0])
}

/// The same at several distances off the rail.
pub(crate) fn plan_on(contacts: &[f64], speeds: &[f64], off_rail: &[f64]) -> Plan {
    let hall = hall();
    let numbers = |input, values: &[f64]| Axis { input, values: Values::Numbers(values.to_vec()) };
    Plan::new(vec![
        Axis { input: Input::Equipment, values: Values::Equipment(vec![hall]) },
        numbers(Input::Contact, contacts),
        numbers(Input::OffRail, off_rail),
        numbers(Input::Speed, speeds),
    ])
    .unwrap()
}

/// A linear rule in the groove.
pub(crate) fn linear(slope: f64) -> NamedRule {
    Rule::linear(slope, 0.0, Reading::Groove).unwrap().into()
}

/// The plan by these rules.
pub(crate) fn map(name: &str, plan: Plan, rules: Vec<NamedRule>) -> MapRecord {
    let rows = compare(&plan, &rules, &|| ()).unwrap();
    MapRecord { name: name.to_owned(), plan, rules, rows, units: AskedUnits::METRIC }
}

/// A record with one map and nothing else.
pub(crate) fn record(map: MapRecord) -> Record {
    Record {
        name: "sample".to_owned(),
        file: "lessons/sample.lua".into(),
        banks_played: map.rows.len() as u64,
        maps: vec![Arc::new(map)],
        ..Record::default()
    }
}

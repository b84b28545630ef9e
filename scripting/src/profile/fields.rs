//! The fields of each section, and what holds when one is left out: the one place where defaults
//! stand.

use railproof_engine::equipment::{Ball, Cloth, Cushion, Equipment, Parameter, RailModel, Table};
use railproof_engine::units::Dimension;
use std::fmt::Write;

/// A field: what it accepts, and what holds without it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Field {
    pub(super) parameter: Parameter,
    pub(super) otherwise: Otherwise,
}

/// What holds when a field is left out.
#[derive(Debug, Clone, Copy)]
pub(super) enum Otherwise {
    /// It must be there.
    Required,
    /// This value, as a person would write it.
    Value(&'static str),
    /// Nothing is set, with this consequence.
    Unset(&'static str),
}

const fn required(parameter: Parameter) -> Field {
    Field { parameter, otherwise: Otherwise::Required }
}

const fn or_value(parameter: Parameter, value: &'static str) -> Field {
    Field { parameter, otherwise: Otherwise::Value(value) }
}

pub(super) const TABLE: [Field; 5] = [
    required(Table::LENGTH),
    required(Table::WIDTH),
    required(Table::CORNER_MOUTH),
    required(Table::SIDE_MOUTH),
    required(Table::SIGHT_SETBACK),
];

pub(super) const BALL: [Field; 2] = [required(Ball::DIAMETER), required(Ball::MASS)];

pub(super) const CLOTH: [Field; 3] = [
    required(Cloth::SLIDING_FRICTION),
    required(Cloth::ROLLING_RESISTANCE),
    required(Cloth::PIVOT_DECELERATION),
];

pub(super) const CUSHION: [Field; 8] = [
    required(Cushion::NOSE_HEIGHT),
    required(Cushion::RESTITUTION),
    required(Cushion::RESTITUTION_LOSS),
    or_value(Cushion::RESTITUTION_FLOOR, "0.5"),
    required(Cushion::FRICTION),
    Field {
        parameter: Cushion::CLOTH_FRICTION,
        otherwise: Otherwise::Unset("the cloth's sliding_friction"),
    },
    or_value(Cushion::CHECKED_SPEED, "2.5 m/s"),
    or_value(Cushion::CONTACT_TIME, "14 ms"),
];

/// Gravity stands beside the sections, not in one.
pub(super) const GRAVITY: Field = or_value(Equipment::GRAVITY, "9.80665 m/s^2");

/// The cushion's one field that is a word.
pub(super) const MODEL: &str = "model";

/// Every field of a profile with its range, units and default, as a text for people.
pub fn field_guide() -> String {
    let mut out = String::from("name: what people call it\nabout: free text; may be left out\n");
    let sections: [(&str, &[Field]); 4] =
        [("table", &TABLE), ("ball", &BALL), ("cloth", &CLOTH), ("cushion", &CUSHION)];
    for (section, fields) in sections {
        let _ = writeln!(out, "{section}:");
        if section == "cushion" {
            let names: Vec<_> = RailModel::ALL.iter().map(|model| model.name()).collect();
            let _ = writeln!(
                out,
                "  {MODEL}: one of {}; when left out: {}",
                names.join(", "),
                RailModel::default().name()
            );
        }
        for field in fields {
            let _ = writeln!(out, "  {}", line(field));
        }
    }
    let _ = writeln!(out, "{}", line(&GRAVITY));
    out
}

fn line(field: &Field) -> String {
    let Parameter { name, dimension, low, high, unit, .. } = field.parameter;
    let kind = dimension.name();
    let mut out = if dimension == Dimension::Ratio {
        format!("{name}: {kind}, {low} to {high}")
    } else {
        let units: Vec<_> = dimension.units().iter().map(|unit| unit.symbol).collect();
        format!("{name}: {kind} in {}, {low} to {high} {unit}", units.join(", "))
    };
    match field.otherwise {
        Otherwise::Required => {}
        Otherwise::Value(value) => {
            let _ = write!(out, "; when left out: {value}");
        }
        Otherwise::Unset(consequence) => {
            let _ = write!(out, "; when left out: {consequence}");
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::yaml::read_quantity;

    #[test]
    fn every_default_is_a_value_that_its_field_accepts() {
        for field in CUSHION.iter().chain([&GRAVITY]) {
            if let Otherwise::Value(text) = field.otherwise {
                assert!(read_quantity(text, &field.parameter).is_ok(), "{text}");
            }
        }
    }

    #[test]
    fn the_guide_names_every_field_once() {
        let guide = field_guide();
        for field in TABLE.iter().chain(&BALL).chain(&CLOTH).chain(&CUSHION).chain([&GRAVITY]) {
            let start = format!("{}:", field.parameter.name);
            let count = guide.lines().filter(|line| line.trim_start().starts_with(&start)).count();
            assert_eq!(count, 1, "{start}");
        }
    }
}

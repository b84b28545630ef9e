//! The fields of each section, and what holds when one is left out: the one place where defaults
//! stand.

use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, CueShape, Cushion, Equipment, FrictionLaw, Jaws, Parameter,
    RailModel, RailTop, Table,
};
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

pub(super) const TABLE: [Field; 14] = [
    required(Table::LENGTH),
    required(Table::WIDTH),
    required(Table::CORNER_MOUTH),
    required(Table::SIDE_MOUTH),
    required(Table::SIGHT_SETBACK),
    or_value(Jaws::CORNER_ANGLE, "142 deg"),
    or_value(Jaws::SIDE_ANGLE, "104 deg"),
    or_value(Jaws::CORNER_RADIUS, "0.25 in"),
    or_value(Jaws::SIDE_RADIUS, "0.25 in"),
    or_value(Jaws::CORNER_SHELF, "1.625 in"),
    or_value(Jaws::SIDE_SHELF, "0.1875 in"),
    or_value(RailTop::HEIGHT, "1.6875 in"),
    or_value(RailTop::SETBACK, "2 in"),
    or_value(Jaws::CONTACT_TIME, "1 ms"),
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
    or_value(Cushion::CONTACT_TIME, "15 ms"),
];

pub(super) const BALL_CONTACT: [Field; 7] = [
    or_value(BallContact::RESTITUTION, "0.94"),
    or_value(BallContact::FRICTION_AT_0_1, "0.11"),
    or_value(BallContact::FRICTION_AT_1, "0.06"),
    or_value(BallContact::FRICTION_AT_10, "0.01"),
    or_value(BallContact::FRICTION_FAR, "0.00995"),
    or_value(BallContact::FRICTION_RISE, "0.108"),
    or_value(BallContact::FRICTION_FALL, "1.088 s/m"),
];

pub(super) const CUE: [Field; 5] = [
    or_value(Cue::END_MASS, "8.5 g"),
    or_value(Cue::MISCUE_OFFSET, "0.5"),
    or_value(CueShape::TIP_DIAMETER, "13 mm"),
    or_value(CueShape::BUTT_DIAMETER, "30 mm"),
    or_value(CueShape::LENGTH, "58 in"),
];

/// Every section with its fields; those without a required field may be left out of a complete
/// profile.
const SECTIONS: [(&str, &[Field]); 6] = [
    ("table", &TABLE),
    ("ball", &BALL),
    ("cloth", &CLOTH),
    ("cushion", &CUSHION),
    ("ball_contact", &BALL_CONTACT),
    ("cue", &CUE),
];

/// Gravity stands beside the sections, not in one.
pub(super) const GRAVITY: Field = or_value(Equipment::GRAVITY, "9.80665 m/s^2");

/// The cushion's one field that is a word.
pub(super) const MODEL: &str = "model";

/// The ball contact's one field that is a word.
pub(super) const LAW: &str = "friction_law";

/// The field of a section that is a word, what it may be, and what it is when left out.
pub(super) fn word_of(section: &str) -> Option<(&'static str, Vec<&'static str>, &'static str)> {
    match section {
        "cushion" => {
            let names = RailModel::ALL.iter().map(|model| model.name()).collect();
            Some((MODEL, names, RailModel::default().name()))
        }
        "ball_contact" => {
            let names = FrictionLaw::ALL.iter().map(|law| law.name()).collect();
            Some((LAW, names, FrictionLaw::default().name()))
        }
        _ => None,
    }
}

/// Every field of a profile with its range, units and default, as a text for people.
pub fn field_guide() -> String {
    let mut out = String::from("name: what people call it\nabout: free text; may be left out\n");
    for (section, fields) in SECTIONS {
        let optional = fields.iter().all(|field| !matches!(field.otherwise, Otherwise::Required));
        let note = if optional { " (the section may be left out)" } else { "" };
        let _ = writeln!(out, "{section}:{note}");
        if let Some((word, names, default)) = word_of(section) {
            let _ =
                writeln!(out, "  {word}: one of {}; when left out: {default}", names.join(", "));
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
        let fields = SECTIONS.iter().flat_map(|(_, fields)| fields.iter());
        for field in fields.chain([&GRAVITY]) {
            if let Otherwise::Value(text) = field.otherwise {
                assert!(read_quantity(text, &field.parameter).is_ok(), "{text}");
            }
        }
    }

    #[test]
    fn the_guide_names_every_field_once() {
        let guide = field_guide();
        for (section, fields) in SECTIONS {
            let own: Vec<_> = guide
                .lines()
                .skip_while(|line| !line.starts_with(&format!("{section}:")))
                .skip(1)
                .take_while(|line| line.starts_with("  "))
                .collect();
            assert!(own.len() >= fields.len(), "{section}");
            for field in fields {
                let start = format!("  {}:", field.parameter.name);
                assert_eq!(
                    own.iter().filter(|line| line.starts_with(&start)).count(),
                    1,
                    "{start}"
                );
            }
        }
        assert_eq!(guide.lines().filter(|line| line.starts_with("gravity:")).count(), 1);
    }

    #[test]
    fn the_defaults_are_the_usual_values() {
        let default = |field: &Field| match field.otherwise {
            Otherwise::Value(text) => read_quantity(text, &field.parameter).ok(),
            _ => None,
        };
        let (jaws, contact, cue) = (Jaws::USUAL, BallContact::USUAL, Cue::USUAL);
        let usual = [
            (&TABLE[5], jaws.corner_angle_rad),
            (&TABLE[6], jaws.side_angle_rad),
            (&TABLE[7], jaws.corner_radius_m),
            (&TABLE[8], jaws.side_radius_m),
            (&TABLE[9], jaws.corner_shelf_m),
            (&TABLE[10], jaws.side_shelf_m),
            (&TABLE[13], jaws.contact_time_s),
            (&BALL_CONTACT[0], contact.restitution),
            (&BALL_CONTACT[1], contact.friction_at_0_1),
            (&BALL_CONTACT[2], contact.friction_at_1),
            (&BALL_CONTACT[3], contact.friction_at_10),
            (&BALL_CONTACT[4], contact.friction_far),
            (&BALL_CONTACT[5], contact.friction_rise),
            (&BALL_CONTACT[6], contact.friction_fall_s_m),
            (&CUE[0], cue.end_mass_kg),
            (&CUE[1], cue.miscue_offset),
            (&CUE[2], cue.shape.tip_diameter_m),
            (&CUE[3], cue.shape.butt_diameter_m),
            (&CUE[4], cue.shape.length_m),
            (&TABLE[11], RailTop::USUAL.height_m),
            (&TABLE[12], RailTop::USUAL.setback_m),
        ];
        for (field, value) in usual {
            assert_eq!(default(field), Some(value), "{}", field.parameter.name);
        }
    }
}

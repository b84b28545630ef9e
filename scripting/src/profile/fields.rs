//! The fields of a profile in words: every one with its kind, range, unit and what holds without it.

use railproof_engine::equipment::{
    Equipment, EquipmentNumber, FrictionLaw, Parameter, RailModel, Section,
};
use railproof_engine::units::Dimension;
use std::fmt::Write;

/// The field of a section that is a word and no number.
pub(super) struct WordField {
    pub(super) name: &'static str,
    /// The words that it may be.
    pub(super) words: Vec<&'static str>,
    /// Its value when left out.
    pub(super) usual: &'static str,
    /// Sets it to the word at this place.
    pub(super) set: fn(&mut Equipment, usize),
}

/// The field of a section that is a word, where it has one.
pub(super) fn word_of(section: Section) -> Option<WordField> {
    match section {
        Section::Cushion => Some(WordField {
            name: "rail_model",
            words: RailModel::ALL.iter().map(|model| model.name()).collect(),
            usual: RailModel::default().name(),
            set: |equipment, at| equipment.cushion.rail_model = RailModel::ALL[at],
        }),
        Section::BallContact => Some(WordField {
            name: "friction_law",
            words: FrictionLaw::ALL.iter().map(|law| law.name()).collect(),
            usual: FrictionLaw::default().name(),
            set: |equipment, at| equipment.ball_contact.friction_law = FrictionLaw::ALL[at],
        }),
        _ => None,
    }
}

/// True for a number that a section can't go without.
pub(super) fn is_required(number: EquipmentNumber) -> bool {
    number.usual().is_none() && number.without().is_none()
}

/// Every field of a profile with its range, units and default, as a text for people.
pub fn field_guide() -> String {
    let mut out = String::from("name: what people call it\nabout: free text; may be left out\n");
    for section in Section::ALL {
        let optional = !section.numbers().any(is_required);
        let note = if optional { " (the section may be left out)" } else { "" };
        let _ = writeln!(out, "{}:{note}", section.name());
        if let Some(WordField { name, words, usual, .. }) = word_of(section) {
            let _ = writeln!(out, "  {name}: one of {}; when left out: {usual}", words.join(", "));
        }
        for number in section.numbers() {
            let _ = writeln!(out, "  {}", line(number));
        }
    }
    for number in Section::Whole.numbers() {
        let _ = writeln!(out, "{}", line(number));
    }
    out
}

fn line(number: EquipmentNumber) -> String {
    let Parameter { name, dimension, low, high, unit, .. } = number.parameter();
    let kind = dimension.name();
    let mut out = if dimension == Dimension::Ratio {
        format!("{name}: {kind}, {low} to {high}")
    } else {
        let units: Vec<_> = dimension.units().iter().map(|unit| unit.symbol).collect();
        format!("{name}: {kind} in {}, {low} to {high} {unit}", units.join(", "))
    };
    if let Some(consequence) = number.without() {
        let _ = write!(out, "; when left out: {consequence}");
    } else if let Some(usual) = number.usual() {
        let _ = write!(out, "; when left out: {}", number.parameter().shown(usual));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_usual_number_is_one_that_its_field_accepts() {
        for number in EquipmentNumber::all() {
            if let Some(usual) = number.usual() {
                assert!(number.parameter().check(usual).is_ok(), "{}", number.name());
            }
        }
    }

    #[test]
    fn the_guide_names_every_field_once() {
        let guide = field_guide();
        for section in Section::ALL {
            let own: Vec<_> = guide
                .lines()
                .skip_while(|line| !line.starts_with(&format!("{}:", section.name())))
                .skip(1)
                .take_while(|line| line.starts_with("  "))
                .collect();
            for number in section.numbers() {
                let start = format!("  {}:", number.parameter().name);
                let count = own.iter().filter(|line| line.starts_with(&start)).count();
                assert_eq!(count, 1, "{start}");
            }
        }
        assert_eq!(guide.lines().filter(|line| line.starts_with("gravity:")).count(), 1);
    }
}

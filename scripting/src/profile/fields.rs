//! The fields of a profile, section by section: made from the list of equipment numbers.

use super::shipped_text;
use crate::fields::{Example, Field, FieldKind, Group, Without, words};
use railproof_engine::equipment::{EquipmentNumber, FrictionLaw, Parameter, RailModel, Section};
use railproof_engine::units::parse_quantity;
use std::sync::LazyLock;

/// The field of the cushion that is a word.
pub(super) const RAIL_MODEL: &str = "rail_model";
/// The field of the contact between balls that is a word.
pub(super) const FRICTION_LAW: &str = "friction_law";

const NAME: Field = Field::new("name", FieldKind::Name, "what people call it");
const ABOUT: Field = Field::new("about", FieldKind::Text, "free text");

/// A profile in a file of its own.
pub(crate) static PROFILE: LazyLock<Group> = LazyLock::new(|| Group {
    example: Some(Example::Fields(&[("name", Example::Word("Our table"))])),
    ..profile(const { &[NAME.or(Without::Needed), ABOUT] })
});

/// A profile inside another file, which may go without a name.
pub(crate) static INLINE_PROFILE: LazyLock<Group> = LazyLock::new(|| profile(&[NAME, ABOUT]));

/// The sections, in the order of [`Section::ALL`].
pub(crate) static SECTIONS: LazyLock<Vec<Group>> =
    LazyLock::new(|| Section::ALL.into_iter().map(section).collect());

fn profile(own: &'static [Field]) -> Group {
    let sections = Section::ALL.into_iter().zip(SECTIONS.iter()).map(|(section, group)| {
        let field = Field::new(section.name(), FieldKind::Group(group), "a section of numbers");
        let needed = section.numbers().any(is_required);
        field.or(Without::Says(if needed { "the profile is partial" } else { "all as usual" }))
    });
    let whole = Section::Whole.numbers().map(number_field);
    let parts: Vec<&'static [Field]> = vec![own, sections.chain(whole).collect::<Vec<_>>().leak()];
    Group { title: "the profile", parts: parts.leak(), example: None }
}

fn section(section: Section) -> Group {
    let word = match section {
        Section::Cushion => Some((RAIL_MODEL, words::<RailModel> as fn() -> Vec<&'static str>)),
        Section::BallContact => Some((FRICTION_LAW, words::<FrictionLaw> as _)),
        _ => None,
    };
    let word = word.map(|(name, words)| {
        Field::new(name, FieldKind::Word(words), "its model").or(Without::Word(words()[0]))
    });
    let fields: Vec<Field> = word.into_iter().chain(section.numbers().map(number_field)).collect();
    let parts: Vec<&'static [Field]> = vec![fields.leak()];
    let title = format!("the `{}` section", section.name()).leak();
    Group { title, parts: parts.leak(), example: None }
}

fn number_field(number: EquipmentNumber) -> Field {
    let common = number.usual().or_else(|| on_a_nine_foot_table(number));
    let mut field = Field { common, ..Field::number(number.parameter(), number.meaning()) };
    if number.section() == Section::Speeds {
        field.kind = FieldKind::PlainSpeed(number.parameter());
    }
    match (number.without(), number.usual()) {
        (Some(consequence), _) => field.or(Without::Says(consequence)),
        (None, Some(usual)) => field.or(Without::Number(usual)),
        (None, None) => field.or(Without::Needed),
    }
}

/// The number of the shipped nine-foot table, looked up as text: these fields are needed to read profiles.
fn on_a_nine_foot_table(number: EquipmentNumber) -> Option<f64> {
    let Parameter { name, dimension, .. } = number.parameter();
    let (section, key) = (format!("{}:", number.section().name()), format!("  {name}: "));
    let mut lines = shipped_text("nine-foot")?.lines().skip_while(|line| *line != section).skip(1);
    let mut within = lines.by_ref().take_while(|line| line.is_empty() || line.starts_with(' '));
    let text = within.find_map(|line| line.strip_prefix(&key))?;
    parse_quantity(text, dimension).ok()
}

/// True for a number that a section can't go without.
pub(super) fn is_required(number: EquipmentNumber) -> bool {
    number.usual().is_none() && number.without().is_none()
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
    fn every_number_has_a_common_one() {
        for number in EquipmentNumber::all().filter(|number| number.without().is_none()) {
            let common = number_field(number).common;
            assert!(
                common.is_some_and(|it| number.parameter().check(it).is_ok()),
                "{}",
                number.name()
            );
        }
    }

    #[test]
    fn the_word_that_a_section_has_by_itself_is_the_engines() {
        let default = |section: usize, name: &str| match SECTIONS[section].field(name) {
            Some(Field { without: Without::Word(word), .. }) => *word,
            other => panic!("{other:?}"),
        };
        assert_eq!(default(3, RAIL_MODEL), RailModel::default().name());
        assert_eq!(default(4, FRICTION_LAW), FrictionLaw::default().name());
    }
}

//! The sections of a profile, read from YAML.

use super::fields::{WordField, is_required, word_of};
use crate::yaml::{Entries, Mapping, QuantityField, Reader, Refusal, Text, WordOf, known_keys};
use railproof_engine::equipment::{Equipment, EquipmentNumber, Section};
use serde::de::MapAccess;

/// The sections of a profile; every part is valid in itself.
#[derive(Debug, Clone)]
pub(crate) struct Sections {
    pub(crate) name: Option<String>,
    pub(crate) about: Option<String>,
    /// Which sections it has, gravity among them.
    has: Vec<Section>,
    /// Their numbers; those of other sections are not set.
    equipment: Equipment,
}

impl Default for Sections {
    fn default() -> Self {
        Self { name: None, about: None, has: Vec::new(), equipment: Equipment::unset() }
    }
}

impl Sections {
    /// Whether a section is there.
    pub(crate) fn has(&self, section: Section) -> bool {
        self.has.contains(&section)
    }

    /// True when it has a name and nothing else.
    pub(super) fn is_empty(&self) -> bool {
        self.has.is_empty()
    }

    /// The first section that a complete profile needs and this one has not.
    pub(super) fn missing(&self) -> Option<Section> {
        let needed = |section: &Section| section.numbers().any(is_required);
        Section::ALL.into_iter().filter(needed).find(|section| !self.has(*section))
    }

    /// The equipment with these sections in place of its own.
    pub(super) fn over(&self, base: &Equipment) -> Equipment {
        let mut equipment = base.clone();
        for section in &self.has {
            section.copy(&self.equipment, &mut equipment);
        }
        equipment
    }
}

/// Reads a profile's top level.
pub(crate) struct SectionEntries {
    sections: Sections,
    /// A profile inside another file may go without a name.
    name_required: bool,
}

impl SectionEntries {
    pub(crate) fn new(name_required: bool) -> Self {
        Self { sections: Sections::default(), name_required }
    }
}

impl<'de> Entries<'de> for SectionEntries {
    type Value = Sections;

    fn what(&self) -> String {
        "a profile".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        let sections = Section::ALL.into_iter().map(Section::name);
        let whole = Section::Whole.numbers().map(|number| number.parameter().name);
        known_keys("a profile", key, ["name", "about"].into_iter().chain(sections).chain(whole))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        let into = &mut self.sections;
        if let Some(section) = Section::ALL.into_iter().find(|section| section.name() == key) {
            let entries =
                FieldEntries { section, given: Vec::new(), equipment: Equipment::unset() };
            let read = map.next_value_seed(Mapping { reader, entries })?;
            section.copy(&read, &mut into.equipment);
            into.has.push(section);
            return Ok(());
        }
        if let Some(number) = number_of(Section::Whole, key) {
            let value =
                map.next_value_seed(QuantityField { reader, parameter: number.parameter() })?;
            number.set(&mut into.equipment, value);
            into.has.push(Section::Whole);
            return Ok(());
        }
        let is_name = key == "name";
        let name = if is_name { "name" } else { "about" };
        let text = map.next_value_seed(Text { reader, name, one_line: is_name })?;
        *(if is_name { &mut into.name } else { &mut into.about }) = Some(text);
        Ok(())
    }

    fn finish(self) -> Result<Sections, Refusal> {
        if self.name_required && self.sections.name.is_none() {
            return Err(Refusal::new("the profile has no `name`")
                .with_hint("begin with a line such as `name: Our table`"));
        }
        Ok(self.sections)
    }
}

/// The number that a section's key stands for.
fn number_of(section: Section, key: &str) -> Option<EquipmentNumber> {
    section.numbers().find(|number| number.parameter().name == key)
}

/// Reads a section: its numbers, and the word that some have, into equipment of which only this
/// section counts.
struct FieldEntries {
    section: Section,
    given: Vec<EquipmentNumber>,
    equipment: Equipment,
}

impl FieldEntries {
    fn title(&self) -> String {
        format!("the `{}` section", self.section.name())
    }
}

impl<'de> Entries<'de> for FieldEntries {
    type Value = Equipment;

    fn what(&self) -> String {
        self.title()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        let names = self.section.numbers().map(|number| number.parameter().name);
        known_keys(&self.title(), key, names.chain(word_of(self.section).map(|word| word.name)))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        if let Some(number) = number_of(self.section, key) {
            let value =
                map.next_value_seed(QuantityField { reader, parameter: number.parameter() })?;
            number.set(&mut self.equipment, value);
            self.given.push(number);
        } else if let Some(WordField { name, words, set, .. }) = word_of(self.section) {
            let at = map.next_value_seed(WordOf { reader, name, words: &words })?;
            set(&mut self.equipment, at);
        }
        Ok(())
    }

    fn finish(self) -> Result<Equipment, Refusal> {
        let lacks = |number: &EquipmentNumber| is_required(*number) && !self.given.contains(number);
        let missing: Vec<&str> =
            self.section.numbers().filter(lacks).map(|number| number.parameter().name).collect();
        if missing.is_empty() {
            return Ok(self.equipment);
        }
        Err(Refusal::new(format!("{} has no `{}`", self.title(), missing.join("` and no `"))))
    }
}

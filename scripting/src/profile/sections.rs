//! The sections of a profile.

use super::fields::{FRICTION_LAW, RAIL_MODEL, is_required};
use crate::fields::GroupValues;
use railproof_engine::bank::speed_on;
use railproof_engine::equipment::{Equipment, EquipmentNumber, Section};
use railproof_engine::units::Speed;

/// The sections of a profile; every part is valid in itself.
#[derive(Debug, Clone)]
pub(crate) struct Sections {
    pub(crate) name: Option<String>,
    pub(crate) about: Option<String>,
    /// Which sections it has, gravity among them.
    has: Vec<Section>,
    /// Their numbers; those of other sections are not set.
    equipment: Equipment,
    /// Speeds in table lengths, which depend on all of the equipment.
    lags: Vec<(EquipmentNumber, Speed)>,
}

impl Default for Sections {
    fn default() -> Self {
        let equipment = Equipment::unset();
        Self { name: None, about: None, has: Vec::new(), equipment, lags: Vec::new() }
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
        for (number, speed) in &self.lags {
            let m_s = speed_on(*speed, &equipment);
            number.set(&mut equipment, m_s);
        }
        equipment
    }
}

/// The sections that a profile's values give.
pub(crate) fn sections(values: &GroupValues) -> Sections {
    let text = |name| values.text(name).map(str::to_owned);
    let mut into = Sections { name: text("name"), about: text("about"), ..Sections::default() };
    for section in Section::ALL {
        let Some(group) = values.group(section.name()) else { continue };
        into.has.push(section);
        put_numbers(section, group, &mut into.equipment);
        let lag = |number: EquipmentNumber| {
            let speed = group.speed(number.parameter().name)?;
            matches!(speed, Speed::TableLengths(_)).then_some((number, speed))
        };
        into.lags.extend(section.numbers().filter_map(lag));
        match section {
            Section::Cushion => {
                into.equipment.cushion.rail_model = group.meant(RAIL_MODEL).unwrap_or_default();
            }
            Section::BallContact => {
                let law = group.meant(FRICTION_LAW).unwrap_or_default();
                into.equipment.ball_contact.friction_law = law;
            }
            _ => {}
        }
    }
    if Section::Whole.numbers().any(|number| values.has(number.parameter().name)) {
        into.has.push(Section::Whole);
        put_numbers(Section::Whole, values, &mut into.equipment);
    }
    into
}

fn put_numbers(section: Section, values: &GroupValues, into: &mut Equipment) {
    for number in section.numbers() {
        if let Some(si) = values.number(number.parameter().name) {
            number.set(into, si);
        }
    }
}

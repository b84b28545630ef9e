//! A profile that may leave sections out, and how it is laid over a complete one.

use super::checks::check_together;
use super::fields::{GRAVITY, Otherwise};
use super::sections::{SectionEntries, Sections};
use crate::fault::Fault;
use crate::yaml::{Mapping, Reader, Source, read_quantity};
use railproof_engine::equipment::{BallContact, Cue, Equipment};

/// A profile with some or all of the sections.
#[derive(Debug, Clone)]
pub struct Partial {
    sections: Sections,
    source: Source,
}

impl Partial {
    pub(super) fn read(source: &Source) -> Result<Self, Fault> {
        let reader = Reader::default();
        let entries = SectionEntries::new(true);
        let sections = reader.read(source, Mapping { reader: &reader, entries })?;
        Ok(Self { sections, source: source.clone() })
    }

    pub(super) fn not_empty(self) -> Result<Self, Fault> {
        let Sections { table, ball, cloth, cushion, ball_contact, cue, gravity_m_s2, .. } =
            &self.sections;
        let nothing = table.is_none()
            && ball.is_none()
            && cloth.is_none()
            && cushion.is_none()
            && ball_contact.is_none()
            && cue.is_none()
            && gravity_m_s2.is_none();
        if nothing {
            return Err(Fault::bad_input("the profile has none of the sections")
                .at(self.source.beginning())
                .with_hint("give it a table, ball, cloth, cushion, ball_contact or cue"));
        }
        Ok(self)
    }

    /// What people call it.
    pub fn name(&self) -> &str {
        self.sections.name.as_deref().unwrap_or_default()
    }

    /// Its free description.
    pub fn about(&self) -> Option<&str> {
        self.sections.about.as_deref()
    }

    /// The equipment with this profile's sections in place of its own. It is called by both
    /// names.
    ///
    /// # Errors
    /// A [`Fault`] at this profile's field when sections do not go together, such as a nose too
    /// high for the ball.
    pub fn over(&self, base: &Equipment) -> Result<Equipment, Fault> {
        let sections = &self.sections;
        let equipment = Equipment {
            name: format!("{}, {}", base.name, self.name()),
            table: sections.table.unwrap_or(base.table),
            ball: sections.ball.unwrap_or(base.ball),
            cloth: sections.cloth.unwrap_or(base.cloth),
            cushion: sections.cushion.unwrap_or(base.cushion),
            ball_contact: sections.ball_contact.unwrap_or(base.ball_contact),
            cue: sections.cue.unwrap_or(base.cue),
            gravity_m_s2: sections.gravity_m_s2.unwrap_or(base.gravity_m_s2),
        };
        check_together(equipment, sections, &self.source, &[])
    }

    pub(super) fn complete(&self) -> Result<Equipment, Fault> {
        assemble(&self.sections, &self.source, &[])
    }
}

/// Equipment from a profile that must have the sections that hold a required field; `within` is the path of keys to the
/// profile inside its file.
pub(crate) fn assemble(
    sections: &Sections,
    source: &Source,
    within: &[String],
) -> Result<Equipment, Fault> {
    let missing = |section: &str| missing_section(section, source, within);
    let gravity = match (sections.gravity_m_s2, GRAVITY.otherwise) {
        (Some(gravity), _) => gravity,
        (None, Otherwise::Value(text)) => read_quantity(text, &GRAVITY.parameter)
            .map_err(|refusal| Fault::bad_input(refusal.message))?,
        (None, _) => return Err(missing("gravity")),
    };
    let equipment = Equipment {
        name: sections.name.clone().unwrap_or_else(|| "inline equipment".to_owned()),
        table: sections.table.ok_or_else(|| missing("table"))?,
        ball: sections.ball.ok_or_else(|| missing("ball"))?,
        cloth: sections.cloth.ok_or_else(|| missing("cloth"))?,
        cushion: sections.cushion.ok_or_else(|| missing("cushion"))?,
        ball_contact: sections.ball_contact.unwrap_or(BallContact::USUAL),
        cue: sections.cue.unwrap_or(Cue::USUAL),
        gravity_m_s2: gravity,
    };
    check_together(equipment, sections, source, within)
}

fn missing_section(section: &str, source: &Source, within: &[String]) -> Fault {
    let place = if within.is_empty() { source.beginning() } else { source.place_of(within) };
    Fault::bad_input(format!("the profile has no `{section}` section")).at(place).with_hint(
        "a complete profile has table, ball, cloth and cushion; one that leaves some out can only \
         be laid over a complete one",
    )
}

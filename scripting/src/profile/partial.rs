//! A profile that may leave sections out, laid over a complete one.

use super::checks::check_together;
use super::fields::PROFILE;
use super::lost_field;
use super::sections::{Sections, sections};
use crate::fault::Fault;
use crate::yaml::InputText;
use railproof_engine::equipment::Equipment;

/// A profile with some or all of the sections.
#[derive(Debug, Clone)]
pub struct Partial {
    sections: Sections,
    source: InputText,
}

impl Partial {
    pub(super) fn read(source: &InputText) -> Result<Self, Fault> {
        let read = source.read(&PROFILE).map_err(lost_field::with_lines)?;
        Ok(Self { sections: sections(&read), source: source.clone() })
    }

    pub(super) fn not_empty(self) -> Result<Self, Fault> {
        if self.sections.is_empty() {
            return Err(Fault::bad_input("the profile has none of the sections")
                .at(self.source.beginning())
                .with_hint("give it a table, ball, cloth, cushion, ball_contact or cue"));
        }
        Ok(self)
    }

    /// Its name for people.
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
        let mut equipment = self.sections.over(base);
        equipment.name = format!("{}, {}", base.name, self.name());
        check_together(equipment, &self.sections, &self.source, &[])
    }

    pub(super) fn complete(&self) -> Result<Equipment, Fault> {
        assemble(&self.sections, &self.source, &[])
    }
}

/// Equipment from a profile that must have the sections that hold a required field; `within` is the path of
/// keys to the profile inside its file.
pub(crate) fn assemble(
    sections: &Sections,
    source: &InputText,
    within: &[&str],
) -> Result<Equipment, Fault> {
    if let Some(section) = sections.missing() {
        return Err(missing_section(section.name(), source, within));
    }
    let mut equipment = sections.over(&Equipment::unset());
    equipment.name = sections.name.clone().unwrap_or_else(|| "inline equipment".to_owned());
    check_together(equipment, sections, source, within)
}

fn missing_section(section: &str, source: &InputText, within: &[&str]) -> Fault {
    let place = if within.is_empty() { source.beginning() } else { source.place_of(within) };
    Fault::bad_input(format!("the profile has no `{section}` section")).at(place).with_hint(
        "a complete profile has table, ball, cloth and cushion; one that leaves some out can only \
         be laid over a complete one",
    )
}

//! Players: how far a person's shots and readings fall from what was meant, in YAML files and by name.

mod fields;
mod shipped;
mod written;

pub(crate) use fields::{INLINE_PLAYER, PLAYER};
pub use shipped::{shipped_player_names, shipped_player_text};
pub use written::player_text;

use crate::fault::Fault;
use crate::fields::GroupValues;
use crate::renamed;
use crate::yaml::InputText;
use railproof_engine::chance::{Skill, SkillNumber};
use std::path::Path;

/// The player that is meant where nobody says another.
pub const USUAL_PLAYER: &str = "club";

/// A person, by name.
#[derive(Debug, Clone, PartialEq)]
pub struct PlayerProfile {
    /// What people call them.
    pub name: String,
    /// Their spreads.
    pub skill: Skill,
}

impl PlayerProfile {
    /// Of the values of the fields; numbers that are left out are those of `like`.
    pub(crate) fn of(values: &GroupValues, like: &Self) -> Self {
        let mut skill = like.skill;
        for number in SkillNumber::ALL {
            if let Some(si) = values.number(number.name()) {
                skill.set(number, si);
            }
        }
        let name = values.text("name").map_or_else(|| like.name.clone(), str::to_owned);
        Self { name, skill }
    }
}

/// The player that a person names: a shipped one by its bare name, or else a file, relative to `folder`.
///
/// # Errors
/// A [`Fault`] with its place: the file can't be read, or has a field that is missing, unknown, of another kind or
/// out of range; an unknown bare name is answered with the shipped ones.
pub fn find_player(reference: &str, folder: &Path) -> Result<PlayerProfile, Fault> {
    read(&find(reference, folder)?)
}

/// Reads a player from text; `label` is what messages call it.
///
/// # Errors
/// As [`find_player`].
pub fn parse_player(text: &str, label: &str) -> Result<PlayerProfile, Fault> {
    read(&InputText::new(label, text)?)
}

fn read(source: &InputText) -> Result<PlayerProfile, Fault> {
    let exact = PlayerProfile { name: String::new(), skill: Skill::EXACT };
    Ok(PlayerProfile::of(&source.read(&PLAYER)?, &exact))
}

fn find(reference: &str, folder: &Path) -> Result<InputText, Fault> {
    if let Some(text) = shipped_player_text(reference) {
        return InputText::new(&format!("{reference} (shipped)"), text);
    }
    let path = folder.join(reference);
    let is_bare = !reference.contains(['/', '\\', '.']);
    if is_bare && !path.exists() {
        let message = format!("there is no shipped player and no file named `{reference}`");
        let hint = renamed::hint_or_all(reference, shipped_player_names(), "shipped players");
        return Err(Fault::bad_input(message).with_hint(hint));
    }
    let opened = InputText::open(&path);
    if path.exists() {
        return opened;
    }
    let shipped = || shipped_player_names().find(|name| reference.starts_with(name));
    opened.map_err(|fault| {
        let hint = match shipped() {
            Some(name) => format!("the shipped player is called by its name: `{name}`"),
            None => renamed::hint_or_all("", shipped_player_names(), "shipped players"),
        };
        fault.with_hint(hint)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shipped_players_are_whole_and_of_growing_spreads() {
        let players: Vec<PlayerProfile> = shipped_player_names()
            .map(|name| {
                find_player(name, Path::new("")).unwrap_or_else(|fault| panic!("{fault:?}"))
            })
            .collect();
        assert_eq!(players.len(), 3);
        for number in SkillNumber::ALL {
            let values: Vec<f64> = players.iter().map(|it| it.skill.number(number)).collect();
            assert!(values.windows(2).all(|pair| pair[0] < pair[1]), "{}", number.name());
        }
        for (name, player) in shipped_player_names().zip(&players) {
            let text = shipped_player_text(name).unwrap_or_default();
            assert!(text.contains("invented") && !player.name.is_empty(), "{name}");
        }
    }

    #[test]
    fn an_unknown_player_is_answered_with_the_near_one() {
        let fault = find_player("clubb", Path::new("")).unwrap_err();
        assert!(fault.hint.unwrap_or_default().contains("club"));
    }
}

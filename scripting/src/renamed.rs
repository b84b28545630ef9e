//! Words that scenarios, layouts and profiles used before, and the words for them now. An old word is
//! an error that names the new one.

use crate::fault::nearest;

/// Each old word with the new ones, of which the first that is known at the place is meant.
const RENAMED: &[(&str, &[&str])] = &[
    ("on", &["equipment"]),
    ("model", &["rail_model"]),
    ("friction", &["nose_friction"]),
    ("cushion_friction", &["nose_friction"]),
    ("cloth_friction", &["impact_cloth_friction"]),
    ("side", &["running_side", "tip_side", "spin_side"]),
    ("height", &["tip_height"]),
    ("speed_at_rail", &["at_rail_speed"]),
    ("speed_left", &["arrival_speed"]),
    ("line_contact", &["contact"]),
    ("line_start", &["start"]),
    ("length", &["table_length"]),
    ("width", &["table_width"]),
];

/// The word that an unknown one is called by now, if it is among those that are known there.
pub fn renamed<'a>(old: &str, known: impl Iterator<Item = &'a str>) -> Option<&'static str> {
    let (_, words) = RENAMED.iter().find(|(word, _)| *word == old)?;
    let known: Vec<&str> = known.collect();
    words.iter().copied().find(|word| known.contains(word))
}

/// A hint for an unknown word: its new name, a near miss, or nothing.
pub fn hint<'a>(word: &str, known: impl Iterator<Item = &'a str> + Clone) -> Option<String> {
    if let Some(new) = renamed(word, known.clone()) {
        return Some(format!("`{word}` is now called `{new}`"));
    }
    nearest(word, known).map(|near| format!("did you mean `{near}`?"))
}

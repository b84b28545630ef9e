//! Words that scenarios, layouts and profiles used before, and the words for them now. An old word is
//! an error that names the new one.

use crate::fault::nearest;

/// Each old word with the new ones, of which the first that is known at the place is meant.
const RENAMED: &[(&str, &[&str])] = &[
    // Calls.
    ("sweep", &["grid", "shots"]),
    ("sampled", &["sample"]),
    // Options, keys and members.
    ("on", &["equipment"]),
    ("model", &["rail_model"]),
    ("friction", &["nose_friction"]),
    ("cushion_friction", &["nose_friction"]),
    ("cloth_friction", &["impact_cloth_friction"]),
    ("side", &["running_side", "tip_side", "spin_side"]),
    ("height", &["tip_height"]),
    ("speed_at_rail", &["at_rail_speed"]),
    ("speed_left", &["arrival_speed"]),
    ("aim", &["stroke_aim"]),
    ("line_contact", &["contact"]),
    ("line_start", &["start"]),
    ("length", &["table_length"]),
    ("width", &["table_width"]),
    ("along", &["send"]),
    ("between", &["from_to", "way", "ways"]),
    ("what", &["kind"]),
    ("how", &["ending"]),
    ("told", &["sentence"]),
    ("say", &["sentence"]),
    ("shows", &["sentence"]),
    ("expect_shot", &["expect"]),
    ("expect_shots", &["expect"]),
    ("holds_at_least", &["share_at_least"]),
    ("holds_at_most", &["share_at_most"]),
    ("share_made_within", &["share_within"]),
    ("share_made", &["share"]),
    ("drop", &["drops"]),
    ("miss", &["goes"]),
    ("kiss", &["kisses"]),
    ("clear", &["clears"]),
    // Fields of a profile's section, by their names beside those of all sections.
    ("diameter", &["ball_diameter"]),
    ("mass", &["ball_mass"]),
    ("end_mass", &["cue_end_mass"]),
    ("friction_at_0_1", &["ball_friction_at_0_1"]),
    ("friction_at_1", &["ball_friction_at_1"]),
    ("friction_at_10", &["ball_friction_at_10"]),
    ("friction_far", &["ball_friction_far"]),
    ("friction_rise", &["ball_friction_rise"]),
    ("friction_fall", &["ball_friction_fall"]),
    // Values.
    ("at_rest", &["at-rest"]),
    ("time_over", &["time-over"]),
    ("given_up", &["given-up"]),
    ("off_table", &["off-table"]),
];

/// Words that people use, with the words for them here.
const SAID_ELSEWHERE: &[(&str, &str)] = &[
    ("cm", "centimetres"),
    ("mm", "millimetres"),
    ("centimeters", "centimetres"),
    ("millimeters", "millimetres"),
    ("meters", "metres"),
    ("foot", "feet"),
    ("deg", "degrees"),
    ("diamonds", "sight"),
    ("corner", "foot-right"),
    ("side", "side-right"),
    ("foot-left", "corner"),
    ("foot-right", "corner"),
    ("head-left", "corner"),
    ("head-right", "corner"),
    ("side-left", "side"),
    ("side-right", "side"),
    ("left_side", "running_side"),
    ("right_side", "running_side"),
    ("side_spin", "running_side"),
    ("frozen", "off_rail"),
    ("running", "running_side"),
    ("reverse", "reverse_side"),
    ("distance", "off_rail"),
    ("off", "off_rail"),
    ("velocity", "speed"),
    ("power", "speed"),
    ("strength", "speed"),
    ("table_size", "equipment"),
    ("point", "contact"),
    ("target", "pocket"),
    ("made", "holds"),
    ("makes", "holds"),
    ("dropped", "holds"),
    ("drops", "holds"),
    ("in", "holds"),
    ("hit", "touches"),
    ("rattled", "touches"),
    ("draw", "tip_height"),
    ("follow", "tip_height"),
    ("left", "tip_side"),
    ("right", "tip_side"),
    ("english", "tip_side"),
    ("english", "running_side"),
    ("at", "position"),
    ("place", "position"),
    ("left-side", "side-left"),
    ("right-side", "side-right"),
    ("left side", "side-left"),
    ("right side", "side-right"),
    ("side left", "side-left"),
    ("side right", "side-right"),
    ("left corner", "foot-left"),
    ("left-corner", "foot-left"),
    ("corner left", "foot-left"),
    ("right corner", "foot-right"),
    ("right-corner", "foot-right"),
    ("corner right", "foot-right"),
    ("top left", "head-left"),
    ("top right", "head-right"),
    ("bottom left", "foot-left"),
    ("bottom right", "foot-right"),
    ("pocket_width", "corner_mouth"),
    ("mouth", "corner_mouth"),
    ("follow", "roll"),
    ("topspin", "roll"),
    ("backspin", "draw"),
    ("stop", "stun"),
    ("top", "roll"),
    ("natural", "roll"),
    ("back", "draw"),
    ("bottom", "draw"),
    ("screw", "draw"),
    ("slow", "soft"),
    ("gentle", "soft"),
    ("easy", "soft"),
    ("normal", "medium"),
    ("moderate", "medium"),
    ("fast", "firm"),
    ("hard", "firm"),
    ("seven-feet", "seven-foot"),
    ("side pocket", "side"),
    ("corner pocket", "corner"),
    ("side", "long"),
    ("top", "head"),
    ("bottom", "foot"),
    ("7 foot", "seven-foot"),
    ("8 foot", "eight-foot"),
    ("9 foot", "nine-foot"),
    ("7-foot", "seven-foot"),
    ("7ft", "seven-foot"),
    ("8-foot", "eight-foot"),
    ("8ft", "eight-foot"),
    ("9-foot", "nine-foot"),
    ("9ft", "nine-foot"),
];

/// Words for another hit, and the hint where one can be solved.
const HITS: [&str; 7] = ["thin", "thinner", "thick", "thicker", "full", "fuller", "undercut"];
const OVERCUT: &str = "overcut";
const HIT_IS_FOUND: &str = "`overcut` finds by itself how much thinner or fuller to hit: write it in place of \
                            `ghost`, `send` or `gear`, with the same words after it";

const NO_BALL_IN_A_WAY: &str = "a way is one of `to`, `line` and `angle`; in a scenario the ball that goes is the one \
                                meant for the pocket";

/// The word that an unknown one is called by now, if it is among those that are known there.
pub fn renamed<'a>(old: &str, known: impl Iterator<Item = &'a str>) -> Option<&'static str> {
    let (_, words) = RENAMED.iter().find(|(word, _)| *word == old)?;
    let known: Vec<&str> = known.collect();
    words.iter().copied().find(|word| known.contains(word))
}

/// A hint for an unknown word: its new name, a near miss, or nothing.
pub fn hint<'a>(word: &str, known: impl Iterator<Item = &'a str> + Clone) -> Option<String> {
    hint_in('`', word, known)
}

/// The word that an unknown one most likely means.
pub fn meant<'a>(word: &str, known: impl Iterator<Item = &'a str> + Clone) -> Option<&'a str> {
    renamed(word, known.clone())
        .or_else(|| said_elsewhere(word, known.clone()))
        .or_else(|| nearest(word, known))
}

/// The word here for one that people use, if it is among those that are known there.
pub fn said_elsewhere<'a>(
    word: &str,
    known: impl Iterator<Item = &'a str>,
) -> Option<&'static str> {
    let known: Vec<&str> = known.collect();
    let mut ours = SAID_ELSEWHERE.iter().filter(|(said, _)| *said == word).map(|(_, ours)| *ours);
    ours.find(|ours| known.contains(ours))
}

/// As [`hint`], for a word that stands in quotes.
pub fn quoted_hint<'a>(word: &str, known: impl Iterator<Item = &'a str> + Clone) -> Option<String> {
    hint_in('"', word, known)
}

/// As [`hint`], for a flag of the command line; the known ones are without their dashes.
pub fn flag_hint(flag: &str, known: &[&str]) -> Option<String> {
    let words: Vec<String> = known.iter().map(|flag| flag.replace('-', "_")).collect();
    let word = flag.trim_start_matches('-').replace('-', "_");
    hint_as(&word, words.iter().map(String::as_str), |word| {
        format!("`--{}`", word.replace('_', "-"))
    })
}

/// As [`hint`]; with nothing near, all words that are known after what they are.
pub fn hint_or_all<'a>(
    word: &str,
    known: impl Iterator<Item = &'a str> + Clone,
    all: &str,
) -> String {
    hint(word, known.clone())
        .unwrap_or_else(|| format!("{all}: {}", known.collect::<Vec<_>>().join(", ")))
}

fn hint_in<'a>(
    quote: char,
    word: &str,
    known: impl Iterator<Item = &'a str> + Clone,
) -> Option<String> {
    hint_as(word, known, |word| format!("{quote}{word}{quote}"))
}

fn hint_as<'a>(
    word: &str,
    known: impl Iterator<Item = &'a str> + Clone,
    shown: impl Fn(&str) -> String,
) -> Option<String> {
    if let Some(new) = renamed(word, known.clone()) {
        return Some(format!("{} is called {} here", shown(word), shown(new)));
    }
    if let Some(ours) = said_elsewhere(word, known.clone()) {
        return Some(format!("did you mean {}?", shown(ours)));
    }
    if HITS.contains(&word) && known.clone().any(|known| known == OVERCUT) {
        return Some(HIT_IS_FOUND.to_owned());
    }
    let knows = |word: &str| known.clone().any(|known| known == word);
    if word == "ball" && knows("tip_height") {
        return Some("leave it out: the ball that goes is the one meant for the pocket".to_owned());
    }
    if word == "ball" && knows("line") && knows("angle") {
        return Some(NO_BALL_IN_A_WAY.to_owned());
    }
    nearest(word, known).map(|near| format!("did you mean {}?", shown(near)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_known_words_decide_which_new_word_is_meant() {
        let of = |known: &[&'static str]| hint("side", known.iter().copied());
        assert_eq!(
            of(&["speed", "spin_side"]).as_deref(),
            Some("`side` is called `spin_side` here")
        );
        assert_eq!(of(&["speed", "tip_side"]).as_deref(), Some("`side` is called `tip_side` here"));
        assert_eq!(of(&["speed", "gravity"]), None);
    }

    #[test]
    fn a_word_that_never_was_gets_its_near_miss() {
        assert_eq!(hint("sped", ["speed"].into_iter()).as_deref(), Some("did you mean `speed`?"));
        let value = quoted_hint("at_rest", ["at-rest"].into_iter());
        assert_eq!(value.as_deref(), Some("\"at_rest\" is called \"at-rest\" here"));
    }

    #[test]
    fn a_thinner_hit_is_left_to_overcut() {
        let of = |word| hint(word, ["ghost", "overcut"].into_iter()).unwrap_or_default();
        assert!(HITS.iter().all(|word| of(word).starts_with("`overcut` finds by itself")));
    }

    #[test]
    fn a_flag_is_told_by_its_new_name_with_its_dashes() {
        let of = |flag: &str| flag_hint(flag, &["running-side", "rail-model", "json"]);
        assert_eq!(of("--side").as_deref(), Some("`--side` is called `--running-side` here"));
        assert_eq!(of("--model").as_deref(), Some("`--model` is called `--rail-model` here"));
        assert_eq!(of("--jsn").as_deref(), Some("did you mean `--json`?"));
        assert_eq!(of("--colour"), None);
    }
}

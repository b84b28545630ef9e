//! The name a person most likely meant.

/// Words longer than this get no suggestion; they are not slips of the finger.
const LONGEST_WORD: usize = 64;

/// The candidate nearest to a misspelt word, when one is near enough to be worth suggesting:
/// one slip in words of up to four letters, two in words of up to eight, three in longer ones; an
/// ending of up to two letters too few or too many is a slip as well (`inch` for `inches`).
/// Case and the difference between `_`, `-` and a space do not count as slips.
///
/// ```
/// use railproof::fault::nearest;
/// assert_eq!(nearest("restitutoin", ["friction", "restitution"]), Some("restitution"));
/// assert_eq!(nearest("colour", ["friction", "restitution"]), None);
/// ```
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = word.chars().count();
    if length > LONGEST_WORD {
        return None;
    }
    let allowed = match length {
        0..=4 => 1,
        5..=8 => 2,
        _ => 3,
    };
    let plain = plain(word);
    candidates
        .into_iter()
        .filter(|candidate| candidate.len() <= 4 * LONGEST_WORD)
        .map(|candidate| (strsim::osa_distance(&plain, &self::plain(candidate)), candidate))
        .filter(|&(distance, candidate)| {
            // A slip that replaces the whole word is no slip.
            (distance <= allowed || other_ending(&plain, &self::plain(candidate)))
                && distance < candidate.chars().count().max(1)
        })
        .min_by_key(|&(distance, _)| distance)
        .map(|(_, candidate)| candidate)
}

/// Whether two words of at least three letters differ by up to two letters at the end.
fn other_ending(one: &str, other: &str) -> bool {
    let (short, long) = if one.len() < other.len() { (one, other) } else { (other, one) };
    short.chars().count() >= 3
        && long.strip_prefix(short).is_some_and(|ending| ending.chars().count() <= 2)
}

fn plain(word: &str) -> String {
    word.chars()
        .map(|letter| if matches!(letter, '_' | ' ') { '-' } else { letter })
        .flat_map(char::to_lowercase)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn case_and_joints_are_no_slips() {
        assert_eq!(nearest("Nose Height", ["nose_height", "name"]), Some("nose_height"));
        assert_eq!(nearest("NOSE_AND_CLOTH", ["nose-and-cloth"]), Some("nose-and-cloth"));
    }

    #[test]
    fn a_forgotten_ending_is_a_slip() {
        assert_eq!(nearest("inch", ["cm", "inches"]), Some("inches"));
        assert_eq!(nearest("spins", ["speed", "spin"]), Some("spin"));
        assert_eq!(nearest("mm", ["mmHg"]), None);
    }

    #[test]
    fn the_nearest_of_several_wins() {
        assert_eq!(nearest("widht", ["length", "width"]), Some("width"));
        assert_eq!(nearest("x", ["m", "s"]), None);
        assert_eq!(nearest("", ["m"]), None);
    }
}

//! Chances in words and in hundredths, with their errors.

use railproof_engine::ask::PairedDifference;
use railproof_engine::chance::Chance;

/// In place of a chance that is as good as none.
const HARDLY_EVER: &str = "hardly ever";

/// What somebody makes of it: `makes it about 28 in 100`.
pub(super) fn makes_words(chance: Chance) -> String {
    match about_words(chance) {
        told if told == HARDLY_EVER => format!("{told} makes it"),
        told => format!("makes it {told}"),
    }
}

/// A chance as it is told in passing: `about 28 in 100`, and `about 28 ±2 in 100` where twice its error is seen in that.
pub(super) fn about_words(chance: Chance) -> String {
    let error = (200.0 * chance.error).round();
    let error = if error >= 1.0 { format!(" ±{error}") } else { String::new() };
    rounded(chance, "about ", &error)
}

/// The same where there is no room for a word more: `31 in 100`.
pub fn times_words(chance: Chance) -> String {
    rounded(chance, "", "")
}

fn rounded(chance: Chance, before: &str, error: &str) -> String {
    match (100.0 * chance.chance).round() {
        0.0 => HARDLY_EVER.to_owned(),
        100.0 => "nearly always".to_owned(),
        whole => format!("{before}{whole}{error} in 100"),
    }
}

/// A chance in hundredths, with twice its error; one that nobody could tell from none or from all is told as such.
pub fn chance_words(chance: Chance) -> String {
    if chance.chance < NEARLY {
        "less than 0.1".to_owned()
    } else if chance.chance > 1.0 - NEARLY {
        "more than 99.9".to_owned()
    } else {
        format!("{} ±{}", hundredths(chance.chance), error_words(chance.error))
    }
}

/// A chance this near to none or to all is rounded to it, which it isn't.
const NEARLY: f64 = 0.0005;

/// A difference likewise.
pub fn behind_words(behind: PairedDifference) -> String {
    let size = hundredths(behind.difference.abs());
    let sign = if behind.difference < 0.0 && size != "0.0" { "-" } else { "" };
    format!("{sign}{size} ±{}", error_words(behind.error))
}

/// Twice an error in hundredths, never rounded down to nothing.
fn error_words(error: f64) -> String {
    let tenths = (2000.0 * error).ceil().max(1.0);
    format!("{:.1}", tenths / 10.0)
}

/// A share in hundredths.
pub(super) fn hundredths(share: f64) -> String {
    format!("{:.1}", 100.0 * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_chance_is_told_surer_than_it_is() {
        let told = |chance: f64, error: f64| chance_words(Chance { chance, error });
        assert_eq!(told(1.0, 0.0), "more than 99.9");
        assert_eq!(told(0.9997, 0.0), "more than 99.9");
        assert_eq!(told(0.0, 0.0), "less than 0.1");
        assert_eq!(told(0.0012, 1e-9), "0.1 ±0.1");
        assert_eq!(told(0.999, 0.0), "99.9 ±0.1");
        assert_eq!(told(0.4527, 0.0009), "45.3 ±0.2");
    }

    #[test]
    fn an_error_is_told_in_passing_where_it_is_seen() {
        let told = |error: f64| about_words(Chance { chance: 0.284, error });
        assert_eq!(told(0.0004), "about 28 in 100");
        assert_eq!(told(0.011), "about 28 ±2 in 100");
    }

    #[test]
    fn a_difference_that_is_rounded_to_nothing_has_no_sign() {
        let told = |difference: f64| behind_words(PairedDifference { difference, error: 0.0 });
        assert_eq!(told(-0.0003), "0.0 ±0.1");
        assert_eq!(told(-0.003), "-0.3 ±0.1");
    }
}

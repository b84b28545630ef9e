//! Amounts inside a sentence.

use super::amounts::grouped;
use crate::layout::{CUE, OBJECT};
use railproof_engine::units::{DEGREE_RAD, Dimension, INCH_M, short_number as short};
use std::borrow::Cow;

/// From here on lengths are told in whole millimetres, mm.
pub(super) const WHOLE_FROM_MM: f64 = 9.95;

/// A length on a table: tenths of a millimetre below a centimetre.
pub fn millimetres(metres: f64) -> String {
    let mm = 1e3 * metres;
    if mm >= WHOLE_FROM_MM { format!("{mm:.0} mm") } else { format!("{mm:.1} mm") }
}

/// The same with a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The same without a capital.
pub(super) fn uncapital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// A value of the data in a sentence: `missed long`, for `missed-long`.
pub fn phrase(value: &str) -> String {
    value.replace('-', " ")
}

/// A share in whole per cent.
pub fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// A share as whole per cent that never says all or none unless it is.
pub fn share_of(part: u64, whole: u64) -> String {
    if whole == 0 {
        return "0 %".to_owned();
    }
    let percent = 100.0 * part as f64 / whole as f64;
    match percent.round() {
        _ if part == 0 => "0 %".to_owned(),
        _ if part == whole => "100 %".to_owned(),
        rounded if rounded < 1.0 => "under 1 %".to_owned(),
        rounded if rounded > 99.0 => "over 99 %".to_owned(),
        rounded => format!("{rounded} %"),
    }
}

/// Units that stay on the line of their number.
const UNITS: [&str; 16] = [
    "m/s", "km/h", "mph", "ft/s", "in", "ft", "mm", "cm", "m", "ms", "s", "%", "mrad", "deg",
    "diamonds", "times",
];

/// The parts of a text between which a line may end: a number stays with its unit or its fraction, a product whole.
pub fn unbroken(text: &str) -> Vec<&str> {
    let mut parts: Vec<&str> = Vec::new();
    let mut before = "";
    let offset = |part: &str| part.as_ptr() as usize - text.as_ptr() as usize;
    for word in text.split_whitespace() {
        match parts.last_mut() {
            Some(part) if stay_together(before, word) => {
                *part = &text[offset(part)..offset(word) + word.len()];
            }
            _ => parts.push(word),
        }
        before = word;
    }
    parts
}

fn stay_together(before: &str, after: &str) -> bool {
    if before == "×" {
        return true;
    }
    let number = before.trim_start_matches(['(', '+', '-', '−', '±']);
    let digit = |letter: Option<char>| letter.is_some_and(|it| it.is_ascii_digit());
    if !digit(number.chars().next()) || !digit(number.chars().last()) {
        return false;
    }
    let unit = after.trim_end_matches(['.', ',', ';', ':', ')']);
    let is_fraction = digit(unit.chars().next()) && unit.contains('/');
    is_fraction || after == "×" || UNITS.contains(&unit)
}

/// An angle in whole tenths of a degree.
pub fn degrees(radians: f64) -> String {
    short(radians / DEGREE_RAD, 1)
}

/// A count and its thing, in the right number.
pub fn count(number: impl Into<u128>, one: &str, many: &str) -> String {
    let number = number.into();
    format!("{number} {}", if number == 1 { one } else { many })
}

/// The same with its thousands apart: `1,541,124 banks`.
pub fn grouped_count(number: u64, one: &str, many: &str) -> String {
    format!("{} {}", grouped(number), if number == 1 { one } else { many })
}

/// A list as it is spoken: `a, b and c`.
pub fn joined(parts: &[String]) -> String {
    match parts {
        [rest @ .., last] if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => parts.concat(),
    }
}

/// SI values of one kind with the unit people would use, such as `0, 4 and 12 in`; many are told
/// by their ends.
pub fn values(values: &[f64], dimension: Dimension) -> String {
    let (scale, unit, decimals) = unit_for(values, dimension);
    let shown: Vec<String> = values.iter().map(|value| short(value / scale, decimals)).collect();
    let list = match shown.as_slice() {
        [one] => one.clone(),
        [first, second] => format!("{first} and {second}"),
        [first, second, third] => format!("{first}, {second} and {third}"),
        many => {
            let least = values.iter().copied().fold(f64::INFINITY, f64::min) / scale;
            let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max) / scale;
            let (least, most) = (short(least, decimals), short(most, decimals));
            return format!("{least} to {most}{} ({} values)", spaced(unit), many.len());
        }
    };
    format!("{list}{}", spaced(unit))
}

fn spaced(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(" {unit}") }
}

/// Scale, unit and decimals. Lengths are told in inches when they are whole inches, or quarters of
/// one and not whole millimetres: those were meant as inches.
fn unit_for(values: &[f64], dimension: Dimension) -> (f64, &'static str, usize) {
    let whole = |scale: f64| {
        values.iter().all(|value| ((value / scale) - (value / scale).round()).abs() < 1e-6)
    };
    let zero = values.iter().all(|value| *value == 0.0);
    let inches = whole(INCH_M) || (!whole(1e-3) && whole(0.25 * INCH_M));
    match dimension {
        Dimension::Length if inches && !zero => (INCH_M, "in", 2),
        Dimension::Length => (1e-3, "mm", 1),
        Dimension::Angle => (1e-3, "mrad", 2),
        Dimension::Time => (1e-3, "ms", 2),
        other => (1.0, other.si_symbol(), 4),
    }
}

/// A ball by its name in a layout, as people say it: `the cue ball`.
pub(super) fn ball_words(name: &str) -> Cow<'_, str> {
    match name {
        CUE | OBJECT => Cow::Owned(format!("the {name} ball")),
        other => Cow::Borrowed(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_never_claims_all_or_none_by_rounding() {
        assert_eq!(share_of(0, 7), "0 %");
        assert_eq!(share_of(7, 7), "100 %");
        assert_eq!(share_of(1, 100_000), "under 1 %");
        assert_eq!(share_of(99_999, 100_000), "over 99 %");
        assert_eq!(share_of(1, 3), "33 %");
        assert_eq!(share_of(0, 0), "0 %");
    }

    #[test]
    fn a_line_ends_neither_in_a_number_nor_before_its_unit() {
        assert_eq!(
            unbroken("long by  1 1/2 in at 3.28 m/s, 2.2 × contact, in 4 of 10."),
            ["long", "by", "1 1/2 in", "at", "3.28 m/s,", "2.2 × contact,", "in", "4", "of", "10."]
        );
        assert_eq!(unbroken(" (−2 1/4 in). 3, in"), ["(−2 1/4 in).", "3,", "in"]);
        assert!(unbroken(" ").is_empty());
    }

    #[test]
    fn lengths_come_in_the_unit_they_were_meant_in() {
        let inches = [0.0, 4.0 * INCH_M, 12.0 * INCH_M];
        assert_eq!(values(&inches, Dimension::Length), "0, 4 and 12 in");
        assert_eq!(values(&[0.0, 5.0 * INCH_M], Dimension::Length), "0 and 5 in");
        assert_eq!(values(&[2.25 * INCH_M], Dimension::Length), "2.25 in");
        assert_eq!(values(&[0.0, 0.3], Dimension::Length), "0 and 300 mm");
        assert_eq!(values(&[0.0], Dimension::Length), "0 mm");
        assert_eq!(values(&[2.0, 3.0, 4.0, 6.0], Dimension::Speed), "2 to 6 m/s (4 values)");
    }
}

//! A written value is read as its field's kind, whatever language it was written in.

use super::group::{FieldKind, listed};
use super::scalar::{Mismatch, Scalar};
use super::values::FieldValue;
use super::words::words;
use super::writing::{Example, Writing};
use crate::fault::is_plain;
use crate::renamed;
use railproof_engine::bank::Launch;
use railproof_engine::equipment::Parameter;
use railproof_engine::sweep::Input;
use railproof_engine::units::{
    Dimension, Speed, SpeedWord, leading_number, short_number, unit_of_length,
};

/// Longest name that a person may give to anything.
const LONGEST_NAME: usize = 100;
/// A free description of a few paragraphs.
const LONGEST_TEXT: usize = 20_000;

/// Whether a text says that a ball lies at its rail.
pub(crate) fn is_frozen(parameter: &Parameter, text: Option<&str>) -> bool {
    parameter.name == Launch::OFF_RAIL.name && text.is_some_and(|text| text.trim() == "frozen")
}

/// An SI value that a parameter accepts; `shown` is how it was written.
pub(crate) fn in_range(parameter: &Parameter, si: f64, shown: &str) -> Result<f64, Mismatch> {
    parameter.check(si).map_err(|refused| {
        let (low, high) = match (parameter.dimension, unit_of_length(shown)) {
            (Dimension::Length, unit @ ("in" | "ft" | "cm")) => limits_in(parameter, unit),
            _ => (refused.low, refused.high),
        };
        let mismatch = Mismatch::content(format!("is {shown}; it must be from {low} to {high}"));
        match in_another_unit(parameter, shown) {
            Some(meant) => mismatch.with_hint(format!("did you mean {meant}?")),
            None => mismatch,
        }
    })
}

/// The same amount in the one other unit in which a length would be in range.
fn in_another_unit(parameter: &Parameter, shown: &str) -> Option<String> {
    let (amount, _) = leading_number(shown).filter(|_| parameter.dimension == Dimension::Length)?;
    let meant = |unit: &&str| parameter.check(amount * Dimension::Length.si_of(unit)).is_ok();
    let mut units = LENGTH_UNITS.iter().filter(|unit| meant(unit));
    let unit = units.next().filter(|_| amount != 0.0 && units.next().is_none())?;
    Some(format!("{} {unit}", short_number(amount, 4)))
}

/// Units in which people write a length.
const LENGTH_UNITS: [&str; 5] = ["in", "ft", "mm", "cm", "m"];

/// A length's limits in another unit, rounded into the range.
fn limits_in(parameter: &Parameter, unit: &str) -> (String, String) {
    let Parameter { dimension, low, high, .. } = *parameter;
    let hundredths = 100.0 * dimension.si_of(parameter.unit) / dimension.si_of(unit);
    let told = |hundredths: f64| format!("{} {unit}", short_number(hundredths / 100.0, 2));
    (told((low * hundredths).ceil()), told((high * hundredths).floor()))
}

/// Checks a name that a person gives to something; the message follows what it is a name of.
pub(crate) fn check_name(text: &str) -> Result<(), Mismatch> {
    if text.trim().is_empty() {
        return Err(Mismatch::content("is empty"));
    }
    if text.chars().count() > LONGEST_NAME {
        return Err(Mismatch::content(format!("is longer than {LONGEST_NAME} characters")));
    }
    if !text.chars().all(is_plain) {
        return Err(Mismatch::content("takes one line of plain text"));
    }
    Ok(())
}

/// Checks a name that a file holds and that may be put together of others; the message follows what it is a name of.
pub(crate) fn check_kept_name(text: &str) -> Result<(), Mismatch> {
    if text.len() > LONGEST_TEXT {
        return Err(Mismatch::content(format!("is longer than {LONGEST_TEXT} bytes")));
    }
    if !text.chars().all(is_plain) {
        return Err(Mismatch::content("takes one line of plain text"));
    }
    Ok(())
}

impl FieldKind {
    /// Reads a single value. Lists and groups are for the languages' own front ends.
    pub(crate) fn read<S: Scalar>(&self, scalar: &S) -> Result<FieldValue, Mismatch> {
        let other_sort = || Mismatch::other_sort(&self.expected(S::WRITING), scalar);
        let number = |parameter: &Parameter| {
            if is_frozen(parameter, scalar.text().as_deref()) {
                return Ok(FieldValue::Number(0.0));
            }
            let (si, shown) = scalar.quantity(parameter)?;
            in_range(parameter, si, &shown).map(FieldValue::Number)
        };
        let speed = |parameter: &Parameter| {
            let (speed, shown) = scalar.speed(parameter)?;
            match (speed, Input::Lag.parameter()) {
                (Speed::MetresPerSecond(m_s), _) => {
                    in_range(parameter, m_s, &shown).map(FieldValue::Number)
                }
                (Speed::TableLengths(count), Some(lag)) => {
                    in_range(&lag, count, &shown).map(FieldValue::Lengths)
                }
                _ => Err(other_sort()),
            }
        };
        let one_of = |words: &[&'static str]| {
            place_among(scalar, words).map(|at| FieldValue::Word(words[at]))
        };
        match *self {
            Self::Number(ref parameter) => number(parameter),
            Self::NumberOr(ref parameter, word) => match scalar.text() {
                Some(text) if text == word => Ok(FieldValue::Word(word)),
                // In YAML a number is a text too.
                Some(text) if !text.contains(|letter: char| letter.is_ascii_digit()) => {
                    Err(other_sort())
                }
                _ => number(parameter),
            },
            Self::Speed(ref parameter) => match scalar.text() {
                Some(text) if !text.contains(|letter: char| letter.is_ascii_digit()) => {
                    let words = words::<SpeedWord>();
                    place_among(scalar, &words)
                        .map(|at| FieldValue::Word(words[at]))
                        .map_err(|mismatch| Mismatch { hint: mismatch.hint, ..other_sort() })
                }
                _ => speed(parameter),
            },
            Self::PlainSpeed(ref parameter) => speed(parameter),
            Self::Word(words) => one_of(&words()),
            Self::WordOr(word, _) => one_of(&[word]),
            Self::Flag => scalar.truth().map(FieldValue::Flag).ok_or_else(other_sort),
            Self::Name | Self::NameOr(..) => {
                let text = scalar.text().ok_or_else(other_sort)?;
                check_name(&text)?;
                Ok(FieldValue::Text(text.trim().to_owned()))
            }
            Self::Text => {
                let text = scalar.text().ok_or_else(other_sort)?;
                if text.len() > LONGEST_TEXT {
                    let message = format!("is longer than {LONGEST_TEXT} bytes");
                    return Err(Mismatch::content(message));
                }
                Ok(FieldValue::Text(text.trim().to_owned()))
            }
            _ => Err(other_sort()),
        }
    }

    /// The kind of a list's items.
    pub(crate) fn item(&self) -> Option<Self> {
        match *self {
            Self::Vector { each, .. } => Some(Self::Number(each)),
            Self::Points { each, .. } => Some(Self::Vector { each, count: 2, whole: false }),
            Self::Two(kind) => Some(*kind),
            _ => None,
        }
    }

    /// A list of values that are each of their kind.
    pub(crate) fn gathered(
        &self,
        items: Vec<FieldValue>,
        writing: Writing,
    ) -> Result<FieldValue, Mismatch> {
        match self {
            Self::Vector { count, each, .. } if items.len() != *count => {
                let axes = if *count == 2 { "x and y" } else { "x, y and z" };
                let zeros = vec![writing.quantity(0.0, each.unit); *count].join(", ");
                let zeros = match writing {
                    Writing::Lua => format!("{{ {zeros} }}"),
                    Writing::Yaml => format!("[{zeros}]"),
                };
                let message = format!("takes {count} quantities, not {}", items.len());
                return Err(Mismatch::content(message).with_hint(format!("along {axes}: {zeros}")));
            }
            Self::Vector { each, whole: true, .. } => {
                let square = |item: &FieldValue| match item {
                    FieldValue::Number(number) => number * number,
                    _ => 0.0,
                };
                let long = items.iter().map(square).sum::<f64>().sqrt();
                if long > each.high * (1.0 + 1e-12) {
                    let (high, unit) = (each.high, each.unit);
                    let message = format!("is {long:.3} {unit} in all; at most {high} {unit}");
                    return Err(Mismatch::content(message));
                }
            }
            Self::Points { most, .. } if items.len() > *most => {
                let message = format!("has {} points; at most {most}", items.len());
                return Err(Mismatch::content(message));
            }
            Self::Two(_) if items.len() != 2 => {
                const BOTH: Example =
                    Example::List(&[Example::Word("object"), Example::Word("cue")]);
                return Err(Mismatch::content("takes two places")
                    .with_hint(format!("for instance {}", writing.code(&BOTH))));
            }
            _ => {}
        }
        Ok(FieldValue::List(items))
    }
}

/// The place of a written word among those that are known.
pub(crate) fn place_among<S: Scalar>(scalar: &S, words: &[&str]) -> Result<usize, Mismatch> {
    let expected = listed(words, S::WRITING);
    let text = scalar.text().ok_or_else(|| Mismatch::other_sort(&expected, scalar))?;
    // The trade says short rail as well as end rail.
    let meant = match text.as_str() {
        "short" if words.contains(&"end") && !words.contains(&"short") => "end",
        other => other,
    };
    if let Some(at) = words.iter().position(|word| *word == meant) {
        return Ok(at);
    }
    let message = format!("must be {expected}, not {}", scalar.described());
    let mismatch = Mismatch::content(message);
    let known = words.iter().copied();
    let hint = match S::WRITING {
        Writing::Lua => renamed::quoted_hint(&text, known),
        Writing::Yaml => renamed::hint(&text, known),
    };
    Err(match hint {
        Some(hint) => mismatch.with_hint(hint),
        None => mismatch,
    })
}

//! Single values: a quantity with its unit, a text, one of a few words.
//!
//! All are taken as the text that was written, whatever type YAML would make of it, so that
//! `012`, `0x1F`, `1e3`, `.inf` and `yes` mean the same here as anywhere else: nothing special.

use super::{Reader, Refusal, mapping::shortened, with_article};
use crate::fault::nearest;
use crate::renamed;
use railproof_engine::equipment::Parameter;
use railproof_engine::units::{Dimension, QuantityError, parse_quantity};
use serde::de::{DeserializeSeed, Deserializer, Error, Visitor};
use std::fmt;

/// No quantity needs more characters.
const LONGEST_QUANTITY: usize = 60;
/// Longest name a person may give to anything.
const LONGEST_NAME: usize = 100;
/// A free description of a few paragraphs.
const LONGEST_TEXT: usize = 20_000;

/// A quantity within a parameter's range; its value is in SI units.
pub(crate) struct QuantityField<'r> {
    pub(crate) reader: &'r Reader,
    pub(crate) parameter: Parameter,
}

/// Reads a quantity as it is written in a file and checks it against its parameter's range.
pub(crate) fn read_quantity(text: &str, parameter: &Parameter) -> Result<f64, Refusal> {
    let Parameter { name, dimension, .. } = *parameter;
    let shown = shortened(text.trim());
    let kind = with_article(dimension.name());
    if shown.is_empty() {
        return Err(Refusal::new(format!("`{name}` is empty; it takes {kind}"))
            .with_hint(range_in_words(parameter)));
    }
    if text.chars().count() > LONGEST_QUANTITY {
        return Err(Refusal::new(format!("`{shown}` is too long to be {kind}")));
    }
    if let Some(plain) = without_leading_zeros(text.trim()) {
        return Err(Refusal::new(format!("`{name}`: `{shown}` begins with a needless zero"))
            .with_hint(format!(
                "some programs would read it in base eight; write `{plain}` if that is meant"
            )));
    }
    let value = parse_quantity(text, dimension).map_err(|error| {
        let refusal = Refusal::new(format!("`{name}`: {error}"));
        match unit_hint(&error, text, dimension) {
            Some(hint) => refusal.with_hint(hint),
            None => refusal,
        }
    })?;
    // The engine's own message shows the value converted; here the text as written reads better.
    parameter.check(value).map_err(|_| {
        Refusal::new(format!("`{name}` cannot be {shown}: {}", range_in_words(parameter)))
    })
}

fn range_in_words(parameter: &Parameter) -> String {
    let Parameter { low, high, unit, .. } = parameter;
    let show = |number: &f64| format!("{number} {unit}").trim_end().to_owned();
    format!("it must be from {} to {}", show(low), show(high))
}

/// The text without leading zeros, when it has some that make it look like another base.
fn without_leading_zeros(text: &str) -> Option<String> {
    let (sign, digits) = match text.strip_prefix(['-', '+']) {
        Some(digits) => (&text[..1], digits),
        None => ("", text),
    };
    let rest = digits.trim_start_matches('0');
    let needless = digits.len() > rest.len() && rest.starts_with(|c: char| c.is_ascii_digit());
    let all_zeros = digits.starts_with("00");
    match (needless, all_zeros) {
        (true, _) => Some(format!("{sign}{rest}")),
        (false, true) => Some(format!("{sign}0{rest}")),
        (false, false) => None,
    }
}

fn unit_hint(error: &QuantityError, text: &str, dimension: Dimension) -> Option<String> {
    let QuantityError::WrongUnit { unit, .. } = error else { return None };
    if unit.starts_with(',') {
        return Some(format!("decimals take a point: `{}`", text.trim().replacen(',', ".", 1)));
    }
    nearest(unit, dimension.units().iter().map(|unit| unit.symbol))
        .map(|near| format!("did you mean `{near}`?"))
}

impl<'de> DeserializeSeed<'de> for QuantityField<'_> {
    type Value = f64;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<f64, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for QuantityField<'_> {
    type Value = f64;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}", with_article(self.parameter.dimension.name()))?;
        match self.parameter.unit {
            "" => Ok(()),
            unit => write!(formatter, " such as `{} {unit}`", self.parameter.high),
        }
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<f64, E> {
        read_quantity(text, &self.parameter).map_err(|refusal| self.reader.refuse(refusal))
    }
}

/// A text for people. A name is one short line; a description may be longer.
pub(crate) struct Text<'r> {
    pub(crate) reader: &'r Reader,
    pub(crate) name: &'static str,
    pub(crate) one_line: bool,
}

/// Checks a name that a person gives to something.
pub(crate) fn check_name(field: &str, text: &str) -> Result<(), Refusal> {
    if text.trim().is_empty() {
        return Err(Refusal::new(format!("{field} is empty")));
    }
    if text.chars().count() > LONGEST_NAME {
        return Err(Refusal::new(format!("{field} is longer than {LONGEST_NAME} characters")));
    }
    if text.chars().any(char::is_control) {
        return Err(Refusal::new(format!("{field} takes one line of plain text")));
    }
    Ok(())
}

impl<'de> DeserializeSeed<'de> for Text<'_> {
    type Value = String;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<String, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for Text<'_> {
    type Value = String;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "the text of `{}`", self.name)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<String, E> {
        let field = format!("`{}`", self.name);
        let checked = if self.one_line {
            check_name(&field, text)
        } else if text.len() > LONGEST_TEXT {
            Err(Refusal::new(format!("{field} is longer than {LONGEST_TEXT} bytes")))
        } else {
            Ok(())
        };
        checked.map_err(|refusal| self.reader.refuse(refusal))?;
        Ok(text.trim().to_owned())
    }
}

/// One of a few words; its value is the word's index.
pub(crate) struct WordOf<'r> {
    pub(crate) reader: &'r Reader,
    pub(crate) name: &'static str,
    pub(crate) words: &'r [&'static str],
}

impl<'de> DeserializeSeed<'de> for WordOf<'_> {
    type Value = usize;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<usize, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for WordOf<'_> {
    type Value = usize;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "one of {}", self.words.join(", "))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<usize, E> {
        if let Some(index) = self.words.iter().position(|&word| word == text) {
            return Ok(index);
        }
        let refusal = Refusal::new(format!(
            "`{}` cannot be `{}`; it is one of {}",
            self.name,
            shortened(text),
            self.words.join(", ")
        ));
        Err(self.reader.refuse(match renamed::hint(text, self.words.iter().copied()) {
            Some(hint) => refusal.with_hint(hint),
            None => refusal,
        }))
    }
}

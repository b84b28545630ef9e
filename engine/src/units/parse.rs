//! Text such as `12 in` to an SI number.

use super::{Dimension, in_si};
use thiserror::Error;

fn article(word: &str) -> &'static str {
    if word.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}

/// Why a text is not a quantity of the wanted kind.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum QuantityError {
    /// There is no number in front.
    #[error("`{text}` does not begin with a number")]
    NotANumber {
        /// The text as written.
        text: String,
    },
    /// The number is infinite or not a number.
    #[error("`{text}` is not a finite number")]
    NotFinite {
        /// The text as written.
        text: String,
    },
    /// A number without the unit it needs.
    #[error("`{text}` has no unit; {} {dimension} is written like `{example}`", article(dimension))]
    MissingUnit {
        /// The text as written.
        text: String,
        /// The wanted kind, in words.
        dimension: &'static str,
        /// A correct way to write it.
        example: String,
    },
    /// A unit of another kind, or none known.
    #[error("`{unit}` is not a unit of {dimension}; use one of: {accepted}")]
    WrongUnit {
        /// The unit that was written.
        unit: String,
        /// The wanted kind, in words.
        dimension: &'static str,
        /// The accepted spellings.
        accepted: String,
    },
}

/// Reads a quantity of the given kind and returns its SI value.
///
/// The number comes first, then the unit, with or without a space between.
///
/// # Errors
/// A [`QuantityError`] when the number is missing or not finite, or the unit is missing or of
/// another kind.
///
/// ```
/// use railproof_engine::units::{Dimension, parse_quantity};
/// assert_eq!(parse_quantity("12 in", Dimension::Length).unwrap(), 0.3048);
/// assert!(parse_quantity("12 m/s", Dimension::Length).is_err());
/// ```
pub fn parse_quantity(text: &str, dimension: Dimension) -> Result<f64, QuantityError> {
    let trimmed = text.trim();
    let (number_text, unit_text) = split_number(trimmed);
    let Ok(number) = number_text.parse::<f64>() else {
        let lower = trimmed.trim_start_matches(['+', '-', '.']).to_ascii_lowercase();
        return Err(if lower.starts_with("nan") || lower.starts_with("inf") {
            QuantityError::NotFinite { text: text.to_owned() }
        } else {
            QuantityError::NotANumber { text: text.to_owned() }
        });
    };
    let unit_text = unit_text.trim();
    let units = dimension.units();
    if units.is_empty() {
        if !unit_text.is_empty() {
            return Err(QuantityError::WrongUnit {
                unit: unit_text.to_owned(),
                dimension: dimension.name(),
                accepted: "none, a plain number".to_owned(),
            });
        }
        return finite(number, text);
    }
    if unit_text.is_empty() {
        return Err(QuantityError::MissingUnit {
            text: text.to_owned(),
            dimension: dimension.name(),
            example: format!("{number_text} {}", dimension.si_symbol()),
        });
    }
    match units.iter().find(|unit| unit.symbol == unit_text) {
        Some(unit) => finite(in_si(number, unit.si), text),
        None => Err(QuantityError::WrongUnit {
            unit: unit_text.to_owned(),
            dimension: dimension.name(),
            accepted: units.iter().map(|unit| unit.symbol).collect::<Vec<_>>().join(", "),
        }),
    }
}

fn finite(value: f64, text: &str) -> Result<f64, QuantityError> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(QuantityError::NotFinite { text: text.to_owned() })
    }
}

/// Splits after the longest prefix that reads as a decimal number.
fn split_number(text: &str) -> (&str, &str) {
    let bytes = text.as_bytes();
    let mut end = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    let digits =
        |from: usize| bytes[from..].iter().take_while(|byte| byte.is_ascii_digit()).count();
    end += digits(end);
    if bytes.get(end) == Some(&b'.') {
        end += 1;
        end += digits(end);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = bytes.get(end + 1 + sign..).map_or(0, |_| digits(end + 1 + sign));
        if exponent > 0 {
            end += 1 + sign + exponent;
        }
    }
    text.split_at(end)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_numbers_with_and_without_space() {
        assert_eq!(parse_quantity("1.5e1mm", Dimension::Length), Ok(0.015));
        assert_eq!(parse_quantity("-3 m/s", Dimension::Speed), Ok(-3.0));
        assert_eq!(parse_quantity("0.2", Dimension::Ratio), Ok(0.2));
    }

    #[test]
    fn refuses_what_is_not_a_quantity() {
        for text in ["", "m", "nan m", "inf m", "1e999 m", "3", "3 kg", "e5 m", "3 m m"] {
            assert!(parse_quantity(text, Dimension::Length).is_err(), "{text}");
        }
    }
}

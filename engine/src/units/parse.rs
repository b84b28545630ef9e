//! Text such as `12 in` to an SI number.

use super::spelling::unit_symbol;
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
/// The number comes first, then the unit, with or without a space between. The number may be or end in a
/// fraction (`10 1/2 in`), and the unit may be spelt out (`12 inches`). The length 0 needs no unit.
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
    if dimension == Dimension::Length
        && let Some((number, unit)) = spoken_length(trimmed)
    {
        return finite(in_si(number, dimension.si_of(unit)), text);
    }
    let Some((number, unit_text)) = leading_number(trimmed) else {
        let lower = trimmed.trim_start_matches(['+', '-', '.']).to_ascii_lowercase();
        return Err(if lower.starts_with("nan") || lower.starts_with("inf") {
            QuantityError::NotFinite { text: text.to_owned() }
        } else {
            QuantityError::NotANumber { text: text.to_owned() }
        });
    };
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
    // No length is as short in every unit.
    if unit_text.is_empty() && number == 0.0 && dimension == Dimension::Length {
        return Ok(0.0);
    }
    if unit_text.is_empty() {
        return Err(QuantityError::MissingUnit {
            text: text.to_owned(),
            dimension: dimension.name(),
            example: format!("{trimmed} {}", dimension.usual_symbol()),
        });
    }
    match units.iter().find(|unit| unit.symbol == unit_symbol(unit_text)) {
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

/// A length as people say it, with its unit's symbol: `a foot`, `1 ft 2 in`.
fn spoken_length(text: &str) -> Option<(f64, &'static str)> {
    let one = ["a ", "an "].iter().find_map(|article| text.strip_prefix(article));
    match one.map(|unit| unit_symbol(unit.trim())) {
        Some("ft") => return Some((1.0, "ft")),
        Some("in") => return Some((1.0, "in")),
        _ => {}
    }
    let (feet, rest) = leading_number(text)?;
    let at = rest.find(|letter: char| letter.is_ascii_digit())?;
    let (foot, inches) = rest.split_at(at);
    let (inches, unit) = leading_number(inches)?;
    let both = unit_symbol(foot.trim()) == "ft" && unit_symbol(unit) == "in";
    (both && feet >= 0.0).then_some((12.0 * feet + inches, "in"))
}

/// The symbol of the unit that a length is written in; empty where there is none.
pub fn unit_of_length(text: &str) -> &str {
    let text = text.trim();
    match (spoken_length(text), leading_number(text)) {
        (Some((_, unit)), _) => unit,
        (None, Some((_, unit))) => unit_symbol(unit),
        (None, None) => "",
    }
}

/// The number that a text begins with, a fraction included, and the rest without blanks around it.
pub fn leading_number(text: &str) -> Option<(f64, &str)> {
    let (digits, rest) = split_number(text);
    if digits.is_empty() {
        return vulgar_fraction(rest).map(|(part, rest)| (part, rest.trim()));
    }
    let number: f64 = digits.parse().ok()?;
    let whole = digits.trim_start_matches(['+', '-']).bytes().all(|byte| byte.is_ascii_digit());
    if !whole {
        return Some((number, rest.trim()));
    }
    if let Some((denominator, rest)) = rest.strip_prefix('/').and_then(leading_digits) {
        return (denominator > 0.0).then(|| (number / denominator, rest.trim()));
    }
    let part = vulgar_fraction(rest.trim_start()).or_else(|| {
        // `4 1/2`, `4-1/2`.
        let rest = rest.strip_prefix('-').unwrap_or(rest);
        let (numerator, rest) = leading_digits(rest.trim_start())?;
        let (denominator, rest) = rest.strip_prefix('/').and_then(leading_digits)?;
        (denominator > 0.0).then(|| (numerator / denominator, rest))
    });
    Some(match part {
        Some((part, rest)) if digits.starts_with('-') => (number - part, rest.trim()),
        Some((part, rest)) => (number + part, rest.trim()),
        None => (number, rest.trim()),
    })
}

fn leading_digits(text: &str) -> Option<(f64, &str)> {
    let (digits, rest) = text.split_at(text.bytes().take_while(u8::is_ascii_digit).count());
    Some((digits.parse().ok()?, rest))
}

fn vulgar_fraction(text: &str) -> Option<(f64, &str)> {
    let mut letters = text.chars();
    let part = match letters.next()? {
        '½' => 0.5,
        '¼' => 0.25,
        '¾' => 0.75,
        _ => return None,
    };
    Some((part, letters.as_str()))
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
    fn reads_lengths_as_people_say_them() {
        let metres = |text| parse_quantity(text, Dimension::Length);
        assert_eq!(metres("a foot"), Ok(0.3048));
        assert_eq!(metres("½ in"), Ok(0.0127));
        for text in ["1' 2\"", "1 ft 2 in", "1'2''", "1 foot 2 inches", "1′ 2″"] {
            assert_eq!((metres(text), unit_of_length(text)), (Ok(0.3556), "in"), "{text}");
        }
        assert!(
            metres("1 ft 2").is_err() && metres("1 m 2 in").is_err() && metres("a bit").is_err()
        );
        assert_eq!(["10 cm", "a foot", "3"].map(unit_of_length), ["cm", "ft", ""]);
    }

    #[test]
    fn reads_numbers_with_and_without_space() {
        assert_eq!(parse_quantity("1.5e1mm", Dimension::Length), Ok(0.015));
        assert_eq!(parse_quantity("-3 m/s", Dimension::Speed), Ok(-3.0));
        assert_eq!(parse_quantity("0.2", Dimension::Ratio), Ok(0.2));
    }

    #[test]
    fn reads_units_spelt_out_and_fractions() {
        let inches = |text: &str| parse_quantity(text, Dimension::Length).unwrap() / 0.0254;
        for text in ["12 inches", "12\"", "12 in.", "12 Inch", "1 foot", "1'", "1 ft.", "24/2 in"] {
            assert!((inches(text) - 12.0).abs() < 1e-12, "{text}");
        }
        for text in ["10 1/2 in", "10½\"", "10.5 inches", "21/2 in", "10-1/2 in"] {
            assert!((inches(text) - 10.5).abs() < 1e-12, "{text}");
        }
        assert_eq!(parse_quantity("-1 1/2 in", Dimension::Length), Ok(-0.0381));
        assert_eq!(parse_quantity("30 centimetres", Dimension::Length), Ok(0.3));
        assert_eq!(
            parse_quantity("30°", Dimension::Angle),
            parse_quantity("30 deg", Dimension::Angle)
        );
        assert!(parse_quantity("1/0 in", Dimension::Length).is_err());
    }

    #[test]
    fn refuses_what_is_not_a_quantity() {
        for text in ["", "m", "nan m", "inf m", "1e999 m", "3", "3 kg", "e5 m", "3 m m"] {
            assert!(parse_quantity(text, Dimension::Length).is_err(), "{text}");
        }
    }
}

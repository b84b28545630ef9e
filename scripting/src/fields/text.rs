//! Single values as texts, of a file or a flag.
//!
//! All of a file are taken as the text that was written, whatever type YAML would make of it, so that
//! `012`, `0x1F`, `1e3`, `.inf` and `yes` mean the same here as anywhere else: nothing special.

use super::amounts;
use super::group::{quantity_expected, shortened, with_article};
use super::scalar::{Mismatch, Scalar};
use super::writing::Writing;
use crate::renamed;
use railproof_engine::equipment::Parameter;
use railproof_engine::units::{Dimension, QuantityError, Speed, parse_quantity};

/// The beginning of a hint that shows a value of the right kind.
pub(crate) const LIKE: &str = "write it like";

/// No quantity needs more characters.
const LONGEST_QUANTITY: usize = 60;

/// A value as it is written.
pub(crate) struct WrittenText<'a>(pub(crate) &'a str);

impl Scalar for WrittenText<'_> {
    const WRITING: Writing = Writing::Yaml;

    fn quantity(&self, parameter: &Parameter) -> Result<(f64, String), Mismatch> {
        let dimension = parameter.dimension;
        let text = self.0.trim();
        let other_sort = || Mismatch::other_sort(&quantity_expected(dimension), self);
        if text.chars().count() > LONGEST_QUANTITY {
            return Err(other_sort());
        }
        let si = parse_quantity(text, dimension).map_err(|error| match error {
            QuantityError::NotANumber { .. } => {
                let hint = amounts::signed_hint(parameter.name, text, Self::WRITING);
                other_sort().with_hint(
                    hint.unwrap_or_else(|| format!("{LIKE} `{}`", amounts::example(parameter))),
                )
            }
            QuantityError::NotFinite { .. } => {
                Mismatch::content(format!("must be finite, not `{text}`"))
            }
            // Angles have two units that people use: the one in which this one's limits are told.
            QuantityError::MissingUnit { .. } if dimension == Dimension::Angle => {
                let unit = parameter.unit;
                Mismatch::message("needs a unit").with_hint(format!("write `{text} {unit}`"))
            }
            QuantityError::MissingUnit { example, .. } => {
                let accepted = |text: &str| {
                    parse_quantity(text, dimension).is_ok_and(|si| parameter.accepts(si))
                };
                let fitting = amounts::fitting_unit(text, parameter);
                let written = match fitting.filter(|_| !accepted(&example)) {
                    Some(unit) => format!("{text} {unit}"),
                    None => example,
                };
                Mismatch::message("needs a unit").with_hint(format!("write `{written}`"))
            }
            QuantityError::WrongUnit { unit, .. } => {
                let wanted = with_article(dimension.name());
                Mismatch::message(format!("must be {wanted}, not `{text}`"))
                    .with_hint(unit_hint(&unit, text, parameter))
            }
        })?;
        Ok((si, text.to_owned()))
    }

    fn speed(&self, parameter: &Parameter) -> Result<(Speed, String), Mismatch> {
        let text = self.0.trim();
        let Some(count) = Speed::counted(text) else {
            let read = self.quantity(parameter);
            return read.map(|(m_s, shown)| (Speed::MetresPerSecond(m_s), shown));
        };
        match parse_quantity(count, Dimension::Ratio) {
            Ok(lengths) => Ok((Speed::TableLengths(lengths), text.to_owned())),
            Err(_) => {
                let other_sort = Mismatch::other_sort(&quantity_expected(Dimension::Speed), self);
                Err(other_sort.with_hint(if count.contains(',') {
                    format!("decimals take a point: `{}`", text.replacen(',', ".", 1))
                } else {
                    format!("{LIKE} `2 lengths`")
                }))
            }
        }
    }

    fn text(&self) -> Option<String> {
        Some(self.0.to_owned())
    }

    fn truth(&self) -> Option<bool> {
        match self.0 {
            "yes" | "true" => Some(true),
            "no" | "false" => Some(false),
            _ => None,
        }
    }

    fn described(&self) -> String {
        match self.0.trim() {
            "" => "nothing".to_owned(),
            text => format!("`{}`", shortened(text)),
        }
    }
}

fn unit_hint(unit: &str, text: &str, parameter: &Parameter) -> String {
    if unit.starts_with(',') {
        return format!("decimals take a point: `{}`", text.replacen(',', ".", 1));
    }
    if let Some(digits) = text.strip_prefix("0x")
        && let Ok(number) = u64::from_str_radix(digits, 16)
    {
        return format!("numbers are decimal: `{number}`");
    }
    if parameter.dimension == Dimension::Ratio {
        return amounts::plain_hint(unit, text, parameter);
    }
    if parameter.dimension == Dimension::Length
        && let Some(hint) = amounts::length_hint(text)
    {
        return hint;
    }
    if unit.contains(' ') {
        return "each field has a line of its own, and all of them are set in alike".to_owned();
    }
    let units = parameter.dimension.units().iter().map(|unit| unit.symbol);
    renamed::hint_or_all(unit, units, "its unit is one of")
}

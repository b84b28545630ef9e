//! Single values as texts, of a file or a flag.
//!
//! All of a file are taken as the text that was written, whatever type YAML would make of it, so that
//! `012`, `0x1F`, `1e3`, `.inf` and `yes` mean the same here as anywhere else: nothing special.

use super::group::{quantity_expected, shortened, with_article};
use super::scalar::{Mismatch, Scalar};
use super::writing::Writing;
use crate::renamed;
use railproof_engine::equipment::Parameter;
use railproof_engine::units::{Dimension, QuantityError, parse_quantity};

/// No quantity needs more characters.
const LONGEST_QUANTITY: usize = 60;

/// A value as it is written.
pub(crate) struct WrittenText<'a>(pub(crate) &'a str);

impl Scalar for WrittenText<'_> {
    const WRITING: Writing = Writing::Yaml;

    fn quantity(&self, parameter: &Parameter) -> Result<(f64, String), Mismatch> {
        let Parameter { dimension, low, high, unit, .. } = *parameter;
        let text = self.0.trim();
        let other_sort = || Mismatch::other_sort(&quantity_expected(dimension), self);
        if text.chars().count() > LONGEST_QUANTITY {
            return Err(other_sort());
        }
        let si = parse_quantity(text, dimension).map_err(|error| match error {
            QuantityError::NotANumber { .. } => other_sort().with_hint(format!(
                "write it like `{}`",
                match dimension {
                    Dimension::Length if (low..=high).contains(&0.254) => "10 in".to_owned(),
                    Dimension::Angle if (low..=high).contains(&0.5) => "30 deg".to_owned(),
                    _ => Self::WRITING.quantity(3.0_f64.clamp(low, high), unit),
                }
            )),
            QuantityError::NotFinite { .. } => {
                Mismatch::content(format!("must be finite, not `{text}`"))
            }
            QuantityError::MissingUnit { example, .. } => {
                Mismatch::message("needs a unit").with_hint(format!("write `{example}`"))
            }
            QuantityError::WrongUnit { unit, .. } => {
                let wanted = with_article(dimension.name());
                Mismatch::message(format!("must be {wanted}, not `{text}`"))
                    .with_hint(unit_hint(&unit, text, dimension))
            }
        })?;
        Ok((si, text.to_owned()))
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

fn unit_hint(unit: &str, text: &str, dimension: Dimension) -> String {
    if unit.starts_with(',') {
        return format!("decimals take a point: `{}`", text.replacen(',', ".", 1));
    }
    if let Some(digits) = text.strip_prefix("0x")
        && let Ok(number) = u64::from_str_radix(digits, 16)
    {
        return format!("numbers are decimal: `{number}`");
    }
    if dimension == Dimension::Ratio {
        let number = text.trim_end_matches(unit).trim_end();
        return format!("it takes no unit: `{number}`");
    }
    let units = dimension.units().iter().map(|unit| unit.symbol);
    renamed::hint_or_all(unit, units, "its unit is one of")
}

//! The axes of whole shots: names of a scenario's own, or keys of a layout, each with its values.

use super::same;
use crate::fields::check_kept_name;
use crate::layout::unit_of_plain;
use crate::lua::quantity::{Quantity, QuantityKind};
use railproof_engine::results::SHOT_MEASURES;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// The fields of a row beside its measures.
const FURTHER: [&str; 4] = ["stroke", "why_not", "point", "equipment"];

/// The fields of a row; no axis may have such a name.
pub fn taken() -> impl Iterator<Item = &'static str> + Clone {
    SHOT_MEASURES.iter().map(|measure| measure.name).chain(FURTHER)
}

/// One thing that varies, under the scenario's own name for it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShotAxis {
    /// Its name.
    pub name: String,
    /// Its values.
    pub values: ShotValues,
}

/// The values of an axis.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ShotValues {
    /// Numbers.
    Numbers {
        /// In the unit that the first was written in.
        amounts: Vec<f64>,
        /// That unit; empty for plain numbers.
        unit: &'static str,
        /// In SI units.
        si: Vec<f64>,
        /// The SI unit, or that of rail numbers; empty for plain numbers.
        si_unit: &'static str,
    },
    /// Words.
    Words(Vec<String>),
}

impl ShotAxis {
    /// Its name with its SI unit, as a column of a file has it.
    pub fn column(&self) -> String {
        match &self.values {
            ShotValues::Numbers { si_unit, .. } if !si_unit.is_empty() => {
                format!("{}_{}", self.name, si_unit.replace(['/', ' '], "_").replace('^', ""))
            }
            _ => self.name.clone(),
        }
    }
}

impl ShotValues {
    /// The number of values.
    pub fn len(&self) -> usize {
        match self {
            Self::Numbers { amounts, .. } => amounts.len(),
            Self::Words(words) => words.len(),
        }
    }

    /// The places of the values that decide whether all can be taken: a key takes the numbers of one
    /// range, so the least and the greatest do; of words each.
    pub fn outermost(&self) -> Vec<usize> {
        match self {
            Self::Numbers { si, .. } => {
                let order = |one: &usize, other: &usize| si[*one].total_cmp(&si[*other]);
                let places = || 0..si.len();
                places().min_by(order).into_iter().chain(places().max_by(order)).collect()
            }
            Self::Words(words) => (0..words.len()).collect(),
        }
    }

    /// The text of one in a layout.
    pub fn written(&self, at: usize) -> String {
        match self {
            Self::Numbers { amounts, unit, .. } => {
                format!("{} {unit}", amounts[at]).trim_end().to_owned()
            }
            Self::Words(words) => serde_json::Value::from(words[at].as_str()).to_string(),
        }
    }

    /// True when two of them are the same: their rows could not be told apart.
    fn repeat(&self) -> bool {
        match self {
            Self::Numbers { si, .. } => {
                let mut sorted = si.clone();
                sorted.sort_by(f64::total_cmp);
                sorted.windows(2).any(|pair| same(pair[0], pair[1]))
            }
            Self::Words(words) => words.iter().collect::<BTreeSet<_>>().len() < words.len(),
        }
    }

    /// True when there are none, which a sweep refuses.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// An axis as it stands in a plan's file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShotAxisEntry {
    name: String,
    values: ShotValuesEntry,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum ShotValuesEntry {
    Numbers { amounts: Vec<f64>, unit: String, si: Vec<f64>, si_unit: String },
    Words(Vec<String>),
}

impl ShotAxisEntry {
    /// The axis of a layout's key, checked.
    ///
    /// # Errors
    /// The fault, in words.
    pub fn key(self) -> Result<ShotAxis, String> {
        let unit = unit_of_plain(&self.name);
        self.axis(unit)
    }

    /// The axis of a name of the scenario's own, checked.
    ///
    /// # Errors
    /// The fault, in words.
    pub fn name(self) -> Result<ShotAxis, String> {
        self.axis("")
    }

    /// The axis, whose plain numbers are in this unit.
    fn axis(self, of_plain: &'static str) -> Result<ShotAxis, String> {
        let name = self.name;
        check_kept_name(&name).map_err(|it| format!("an axis's name {}", it.message))?;
        let refused = |why: &str| Err(format!("the axis `{name}` {why}"));
        let values = match self.values {
            ShotValuesEntry::Words(words) => ShotValues::Words(words),
            ShotValuesEntry::Numbers { amounts, unit, si, si_unit } => {
                let Some((unit, own_si_unit)) = units(&unit, of_plain) else {
                    return refused(&format!("has no unit `{unit}`"));
                };
                if si_unit != own_si_unit {
                    return refused(&format!(
                        "is in `{unit}`, which is not `{si_unit}` in SI units"
                    ));
                }
                let one = |amount: f64| Quantity::new(amount, unit).map_or(amount, si_of);
                let fits = |(amount, si): (&f64, &f64)| {
                    amount.is_finite() && si.is_finite() && same(one(*amount), *si)
                };
                if amounts.len() != si.len() || !amounts.iter().zip(&si).all(fits) {
                    return refused("says one thing in its unit and another in SI units");
                }
                ShotValues::Numbers { amounts, unit, si, si_unit: own_si_unit }
            }
        };
        if values.is_empty() {
            return refused("has no values");
        }
        if values.repeat() {
            return refused("has a value twice");
        }
        Ok(ShotAxis { name, values })
    }
}

/// A unit by its name, and that of SI for its kind; plain numbers have the given one.
fn units(name: &str, of_plain: &'static str) -> Option<(&'static str, &'static str)> {
    if name.is_empty() {
        return Some(("", of_plain));
    }
    let one = Quantity::new(1.0, name).ok()?;
    Some((one.symbol(), si_unit_of(one)))
}

/// A quantity in the unit of SI for its kind; a speed in table lengths as it is.
pub fn si_of(quantity: Quantity) -> f64 {
    match quantity.kind() {
        QuantityKind::Of(dimension) => quantity.si(dimension).unwrap_or_default(),
        QuantityKind::TableLengths => quantity.amount(),
    }
}

/// The unit of SI for the kind of a quantity.
pub fn si_unit_of(quantity: Quantity) -> &'static str {
    match quantity.kind() {
        QuantityKind::Of(dimension) => dimension.si_symbol(),
        QuantityKind::TableLengths => "table lengths",
    }
}

/// The places in the axes of a point; the last axis varies fastest.
pub fn digits(axes: &[ShotAxis], point: u64) -> Vec<usize> {
    let mut rest = point;
    let mut digits = vec![0; axes.len()];
    for (digit, axis) in digits.iter_mut().zip(axes).rev() {
        let count = axis.values.len().max(1) as u64;
        *digit = usize::try_from(rest % count).unwrap_or(0);
        rest /= count;
    }
    digits
}

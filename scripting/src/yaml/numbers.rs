//! A short list of quantities of one kind, such as the components of a vector.

use super::{QuantityField, Reader, Refusal};
use railproof_engine::equipment::Parameter;
use serde::de::{DeserializeSeed, Deserializer, IgnoredAny, SeqAccess, Visitor};
use std::fmt;

/// Exactly `N` quantities in brackets; values in SI units.
pub(crate) struct Numbers<'r, const N: usize> {
    pub(crate) reader: &'r Reader,
    pub(crate) parameter: Parameter,
    /// Largest accepted length of the vector, SI.
    pub(crate) longest: f64,
}

impl<const N: usize> Numbers<'_, N> {
    fn wrong_count(&self) -> Refusal {
        let Parameter { name, unit, .. } = self.parameter;
        let example = vec![format!("\"0 {unit}\""); N].join(", ");
        Refusal::new(format!("`{name}` takes {N} quantities")).with_hint(format!(
            "along {}: [{example}]",
            if N == 2 { "x and y" } else { "x, y and z" }
        ))
    }
}

impl<'de, const N: usize> DeserializeSeed<'de> for Numbers<'_, N> {
    type Value = [f64; N];

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<[f64; N], D::Error> {
        deserializer.deserialize_seq(self)
    }
}

impl<'de, const N: usize> Visitor<'de> for Numbers<'_, N> {
    type Value = [f64; N];

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "a list of {N} quantities in brackets")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<[f64; N], A::Error> {
        let mut values = [0.0; N];
        for value in &mut values {
            let quantity = QuantityField { reader: self.reader, parameter: self.parameter };
            *value = list
                .next_element_seed(quantity)?
                .ok_or_else(|| self.reader.refuse(self.wrong_count()))?;
        }
        if list.next_element::<IgnoredAny>()?.is_some() {
            return Err(self.reader.refuse(self.wrong_count()));
        }
        let squares: f64 = values.iter().map(|value| value * value).sum();
        if squares.sqrt() > self.longest * (1.0 + 1e-12) {
            let Parameter { name, high, unit, .. } = self.parameter;
            return Err(self.reader.refuse(Refusal::new(format!(
                "`{name}` is more than {high} {unit} when its parts are put together"
            ))));
        }
        Ok(values)
    }
}

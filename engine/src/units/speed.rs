//! A speed as people give it: in units, or in table lengths as in a lag.

use super::{Dimension, QuantityError, parse_quantity};

/// A ball's speed, before the table it rolls on is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Speed {
    /// Metres per second.
    MetresPerSecond(f64),
    /// The lag measure: the speed of a rolling ball that would come to rest after so many playing
    /// lengths of cloth, with nothing lost at the cushions.
    TableLengths(f64),
}

impl Speed {
    /// Reads `3 m/s`, `7 mph`, `12 km/h` or `2 lengths`.
    ///
    /// # Errors
    /// As [`parse_quantity`].
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        for word in ["lengths", "length"] {
            if let Some(number) = trimmed.strip_suffix(word) {
                return parse_quantity(number, Dimension::Ratio).map(Self::TableLengths);
            }
        }
        parse_quantity(text, Dimension::Speed).map(Self::MetresPerSecond)
    }

    /// The speed in m/s on a table `length_m` long whose rolling deceleration is
    /// `rolling_deceleration_m_s2`: v = √(2·a·n·L).
    pub fn metres_per_second(self, length_m: f64, rolling_deceleration_m_s2: f64) -> f64 {
        match self {
            Self::MetresPerSecond(speed) => speed,
            Self::TableLengths(count) => {
                (2.0 * rolling_deceleration_m_s2 * count * length_m).sqrt()
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lag_of_two_lengths_stops_after_two_lengths() {
        let speed = Speed::parse("2 lengths").unwrap().metres_per_second(2.54, 0.125);
        let rolled = speed * speed / (2.0 * 0.125);
        assert!((rolled - 2.0 * 2.54).abs() < 1e-12);
    }
}

//! A speed as people give it: in units, in table lengths as in a lag, or by a word.

use super::{Dimension, QuantityError, parse_quantity};

/// The refusal of a lag that no speed rolls.
pub const NO_SUCH_LAG: &str = "on this table no stroke up to 20 m/s rolls a ball that many lengths";

/// A word for a speed; each table's profile says how fast it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SpeedWord {
    /// A soft stroke.
    Soft,
    /// The middle.
    Medium,
    /// A firm stroke.
    Firm,
}

impl SpeedWord {
    /// All of them, the slowest first.
    pub const ALL: [Self; 3] = [Self::Soft, Self::Medium, Self::Firm];

    /// The word itself.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Soft => "soft",
            Self::Medium => "medium",
            Self::Firm => "firm",
        }
    }
}

/// A ball's speed, before the table it rolls on is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Speed {
    /// Metres per second.
    MetresPerSecond(f64),
    /// The lag measure: the speed of a rolling ball that leaves one end of the table, comes off the
    /// cushions at both ends and rests after so many lengths.
    TableLengths(f64),
    /// By a word.
    Word(SpeedWord),
}

impl Speed {
    /// Reads `3 m/s`, `7 mph`, `12 km/h`, `2 lengths` or `medium`.
    ///
    /// # Errors
    /// As [`parse_quantity`].
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        if let Some(word) = SpeedWord::ALL.into_iter().find(|word| word.name() == trimmed) {
            return Ok(Self::Word(word));
        }
        match Self::counted(text) {
            Some(number) => parse_quantity(number, Dimension::Ratio).map(Self::TableLengths),
            None => parse_quantity(text, Dimension::Speed).map(Self::MetresPerSecond),
        }
    }

    /// The number of a text in table lengths, as it is written; nothing when it is not in them.
    pub fn counted(text: &str) -> Option<&str> {
        let text = text.trim();
        let number =
            text.strip_suffix("lengths").or_else(|| text.strip_suffix("length"))?.trim_end();
        Some(number.strip_suffix("table").unwrap_or(number).trim_end())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn speeds_are_read_in_units_in_lengths_and_by_word() {
        assert_eq!(Speed::parse(" 2 lengths"), Ok(Speed::TableLengths(2.0)));
        assert_eq!(Speed::parse("36 km/h"), Ok(Speed::MetresPerSecond(10.0)));
        assert_eq!(Speed::parse("firm "), Ok(Speed::Word(SpeedWord::Firm)));
        assert!(Speed::parse("fast").is_err());
    }
}

//! Speeds of lags, each found once on a table: to find one takes as long as a hundred banks.

use crate::bank::speed_on;
use crate::equipment::Equipment;
use crate::units::Speed;
use std::collections::BTreeMap;

/// So many lags are remembered; a grid has fewer, and of a sample none comes again.
const MOST: usize = 4096;

/// The speeds of lags on the last table.
#[derive(Debug, Default)]
pub struct LagSpeeds {
    equipment: Option<Equipment>,
    known: BTreeMap<u64, f64>,
}

impl LagSpeeds {
    /// The speed of a lag of so many table lengths on this table, m/s.
    pub fn m_s(&mut self, lengths: f64, equipment: &Equipment) -> f64 {
        if self.equipment.as_ref() != Some(equipment) {
            self.equipment = Some(equipment.clone());
            self.known.clear();
        }
        if self.known.len() == MOST {
            self.known.clear();
        }
        let find = || speed_on(Speed::TableLengths(lengths), equipment);
        *self.known.entry(lengths.to_bits()).or_insert_with(find)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rail::testing::nine_foot;

    #[test]
    fn a_remembered_lag_is_the_one_of_its_table() {
        let (one, mut other) = (nine_foot(), nine_foot());
        other.cushion.restitution -= 0.1;
        let mut lags = LagSpeeds::default();
        for (equipment, lengths) in [(&one, 3.0), (&one, 3.0), (&other, 3.0), (&one, 2.0)] {
            let found = speed_on(Speed::TableLengths(lengths), equipment);
            assert_eq!(lags.m_s(lengths, equipment).to_bits(), found.to_bits());
        }
        assert!(lags.m_s(3.0, &one) < lags.m_s(3.0, &other));
    }
}

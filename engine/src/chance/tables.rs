//! The tables that a question is asked of: one that is known, or many that could be.

use crate::ensemble::Ensemble;
use crate::equipment::Equipment;

/// Tables with the weight of each; all of one size.
#[derive(Debug, Clone)]
pub struct PossibleTables {
    equipment: Vec<Equipment>,
    weights: Vec<f64>,
}

impl PossibleTables {
    /// One that is known.
    pub fn one(equipment: Equipment) -> Self {
        Self { equipment: vec![equipment], weights: vec![1.0] }
    }

    /// Those of an ensemble, of this size and with this ball.
    pub fn of(table: &Equipment, ensemble: &Ensemble) -> Self {
        Self {
            equipment: ensemble.members().iter().map(|member| member.equipment(table)).collect(),
            weights: ensemble.weights().to_vec(),
        }
    }

    /// Every second of them from the first or the second on; one that is known stays.
    #[must_use]
    pub fn every_second(&self, first: usize) -> Self {
        if self.len() < 2 {
            return self.clone();
        }
        let equipment = self.equipment.iter().skip(first).step_by(2).cloned().collect();
        let mut weights: Vec<f64> = self.weights.iter().skip(first).step_by(2).copied().collect();
        let whole: f64 = weights.iter().sum();
        for weight in &mut weights {
            *weight /= whole;
        }
        Self { equipment, weights }
    }

    /// The tables.
    pub fn equipment(&self) -> &[Equipment] {
        &self.equipment
    }

    /// Their weights, which add up to 1.
    pub fn weights(&self) -> &[f64] {
        &self.weights
    }

    /// The number of tables.
    pub fn len(&self) -> usize {
        self.equipment.len()
    }

    /// True without tables.
    pub fn is_empty(&self) -> bool {
        self.equipment.is_empty()
    }
}

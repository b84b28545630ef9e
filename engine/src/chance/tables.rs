//! The tables that a question is asked of: one that is known, or many that could be.

use crate::ensemble::{Ensemble, Habit, Member};
use crate::equipment::Equipment;

/// Tables with the weight of each, and what the player on it always does; all of one size.
#[derive(Debug, Clone)]
pub struct PossibleTables {
    equipment: Vec<Equipment>,
    habits: Vec<Habit>,
    weights: Vec<f64>,
}

impl PossibleTables {
    /// One that is known, and a player without habits.
    pub fn one(equipment: Equipment) -> Self {
        Self { equipment: vec![equipment], habits: vec![Habit::default()], weights: vec![1.0] }
    }

    /// Those of an ensemble, of this size and with this ball, each with its own player's habits.
    pub fn of(table: &Equipment, ensemble: &Ensemble) -> Self {
        Self {
            habits: ensemble.members().iter().map(Member::habit).collect(),
            equipment: ensemble.members().iter().map(|member| member.equipment(table)).collect(),
            weights: ensemble.weights().to_vec(),
        }
    }

    /// The first so many of them.
    #[must_use]
    pub fn first(&self, count: usize) -> Self {
        self.part(0..count.min(self.len()))
    }

    /// The first and the last half of them; one that is known is in both.
    pub fn halves(&self) -> [Self; 2] {
        let middle = self.len() / 2;
        if middle == 0 {
            return [self.clone(), self.clone()];
        }
        [self.part(0..middle), self.part(middle..self.len())]
    }

    fn part(&self, range: core::ops::Range<usize>) -> Self {
        let whole: f64 = self.weights[range.clone()].iter().sum();
        let weights = self.weights[range.clone()].iter().map(|weight| weight / whole).collect();
        Self {
            equipment: self.equipment[range.clone()].to_vec(),
            habits: self.habits[range].to_vec(),
            weights,
        }
    }

    /// The tables.
    pub fn equipment(&self) -> &[Equipment] {
        &self.equipment
    }

    /// What each one's player always does.
    pub fn habits(&self) -> &[Habit] {
        &self.habits
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

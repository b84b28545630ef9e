//! A table as an ensemble knows it.

use railproof_engine::ensemble::Ensemble;
use railproof_engine::equipment::{Equipment, RailModel};

/// A table as an ensemble knows it: its sizes, and members for all that is not known exactly.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredTable {
    /// The sizes, the ball, the cue.
    pub table: Equipment,
    /// The table's profile gives its lengths in inches.
    pub in_inches: bool,
    /// The rail model of the members.
    pub model: RailModel,
    /// The members.
    pub ensemble: Ensemble,
    /// The number of measured banks behind it.
    pub banks: usize,
}

impl MeasuredTable {
    /// The table of the ensemble's middle member, by its rail model.
    pub fn middle(&self) -> Equipment {
        let mut equipment = match self.ensemble.middle_member() {
            Some(member) => member.equipment(&self.table),
            None => self.table.clone(),
        };
        equipment.cushion.rail_model = self.model;
        equipment
    }
}

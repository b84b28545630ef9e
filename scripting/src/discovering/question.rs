//! A search for rules as it is asked for.

use crate::fitting::MeasuredTable;
use crate::player::PlayerProfile;
use railproof_engine::chance::PossibleTables;
use railproof_engine::discover::{BallSpread, EffortWeights, Grammar};
use railproof_engine::equipment::{Equipment, RailModel};

/// The most balls.
pub const MOST_BALLS: usize = 4096;
/// The most of an ensemble's tables that are searched on.
pub const MOST_TABLES: usize = 256;

/// A search ready to be made.
#[derive(Debug, Clone)]
pub struct DiscoverQuestion {
    /// The table, or the middle one of those that it could be.
    pub table: Equipment,
    /// All that it could be, where it isn't known exactly.
    pub known: Option<MeasuredTable>,
    /// The rail model.
    pub model: RailModel,
    /// Who plays.
    pub player: PlayerProfile,
    /// The balls, and how many of them.
    pub balls: BallSpread,
    /// Their number.
    pub count: usize,
    /// The rules.
    pub grammar: Grammar,
    /// The cost of steps and numbers.
    pub weights: EffortWeights,
}

impl DiscoverQuestion {
    /// The tables that are searched on.
    pub fn tables(&self) -> PossibleTables {
        match &self.known {
            Some(known) => PossibleTables::of(&known.table, &known.ensemble).first(MOST_TABLES),
            None => PossibleTables::one(self.table.clone()),
        }
    }
}

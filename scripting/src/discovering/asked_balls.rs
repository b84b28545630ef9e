//! The balls, the tables and the player of a search.

use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::player::PlayerProfile;
use railproof_engine::chance::{PossibleTables, SpreadNodes};
use railproof_engine::discover::{BallSpread, Halves};
use railproof_engine::equipment::{Equipment, RailModel};

/// The fewest balls.
pub const FEWEST_BALLS: usize = 32;
/// The most balls.
pub const MOST_BALLS: usize = 4096;
/// The most hands off the rail.
pub const MOST_HANDS: u8 = 8;
/// The most side that balls carry, the rate of turning times the radius over the speed.
pub const MOST_SIDE: f64 = 1.0;
/// The most of an ensemble's tables that are searched on.
pub const MOST_TABLES: usize = 256;

/// What a search for rules, or for corrections of one, is made on.
#[derive(Debug, Clone)]
pub struct AskedBalls {
    /// The table, or the middle one of those that it could be.
    pub table: Equipment,
    /// All that it could be, where it isn't known exactly.
    pub known: Option<MeasuredTable>,
    /// The rail model.
    pub model: RailModel,
    /// Who plays.
    pub player: PlayerProfile,
    /// Where the balls lie.
    pub balls: BallSpread,
    /// How many of them; half are searched on, half told.
    pub count: usize,
}

impl AskedBalls {
    /// The tables that are searched on.
    pub fn tables(&self) -> PossibleTables {
        match &self.known {
            Some(known) => PossibleTables::of(&known.table, &known.ensemble).first(MOST_TABLES),
            None => PossibleTables::one(self.table.clone()),
        }
    }

    /// The start numbers that hold, of both halves.
    ///
    /// # Errors
    /// A [`Fault`] for balls that make no bank.
    pub fn halves(&self) -> Result<Halves, Fault> {
        let tables = self.tables();
        let skill = &self.player.skill;
        let nodes = match tables.len() {
            1 => SpreadNodes::on_tables(skill, 1),
            // Means over many balls and tables need few.
            _ => SpreadNodes::of(skill, SpreadNodes::FEW),
        };
        Halves::find(&tables, self.model, &nodes, &self.balls.halves(self.count))
            .map_err(|error| Fault::bad_input(format!("these balls make no banks: {error}")))
    }
}

//! How often a player makes a bank, for other programs.

use super::discovered::ChanceAnswer;
use crate::playing::{BankFindings, BankQuestion};
use serde::Serialize;

/// A player's chance of one bank.
#[derive(Debug, Clone, Serialize)]
pub struct PlayerAnswer {
    /// What people call them.
    pub name: String,
    /// The chance as it is asked for.
    pub chance: ChanceAnswer,
    /// The start with the greatest chance; null where nothing holds.
    pub best_start_diamonds: Option<f64>,
    /// The chance from there.
    pub best_chance: Option<ChanceAnswer>,
}

impl PlayerAnswer {
    pub(super) fn of(question: &BankQuestion, findings: &BankFindings) -> Option<Self> {
        let (player, found) = question.player.as_ref().zip(findings.chance)?;
        Some(Self {
            name: player.name.clone(),
            chance: found.chance.into(),
            best_start_diamonds: found.best.map(|(start, _)| start),
            best_chance: found.best.map(|(_, chance)| chance.into()),
        })
    }
}

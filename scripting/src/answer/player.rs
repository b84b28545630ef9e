//! How often a player makes a bank or a shot, for other programs.

use super::discovered::ChanceAnswer;
use crate::player::PlayerProfile;
use crate::playing::{BankFindings, BankQuestion, ShotChance};
use railproof_engine::verdict::PocketVerdict;
use serde::Serialize;
use std::collections::BTreeMap;

/// A player's chance of one bank.
#[derive(Debug, Clone, Serialize)]
pub struct PlayerAnswer {
    /// What people call them.
    pub name: String,
    /// The chance as it is asked for.
    pub chance: ChanceAnswer,
    /// The chance of whoever is told that start.
    pub told_chance: ChanceAnswer,
    /// The start with the greatest chance for whoever is told it; null where nothing holds.
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
            told_chance: found.told.into(),
            best_start_diamonds: found.best.map(|(start, _)| start),
            best_chance: found.best.map(|(_, chance)| chance.into()),
        })
    }
}

/// A player's chance of one shot.
#[derive(Debug, Clone, Serialize)]
pub struct ShotPlayerAnswer {
    /// What people call them.
    pub name: String,
    /// Made, clean or off a jaw, with the cue ball on the table.
    pub chance: ChanceAnswer,
    /// The share of every verdict that comes up.
    pub verdicts: BTreeMap<&'static str, f64>,
    /// The strokes that were played.
    pub strokes: u64,
}

impl ShotPlayerAnswer {
    /// Of a player and what they make.
    pub fn new(player: &PlayerProfile, found: &ShotChance) -> Self {
        let shares = PocketVerdict::NAMES.into_iter().zip(found.shares.iter().copied());
        Self {
            name: player.name.clone(),
            chance: found.made.into(),
            verdicts: shares.filter(|(_, share)| *share > 0.0).collect(),
            strokes: found.strokes,
        }
    }
}

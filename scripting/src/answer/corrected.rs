//! Corrections of a rule, for other programs.

use super::discovered::ChanceAnswer;
use crate::discovering::CorrectedFindings;
use crate::telling::caution::Cautions;
use crate::telling::table_words;
use railproof_engine::discover::{CorrectedFor, CorrectionRow, CorrectionTable, Corrections};
use serde::Serialize;
use std::collections::BTreeMap;

/// What was found.
#[derive(Debug, Clone, Serialize)]
pub struct CorrectedAnswer {
    /// Who plays.
    pub player: String,
    /// On which table.
    pub table: String,
    /// The rule that is corrected.
    pub rule: String,
    /// Balls of which chances are told.
    pub told_balls: usize,
    /// On how many tables.
    pub told_tables: usize,
    /// The place in `tables` of the one to keep.
    pub named: usize,
    /// What each of its rows gains.
    pub rows: Vec<CorrectionRowAnswer>,
    /// Tables of growing size.
    pub tables: Vec<CorrectionTableAnswer>,
    /// The cautions of the answer.
    pub cautions: Cautions,
}

/// A row of the table to keep.
#[derive(Debug, Clone, Serialize)]
pub struct CorrectionRowAnswer {
    pub what: &'static str,
    pub words: &'static str,
    pub add_diamonds: f64,
    /// No larger one was tried.
    pub at_most: bool,
    pub gain: ChanceAnswer,
    /// Of the balls that it is for.
    pub gain_there: ChanceAnswer,
    pub balls: usize,
}

/// A table of corrections.
#[derive(Debug, Clone, Serialize)]
pub struct CorrectionTableAnswer {
    pub words: String,
    /// By what they are for, in diamonds.
    pub add_diamonds: BTreeMap<&'static str, f64>,
    pub chance: ChanceAnswer,
    /// How much more than without a table.
    pub gain: ChanceAnswer,
    /// How much more the last table makes.
    pub behind: ChanceAnswer,
}

impl CorrectedAnswer {
    /// Of a search.
    pub fn new(found: &CorrectedFindings) -> Self {
        Self {
            player: found.asked.player.name.clone(),
            table: found.asked.table.name.clone(),
            rule: found.rule.name.clone(),
            told_balls: found.told.0,
            told_tables: found.told.1,
            named: found.found.named,
            rows: found.found.rows.iter().map(CorrectionRowAnswer::from).collect(),
            tables: found.found.tables.iter().map(CorrectionTableAnswer::from).collect(),
            cautions: found.asked.cautions(),
        }
    }
}

impl From<&CorrectionRow> for CorrectionRowAnswer {
    fn from(it: &CorrectionRow) -> Self {
        Self {
            what: it.what.name(),
            words: it.what.words(),
            add_diamonds: Corrections::diamonds(it.tenths),
            at_most: it.at_most,
            gain: it.gain.into(),
            gain_there: it.gain_there.into(),
            balls: it.balls,
        }
    }
}

impl From<&CorrectionTable> for CorrectionTableAnswer {
    fn from(it: &CorrectionTable) -> Self {
        let rows = it.corrections.rows();
        Self {
            words: table_words(it.corrections),
            add_diamonds: rows
                .map(|(what, tenths)| (CorrectedFor::name(what), Corrections::diamonds(tenths)))
                .collect(),
            chance: it.chance.into(),
            gain: it.gain.into(),
            behind: it.behind.into(),
        }
    }
}

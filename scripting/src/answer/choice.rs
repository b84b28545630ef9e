//! Bank or cut, for other programs.

use super::discovered::ChanceAnswer;
use crate::playing::ChoiceFindings;
use crate::telling::{bank_or_cut_sentence, why_not};
use railproof_engine::choice::FoundChoice;
use railproof_engine::rail::Rail;
use railproof_engine::verdict::PocketVerdict;
use serde::Serialize;
use std::collections::BTreeMap;

/// Which is better, and every way.
#[derive(Debug, Clone, Serialize)]
pub struct ChoiceAnswer {
    /// The player.
    pub player: String,
    /// The rule for banks; null where their lines are known.
    pub rule: Option<String>,
    /// bank, cut, cant-be-told or neither.
    pub better: &'static str,
    /// The answer in a sentence.
    pub sentence: String,
    /// The best bank's chance less the best cut's; null without both.
    pub bank_less_cut: Option<ChanceAnswer>,
    /// The best bank.
    pub bank: Option<WayAnswer>,
    /// The best cut.
    pub cut: Option<WayAnswer>,
    /// Every way: cuts, then banks.
    pub ways: Vec<WayAnswer>,
}

/// A way.
#[derive(Debug, Clone, Serialize)]
pub struct WayAnswer {
    /// bank or cut.
    pub kind: &'static str,
    /// The pocket.
    pub pocket: &'static str,
    /// The rail of a bank.
    pub rail: Option<&'static str>,
    /// The one after it, of a bank off two.
    pub second_rail: Option<&'static str>,
    /// The start number of a bank's line, groove reading.
    pub start_diamonds: Option<f64>,
    /// The spread of it from reading and reckoning.
    pub read_spread_diamonds: Option<f64>,
    /// Made, clean or off a jaw, with the cue ball on the table; null where there is no such way.
    pub chance: Option<ChanceAnswer>,
    /// The share in which the balls kiss.
    pub kissed: Option<f64>,
    /// The share of every verdict that comes up.
    pub verdicts: BTreeMap<&'static str, f64>,
    /// The strokes that were played.
    pub strokes: u64,
    /// Why there is no such way, or why its stroke as it is meant isn't made.
    pub why_not: Option<String>,
}

impl ChoiceAnswer {
    /// Of an answer.
    pub fn new(found: &ChoiceFindings) -> Self {
        let way = |one: &FoundChoice| WayAnswer::new(one, found);
        Self {
            player: found.player.clone(),
            rule: found.rule.clone(),
            better: found.choice.better().name(),
            sentence: bank_or_cut_sentence(found),
            bank_less_cut: found.choice.apart.map(Into::into),
            bank: found.bank().map(way),
            cut: found.cut().map(way),
            ways: found.choice.found.iter().map(way).collect(),
        }
    }
}

impl WayAnswer {
    fn new(one: &FoundChoice, found: &ChoiceFindings) -> Self {
        let start = one.line.as_ref().ok().and_then(|line| line.start);
        let tally = one.tally.as_ref();
        let verdicts = tally.map_or_else(BTreeMap::new, |tally| {
            let shares = PocketVerdict::NAMES.into_iter().zip(tally.verdicts.iter().copied());
            shares.filter(|(_, share)| *share > 0.0).collect()
        });
        Self {
            kind: if one.way.is_bank() { "bank" } else { "cut" },
            pocket: one.way.pocket().name(),
            rail: one.way.rails().next().map(Rail::name),
            second_rail: one.way.rails().nth(1).map(Rail::name),
            start_diamonds: start.map(|start| start.start),
            read_spread_diamonds: start.map(|start| start.read_spread),
            chance: tally.map(|tally| tally.chance().into()),
            kissed: tally.map(|tally| tally.kissed),
            verdicts,
            strokes: tally.map_or(0, |tally| tally.strokes),
            why_not: why_not(one, found),
        }
    }
}

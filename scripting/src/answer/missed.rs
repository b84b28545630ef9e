//! Why a bank missed, for other programs.

use super::known::IntervalAnswer;
use crate::fitting::{MeasuredTable, MissFindings};
use crate::telling::{AskedUnits, missed_sentences, set_up_words};
use railproof_engine::missed::{CauseOdds, MissCause, MissOdds, NoOdds, ToldApart};
use serde::Serialize;
use std::collections::BTreeMap;

/// The odds of the causes of a miss.
#[derive(Debug, Clone, Serialize)]
pub struct MissAnswer {
    /// The outcome in sentences.
    pub sentence: String,
    /// The bank as it was set up.
    pub bank: String,
    /// The measured banks behind the tables.
    pub banks: usize,
    /// The tables of which it is told.
    pub members: usize,
    /// Why there are no odds; null where there are.
    pub no_odds: Option<&'static str>,
    /// The odds; null where there are none.
    pub odds: Option<OddsAnswer>,
}

/// The odds.
#[derive(Debug, Clone, Serialize)]
pub struct OddsAnswer {
    /// The likeliest main cause.
    pub main: &'static str,
    /// Every cause by its name.
    pub causes: BTreeMap<&'static str, CauseAnswer>,
    /// The chance that the result says nothing.
    pub slip: f64,
    /// Where the line comes to, sent exactly, along the unrolled rails.
    pub exact_m: IntervalAnswer,
    /// The deviation of one such shot about the next.
    pub again_m: f64,
    /// The two likeliest causes; null where one cause alone counts.
    pub apart: Option<ApartAnswer>,
}

/// A cause.
#[derive(Debug, Clone, Serialize)]
pub struct CauseAnswer {
    /// The chance that it is the main one.
    pub odds: f64,
    /// The mean of its part of the miss, positive long.
    pub part_m: f64,
}

/// What tells two causes apart.
#[derive(Debug, Clone, Serialize)]
pub struct ApartAnswer {
    /// The likelier one first.
    pub causes: [&'static str; 2],
    /// The bank that tells them apart; null where none does.
    pub bank: Option<String>,
    /// The chance that it names the right one, as if both were alike likely.
    pub chance: Option<f64>,
    /// The border along the unrolled rails: past it the one of `past_it` is likelier.
    pub border_m: Option<f64>,
    pub past_it: Option<&'static str>,
}

impl MissAnswer {
    /// Of a bank on a table as it is known.
    pub fn new(known: &MeasuredTable, missed: &MissFindings, units: AskedUnits) -> Self {
        Self {
            sentence: missed_sentences(&known.table, missed, units),
            bank: set_up_words(&missed.bank.set_up),
            banks: known.banks(),
            members: known.ensemble.len(),
            no_odds: missed.odds.as_ref().err().map(|why| match why {
                NoOdds::Came => "came",
                NoOdds::Stopped => "stopped",
                NoOdds::NeverThere => "never-there",
            }),
            odds: missed.odds.as_ref().ok().map(OddsAnswer::of),
        }
    }
}

impl OddsAnswer {
    fn of(odds: &MissOdds) -> Self {
        let cause =
            |it: &CauseOdds| (it.cause.name(), CauseAnswer { odds: it.odds, part_m: it.part_m });
        Self {
            main: odds.main().name(),
            causes: odds.causes.iter().map(cause).collect(),
            slip: odds.slip,
            exact_m: odds.exact_m.into(),
            again_m: odds.again_m,
            apart: odds.apart.as_ref().map(ApartAnswer::of),
        }
    }
}

impl ApartAnswer {
    fn of(apart: &ToldApart) -> Self {
        let causes = apart.causes.map(MissCause::name);
        Self {
            causes,
            bank: apart.by.map(|by| set_up_words(&by.set_up)),
            chance: apart.by.map(|by| by.chance),
            border_m: apart.by.map(|by| by.border_m),
            past_it: apart.by.map(|by| causes[usize::from(!by.first_is_longer)]),
        }
    }
}

//! The results of a scenario, as plain data: module `scenario` writes them, `store` and `report` read
//! them.

mod baseline;
mod frontier;
mod left_out;
mod shared;
mod shots;
#[cfg(test)]
pub(crate) mod testing;

pub use baseline::{BaselineReport, MovedParameter};
pub use frontier::FrontierRecord;
pub use left_out::LeftOut;
pub use shared::SharedRecord;
pub use shots::ShotsRecord;

use crate::answer::AnswerTable;
use crate::fault::{Fault, Place};
use crate::picture::{
    BeforeAfterPicture, DifferencePicture, FitPicture, FrontierPicture, LinesPicture, MapPicture,
    TablePicture,
};
use crate::plan::SweepPlan;
use crate::playing::FittingSlope;
use crate::telling::AskedUnits;
use crate::telling::caution::Cautions;
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{Plan, Row, StartRow, Tally};
use std::path::PathBuf;
use std::sync::Arc;

/// Everything one run of a scenario produced.
#[derive(Debug, Default)]
pub struct Record {
    /// The scenario's file name without its ending.
    pub name: String,
    /// The file as it was given.
    pub file: PathBuf,
    /// The scenario's own words on its purpose.
    pub shows: Option<String>,
    /// Remarks on a scenario in which nothing is wrong.
    pub remarks: Vec<String>,
    /// Lines the script printed.
    pub printed: Vec<String>,
    /// The number of printed lines that were dropped because there were too many.
    pub printed_dropped: usize,
    /// Comparisons, in the order in which they were made.
    pub maps: Vec<Arc<MapRecord>>,
    /// Lists of exact start numbers.
    pub starts: Vec<Arc<StartsRecord>>,
    /// Sweeps written down to be played on their own, each with its number among the calls of `plan` and
    /// `compare`.
    pub plans: Vec<(usize, SweepPlan)>,
    /// Sweeps of whole shots.
    pub shots: Vec<Arc<ShotsRecord>>,
    /// Searches for where holding turns into breaking.
    pub frontiers: Vec<Arc<FrontierRecord>>,
    /// Chances of banks, and the rules of searches.
    pub tables: Vec<AnswerTable>,
    /// Pictures asked for.
    pub drawings: Vec<Drawing>,
    /// Expectations, in the order in which they were stated.
    pub expectations: Vec<Expectation>,
    /// What the scenario asks for and does not get, in its order.
    pub left_out: Vec<LeftOut>,
    /// The error, or the stop from outside, that ended the script before its last line.
    pub stopped: Option<Fault>,
    /// Banks of a lone ball played in all.
    pub banks_played: u64,
    /// Whole shots played in all.
    pub shots_played: u64,
    /// The cautions of answers to the scenario: of the speeds and strokes that they gave.
    pub advised: Cautions,
}

/// A comparison: every row of a plan by every rule.
#[derive(Debug)]
pub struct MapRecord {
    /// A name unique in the scenario, fit for a file name.
    pub name: String,
    /// The resolved plan.
    pub plan: Plan,
    /// The rules; empty when the plan gives start numbers itself.
    pub rules: Vec<NamedRule>,
    /// The rows, in order of points and rules.
    pub rows: Vec<Row>,
    /// The units in which people are told of them.
    pub units: AskedUnits,
}

/// Exact start numbers over a plan.
#[derive(Debug)]
pub struct StartsRecord {
    /// A name unique in the scenario, fit for a file name.
    pub name: String,
    /// The resolved plan.
    pub plan: Plan,
    /// The rows.
    pub rows: Vec<StartRow>,
}

impl StartsRecord {
    /// (contact, start) of the exact starts that were found.
    pub fn pairs(&self) -> Vec<(f64, f64)> {
        let pair = |row: &StartRow| Some((row.contact, *row.start.as_ref().ok()?));
        self.rows.iter().filter_map(pair).collect()
    }
}

/// A picture and the file name (without ending) it goes to.
#[derive(Debug)]
pub struct Drawing {
    /// File name without ending, unique in the scenario.
    pub name: String,
    /// The things to draw.
    pub picture: Picture,
}

/// The kinds of picture.
#[derive(Debug)]
pub enum Picture {
    /// A map of verdicts.
    Map(MapPicture),
    /// Where two maps disagree.
    Difference(DifferencePicture),
    /// A map before a change, after it, and the difference.
    BeforeAfter(BeforeAfterPicture),
    /// Lines over a numeric axis.
    Lines(LinesPicture),
    /// Regions where a rule holds, and their edges.
    Frontier(FrontierPicture),
    /// A shot on its table.
    Table(Box<TablePicture>),
    /// A fit of measured banks.
    Fit(FitPicture),
}

impl Picture {
    /// Its title.
    pub fn title(&self) -> &str {
        match self {
            Self::Map(it) => &it.title,
            Self::Difference(it) => &it.title,
            Self::BeforeAfter(it) => &it.title,
            Self::Lines(it) => &it.title,
            Self::Frontier(it) => &it.title,
            Self::Table(it) => &it.title,
            Self::Fit(it) => &it.title,
        }
    }

    /// Its title, to be changed.
    pub const fn title_mut(&mut self) -> &mut String {
        match self {
            Self::Map(it) => &mut it.title,
            Self::Difference(it) => &mut it.title,
            Self::BeforeAfter(it) => &mut it.title,
            Self::Lines(it) => &mut it.title,
            Self::Frontier(it) => &mut it.title,
            Self::Table(it) => &mut it.title,
            Self::Fit(it) => &mut it.title,
        }
    }
}

/// An expectation and whether it held.
#[derive(Debug)]
pub struct Expectation {
    /// The expectation, in words.
    pub expected: String,
    /// The finding, in words.
    pub found: String,
    /// Whether it held.
    pub held: bool,
    /// Where it stands in the scenario.
    pub place: Option<Place>,
    /// A baseline that this expectation held the map to, with what moved.
    pub baseline: Option<BaselineReport>,
}

/// A slope is told beside a rule that holds some banks where it holds so many times more. Chosen.
const MANY_MORE: f64 = 2.0;

impl MapRecord {
    /// The cautions of any of its banks.
    pub fn cautions(&self) -> Cautions {
        Cautions::of_plan(&self.plan)
    }

    /// The slope with which such banks would hold, where none of these does, or where by their one rule it would hold
    /// most of them and many more than the rule does.
    pub fn way_out(&self) -> Option<FittingSlope> {
        let tally = Tally::of(&self.rows);
        let share = tally.holds() as f64 / tally.played() as f64;
        if tally.played() == 0 || share > 0.0 && (self.rules.len() != 1 || share > 0.5 / MANY_MORE)
        {
            return None;
        }
        let better = |found: &FittingSlope| found.share() >= (MANY_MORE * share).max(0.5);
        FittingSlope::of(&self.plan).filter(|found| share == 0.0 || better(found))
    }
}

impl StartsRecord {
    /// The cautions of any of its banks.
    pub fn cautions(&self) -> Cautions {
        Cautions::of_plan(&self.plan)
    }
}

impl Record {
    /// The cautions of anything that the run shows.
    pub fn cautions(&self) -> Cautions {
        let mut all = self.advised.clone();
        self.maps.iter().for_each(|map| all.add(&map.cautions()));
        self.starts.iter().for_each(|starts| all.add(&starts.cautions()));
        self.frontiers.iter().for_each(|front| all.add(&Cautions::of_plan(&front.plan)));
        self.plans.iter().for_each(|(_, plan)| all.add(&Cautions::of_sweep(plan)));
        self.shots.iter().for_each(|shots| all.add(&shots.cautions()));
        all
    }

    /// True when every expectation held or its baseline was accepted.
    pub fn all_held(&self) -> bool {
        self.expectations.iter().all(|expectation| {
            expectation.held
                || expectation.baseline.as_ref().is_some_and(|baseline| baseline.accepted)
        })
    }
}

//! A table as an ensemble knows it.

use crate::fault::Fault;
use crate::profile::{parse_profile, shipped_text};
use railproof_engine::bank::BankError;
use railproof_engine::ensemble::{Ensemble, Member};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::practice::practice_members;

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
    /// How its members were come by.
    pub origin: TableOrigin,
    /// The seed: which of the many such samples is drawn.
    pub seed: u64,
    /// Speeds square to the rail with which measured balls came to it, m/s, at which restitution is told: the slowest,
    /// the middle and the fastest; none where nothing was measured.
    pub square_speeds: Vec<f64>,
}

/// How the members of a table were come by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TableOrigin {
    /// They are narrowed by so many measured banks, seen or filmed.
    Banks(usize),
    /// Published ranges and nothing else.
    Wide,
    /// The facts of common practice come true on them.
    Practice {
        /// The wide members that were tried for them.
        tried: usize,
    },
}

/// Members of a table that nobody measured.
const MEMBERS: usize = 1024;
/// The sample of a table that nobody measured.
const SEED: u64 = 1;

impl MeasuredTable {
    /// A table of these sizes of which nothing is known but published ranges.
    pub fn wide(table: &Equipment, in_inches: bool) -> Self {
        Self {
            in_inches,
            model: table.cushion.rail_model,
            ensemble: Ensemble::wide(MEMBERS, SEED),
            origin: TableOrigin::Wide,
            seed: SEED,
            square_speeds: Vec::new(),
            table: table.clone(),
        }
    }

    /// A table of these sizes on which the facts of common practice come true, which are said of `nine_foot`.
    ///
    /// # Errors
    /// [`BankError`] for a table without the facts' banks.
    pub fn by_practice(
        table: &Equipment,
        nine_foot: &Equipment,
        in_inches: bool,
    ) -> Result<Self, BankError> {
        let model = table.cushion.rail_model;
        let chosen = practice_members(nine_foot, model, MEMBERS, SEED)?;
        Ok(Self {
            table: table.clone(),
            in_inches,
            model,
            ensemble: chosen.ensemble,
            origin: TableOrigin::Practice { tried: chosen.tried },
            seed: SEED,
            square_speeds: Vec::new(),
        })
    }

    /// The number of measured banks behind it.
    pub const fn banks(&self) -> usize {
        match self.origin {
            TableOrigin::Banks(banks) => banks,
            TableOrigin::Wide | TableOrigin::Practice { .. } => 0,
        }
    }

    /// Its name: not that of the table as its profile has it.
    pub fn name(&self) -> String {
        let how = match self.origin {
            TableOrigin::Banks(_) => "measured",
            TableOrigin::Wide => "unmeasured",
            TableOrigin::Practice { .. } => "by common practice",
        };
        format!("{}, {how}", self.table.name)
    }

    /// The table of the ensemble's middle member, by its rail model and under the measured table's name.
    pub fn middle(&self) -> Equipment {
        self.of_member(self.ensemble.middle_member())
    }

    /// The table of one of the ensemble's members, likewise.
    pub fn of_member(&self, member: Option<&Member>) -> Equipment {
        let mut equipment =
            member.map_or_else(|| self.table.clone(), |member| member.equipment(&self.table));
        equipment.cushion.rail_model = self.model;
        equipment.name = self.name();
        equipment
    }
}

/// The table of which facts of practice are said: the nine-foot one that ships.
///
/// # Errors
/// None for the profile that ships.
pub fn nine_foot() -> Result<Equipment, Fault> {
    parse_profile(shipped_text("nine-foot").unwrap_or_default(), "nine-foot")
}

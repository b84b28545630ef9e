//! Exact starts on every table of an ensemble, and the lines fitted to them.

use super::{CredibleInterval, MemberShare};
use crate::bank::{Bank, BankError, exact_start};
use crate::column::SetUp;
use crate::ensemble::{Ensemble, Member};
use crate::equipment::{Equipment, RailModel};
use crate::sweep::LineFit;
use rayon::prelude::*;

/// The start number through the middle of the mouth, over an ensemble's tables.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartOnTables {
    /// The start; `None` where no table has one.
    pub start: Option<CredibleInterval>,
    /// The share of tables that have one.
    pub has_start: MemberShare,
}

/// Exact starts of banks on the tables of an ensemble.
#[derive(Debug, Clone, PartialEq)]
pub struct EnsembleStarts {
    contacts: Vec<f64>,
    /// A row for each member with a start for each bank; not a number where there is none.
    starts: Vec<Vec<f64>>,
    weights: Vec<f64>,
}

impl EnsembleStarts {
    /// Looks for the start of every bank on every member's table. The set-ups' own starts play no part.
    /// `tick` is called once a member, from any thread.
    ///
    /// # Errors
    /// [`BankError`] for a rail and a pocket that make no bank.
    pub fn of(
        table: &Equipment,
        model: RailModel,
        ensemble: &Ensemble,
        set_ups: &[SetUp],
        tick: &(impl Fn() + Sync + ?Sized),
    ) -> Result<Self, BankError> {
        let of_member = |member: &Member| {
            let equipment = member.equipment(table);
            let starts = set_ups.iter().map(|set_up| {
                let bank = Bank::new(&equipment, set_up.rail, set_up.pocket, model)?;
                let launch = set_up.launch(&equipment);
                Ok(exact_start(&bank, set_up.line.contact, launch).unwrap_or(f64::NAN))
            });
            tick();
            starts.collect::<Result<Vec<f64>, BankError>>()
        };
        Ok(Self {
            contacts: set_ups.iter().map(|set_up| set_up.line.contact).collect(),
            starts: ensemble.members().par_iter().map(of_member).collect::<Result<_, _>>()?,
            weights: ensemble.weights().to_vec(),
        })
    }

    /// The start of one bank.
    pub fn start(&self, bank: usize) -> StartOnTables {
        let starts: Vec<f64> = self.starts.iter().map(|row| row[bank]).collect();
        let is_start = starts.iter().map(|start| start.is_finite());
        StartOnTables {
            start: CredibleInterval::of(&starts, &self.weights),
            has_start: MemberShare::of(is_start, &self.weights),
        }
    }

    /// The member whose start of a bank lies nearest to the middle of all starts; `None` where no table has one.
    pub fn middle_member(&self, bank: usize) -> Option<usize> {
        let middle = self.start(bank).start?.middle;
        let off = |member: &usize| (self.starts[*member][bank] - middle).abs();
        let with_start = (0..self.starts.len()).filter(|it| self.starts[*it][bank].is_finite());
        with_start.min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    /// A line fitted to the starts of some banks on each table; `None` for a table that lacks one of them, or
    /// whose starts give no line.
    pub fn lines(
        &self,
        banks: &[usize],
        fit: fn(&[(f64, f64)]) -> Option<LineFit>,
    ) -> Vec<Option<LineFit>> {
        self.starts
            .iter()
            .map(|row| {
                let pairs: Vec<(f64, f64)> =
                    banks.iter().map(|bank| (self.contacts[*bank], row[*bank])).collect();
                if pairs.iter().all(|(_, start)| start.is_finite()) { fit(&pairs) } else { None }
            })
            .collect()
    }

    /// The interval of a number of such lines.
    pub fn interval(
        &self,
        lines: &[Option<LineFit>],
        number: fn(&LineFit) -> f64,
    ) -> Option<CredibleInterval> {
        let values: Vec<f64> =
            lines.iter().map(|line| line.as_ref().map_or(f64::NAN, number)).collect();
        CredibleInterval::of(&values, &self.weights)
    }

    /// The share of tables that have such a line.
    pub fn share_of(&self, lines: &[Option<LineFit>]) -> MemberShare {
        MemberShare::of(lines.iter().map(Option::is_some), &self.weights)
    }
}

//! The likelihood of measured banks.

use super::draws::NormalDraws;
use super::normal::{density, share_between};
use super::{Levers, MeasuredBank, Seen};
use crate::bank::BankError;
use crate::column::{Hand, Landing, SetUp, columns};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};

/// Measured banks, ready to be held against members.
#[derive(Debug, Clone)]
pub struct Evidence {
    table: Equipment,
    model: RailModel,
    banks: Vec<MeasuredBank>,
    set_ups: Vec<SetUp>,
    levers: Vec<Levers>,
}

impl Evidence {
    /// Makes ready.
    ///
    /// # Errors
    /// As [`columns`].
    pub fn new(
        table: &Equipment,
        model: RailModel,
        banks: Vec<MeasuredBank>,
    ) -> Result<Self, BankError> {
        let set_ups: Vec<SetUp> = banks.iter().map(|bank| bank.set_up).collect();
        let shots: Vec<_> = banks.iter().map(|bank| (bank.set_up, bank.scatter)).collect();
        let levers = Levers::of(table, model, &shots)?;
        Ok(Self { table: table.clone(), model, banks, set_ups, levers })
    }

    /// The banks.
    pub fn banks(&self) -> &[MeasuredBank] {
        &self.banks
    }

    /// The logarithm of each member's likelihood of every bank: a row for each member.
    ///
    /// # Errors
    /// As [`columns`].
    pub fn log_likelihoods(&self, members: &[Member]) -> Result<Vec<Vec<f64>>, BankError> {
        let seen = columns(&self.table, self.model, members, &self.set_ups, Hand::Members)?;
        Ok(members
            .iter()
            .enumerate()
            .map(|(at, member)| {
                (0..self.banks.len())
                    .map(|bank| self.log_likelihood(bank, member, &seen[bank][at]))
                    .collect()
            })
            .collect())
    }

    /// Places where each bank could come to when these members' players send it again, m: a row for each bank,
    /// with one place of every member, scattered as its shots scatter and read as well as the measured one.
    ///
    /// # Errors
    /// As [`columns`].
    pub fn predictions(&self, members: &[Member], seed: u64) -> Result<Vec<Vec<f64>>, BankError> {
        let seen = columns(&self.table, self.model, members, &self.set_ups, Hand::Members)?;
        let draws = NormalDraws { seed, uses: self.banks.len() };
        let place = |bank: usize, at: usize, member: &Member| {
            let measured = &self.banks[bank];
            let variance_m2 = self.levers[bank].variance_m2(member, &measured.scatter);
            let read_to_m = match measured.seen {
                Seen::At { read_to_m, .. } => read_to_m,
                _ => 0.0,
            };
            let sd_m = (variance_m2 + read_to_m * read_to_m).sqrt();
            seen[bank][at].along_m + sd_m * draws.normal(at as u64, bank)
        };
        Ok((0..self.banks.len())
            .map(|bank| {
                members.iter().enumerate().map(|(at, member)| place(bank, at, member)).collect()
            })
            .collect())
    }

    /// The chance that each bank's result is wrong altogether, over members of equal weight: by the rows that
    /// [`Evidence::log_likelihoods`] gives.
    pub fn chances_of_a_slip(&self, rows: &[Vec<f64>]) -> Vec<f64> {
        let chance = |bank: usize, row: &Vec<f64>| {
            let measured = &self.banks[bank];
            let whole = libm::exp(row[bank] / f64::from(measured.repeats));
            measured.scatter.wrong * by_chance(measured.seen) / whole
        };
        (0..self.banks.len())
            .map(|bank| rows.iter().map(|row| chance(bank, row)).sum::<f64>() / rows.len() as f64)
            .collect()
    }

    fn log_likelihood(&self, bank: usize, member: &Member, landing: &Landing) -> f64 {
        let measured = &self.banks[bank];
        let variance_m2 = self.levers[bank].variance_m2(member, &measured.scatter);
        let likely = match measured.seen {
            Seen::At { along_m, read_to_m } => {
                let sd = (variance_m2 + read_to_m * read_to_m).sqrt();
                let z = (along_m - landing.along_m) / sd;
                density(z) / sd
            }
            word => word_share(word, landing, variance_m2.sqrt()),
        };
        let likely = if landing.is_told() { likely } else { 0.0 };
        let wrong = measured.scatter.wrong;
        f64::from(measured.repeats)
            * libm::log((1.0 - wrong) * likely + wrong * by_chance(measured.seen))
    }
}

/// The share or density of a result that is wrong altogether.
const fn by_chance(seen: Seen) -> f64 {
    match seen {
        Seen::At { .. } => 1.0 / UNROLLED_M,
        _ => 1.0 / WORDS,
    }
}

/// A wrong number may stand anywhere along some four metres of rail.
const UNROLLED_M: f64 = 4.0;
/// A wrong word may be any of four.
const WORDS: f64 = 4.0;

/// The share of a member's shots of which this word is said.
fn word_share(word: Seen, landing: &Landing, sd_m: f64) -> f64 {
    let sd_m = sd_m.max(LEAST_SD_M);
    let between = |from: f64, to: f64| {
        if to > from {
            share_between((from - landing.along_m) / sd_m, (to - landing.along_m) / sd_m)
        } else {
            0.0
        }
    };
    let (mouth_from, mouth_to) = landing.mouth_m;
    let (from, to) = landing.holds_m;
    let holds = between(from.max(mouth_from), to.min(mouth_to));
    match word {
        Seen::Holds => holds,
        Seen::Touches => (between(mouth_from, mouth_to) - holds).max(0.0),
        Seen::Long => between(mouth_to, f64::INFINITY),
        Seen::Short => between(f64::NEG_INFINITY, mouth_from),
        Seen::At { .. } => 0.0,
    }
}

/// Nobody sends a ball more exactly, m.
const LEAST_SD_M: f64 = 1e-6;

//! One combination of everything that is not searched: plays a bank at any place.

use super::probe::{Looks, Probe};
use crate::bank::{Bank, BankVerdict, Launch, Outcome};
use crate::batch::{self, ColumnChoice, Inputs, Outcomes};
use crate::rail::Line;
use crate::rule::NamedRule;
use crate::sweep::{Input, Plan, PlanError, PointValues, ruled_line};
use std::borrow::Cow;
use std::sync::atomic::{AtomicU64, Ordering};

/// One combination of everything that is not searched.
pub(super) struct Case<'a> {
    plan: &'a Plan,
    /// A value of each axis; those that are searched are set at each look.
    values: PointValues,
    rule: Option<&'a NamedRule>,
    /// Places in the plan of the inputs searched along and traced over.
    along: usize,
    across: Option<usize>,
    bank: Bank,
    /// Whether a searched input makes another table.
    other_tables: bool,
    /// The line, when nothing that is searched moves it.
    line: Option<Line>,
    /// The speed of a lag, likewise, m/s.
    lag_m_s: Option<f64>,
    looks: AtomicU64,
    tick: &'a (dyn Fn() + Sync),
}

impl<'a> Case<'a> {
    pub fn new(
        plan: &'a Plan,
        digits: &[usize],
        rule: Option<&'a NamedRule>,
        (along, across): (usize, Option<usize>),
        tick: &'a (dyn Fn() + Sync),
    ) -> Result<Self, PlanError> {
        let values = PointValues::of_digits(plan, digits);
        let bank = plan.table(&values)?;
        let searched = |of: fn(Input) -> bool| {
            let input = |place: usize| of(plan.axes()[place].input);
            input(along) || across.is_some_and(input)
        };
        let other_tables = searched(|input| !input.is_launch());
        let looks = AtomicU64::new(0);
        let mut case = Self {
            plan,
            values,
            rule,
            along,
            across,
            bank,
            other_tables,
            line: None,
            lag_m_s: None,
            looks,
            tick,
        };
        if !other_tables && !searched(|input| input == Input::Contact) {
            case.line = case.ruled(&case.values, &case.bank)?;
        }
        if !other_tables && !searched(|input| input == Input::Lag) {
            case.lag_m_s = Some(plan.launch_at(&case.values, &case.bank).speed_m_s);
        }
        Ok(case)
    }

    /// Number of banks played.
    pub fn looks(&self) -> u64 {
        self.looks.load(Ordering::Relaxed)
    }

    /// The line and the launch at a place on its table.
    fn sent(&self, values: &PointValues, bank: &Bank) -> Result<(Line, Launch), PlanError> {
        let launch = match self.lag_m_s {
            Some(m_s) => self.plan.launch_with(values, |_| m_s),
            None => self.plan.launch_at(values, bank),
        };
        let launch = launch.validated(bank.geometry().span_m)?;
        let line = match self.line {
            Some(line) => line,
            None => self.ruled(values, bank)?.unwrap_or_else(|| {
                let start = values.number(self.plan, Input::Start).unwrap_or(0.0);
                Line::new(self.contact(values), start)
            }),
        };
        Ok((line, launch))
    }

    /// The table at a place.
    ///
    /// # Errors
    /// Equipment that does not fit together there.
    pub fn table(&self, across: Option<f64>, along: f64) -> Result<Cow<'_, Bank>, PlanError> {
        self.table_of(&self.values_at(across, along))
    }

    fn table_of(&self, values: &PointValues) -> Result<Cow<'_, Bank>, PlanError> {
        if self.other_tables {
            return self.plan.table(values).map(Cow::Owned);
        }
        Ok(Cow::Borrowed(&self.bank))
    }

    fn values_at(&self, across: Option<f64>, along: f64) -> PointValues {
        let mut values = self.values.clone();
        values.numbers[self.along] = along;
        if let (Some(place), Some(across)) = (self.across, across) {
            values.numbers[place] = across;
        }
        values
    }

    fn contact(&self, values: &PointValues) -> f64 {
        values.number(self.plan, Input::Contact).unwrap_or(0.0)
    }

    /// The rule's line; `None` when the plan gives start numbers itself.
    fn ruled(&self, values: &PointValues, bank: &Bank) -> Result<Option<Line>, PlanError> {
        let Some(named) = self.rule else { return Ok(None) };
        ruled_line(named, self.contact(values), bank, || values.say(self.plan)).map(Some)
    }
}

/// Looks play banks; those along one line on one table are played together.
///
/// Errors are a table or launch that is refused there, or a rule without an answer.
impl Looks<Outcome, PlanError> for Case<'_> {
    fn look(&self, across: f64, along: f64) -> Result<Probe<Outcome>, PlanError> {
        let values = self.values_at(Some(across), along);
        let bank = self.table_of(&values)?;
        let (line, launch) = self.sent(&values, &bank)?;
        let outcome = bank.play_validated(line, launch);
        self.looks.fetch_add(1, Ordering::Relaxed);
        (self.tick)();
        Ok(looked(along, &outcome))
    }

    fn look_along(&self, across: f64, along: &[f64]) -> Result<Vec<Probe<Outcome>>, PlanError> {
        if self.other_tables {
            return along.iter().map(|along| self.look(across, *along)).collect();
        }
        let mut inputs = Inputs::with_capacity(along.len());
        for along in along {
            let (line, launch) = self.sent(&self.values_at(Some(across), *along), &self.bank)?;
            inputs.push(line, launch);
        }
        let mut played = Outcomes::default();
        batch::play(&self.bank, &inputs, ColumnChoice::Whole, &mut played);
        self.looks.fetch_add(along.len() as u64, Ordering::Relaxed);
        for _ in along {
            (self.tick)();
        }
        Ok(along.iter().zip(&played.whole).map(|(at, outcome)| looked(*at, outcome)).collect())
    }
}

/// The verdict and rooms that a bank's outcome gives.
fn looked(at: f64, outcome: &Outcome) -> Probe<Outcome> {
    let rooms =
        outcome.arrival.map(|arrival| [arrival.clearance_long_m, arrival.clearance_short_m]);
    Probe { at, holds: outcome.verdict() == BankVerdict::Holds, rooms, what: *outcome }
}

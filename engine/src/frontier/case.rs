//! One combination of everything that is not searched: plays a bank at any place.

use super::sample::Sample;
use crate::bank::{Bank, Launch, Outcome, Verdict};
use crate::rail::Line;
use crate::rule::NamedRule;
use crate::sweep::{Input, Plan, PlanError};
use crate::units::Speed;
use std::borrow::Cow;
use std::sync::atomic::{AtomicU64, Ordering};

/// One combination of everything that is not searched.
pub(super) struct Case<'a> {
    plan: &'a Plan,
    /// A value of each axis; those that are searched are set at each look.
    digits: Vec<usize>,
    rule: Option<&'a NamedRule>,
    along: Input,
    across: Option<Input>,
    bank: Bank,
    /// The line, when nothing that is searched moves it.
    line: Option<Line>,
    looks: AtomicU64,
    tick: &'a (dyn Fn() + Sync),
}

impl<'a> Case<'a> {
    pub fn new(
        plan: &'a Plan,
        digits: Vec<usize>,
        rule: Option<&'a NamedRule>,
        (along, across): (Input, Option<Input>),
        tick: &'a (dyn Fn() + Sync),
    ) -> Result<Self, PlanError> {
        let bank = plan.bank(&digits)?;
        let looks = AtomicU64::new(0);
        let mut case = Self { plan, digits, rule, along, across, bank, line: None, looks, tick };
        let moves = |input: Input| input == Input::Contact || !input.is_launch();
        if !moves(along) && !across.is_some_and(moves) {
            let contact = plan.number(Input::Contact, &case.digits).unwrap_or(0.0);
            case.line = case.ruled(contact, &case.bank, String::new)?;
        }
        Ok(case)
    }

    /// How many banks were played.
    pub fn looks(&self) -> u64 {
        self.looks.load(Ordering::Relaxed)
    }

    /// Plays the bank at a place.
    ///
    /// # Errors
    /// A table or launch that is refused there, or a rule without an answer.
    pub fn look(&self, across: Option<f64>, along: f64) -> Result<Sample<Outcome>, PlanError> {
        let bank = self.table(across, along)?;
        let places = || self.places(across, along);
        let mut launch = self.plan.launch(&self.digits, &bank);
        let mut contact = self.plan.number(Input::Contact, &self.digits).unwrap_or(0.0);
        let mut start = self.plan.number(Input::Start, &self.digits).unwrap_or(0.0);
        for (input, value) in places() {
            match input {
                Input::Contact => contact = value,
                Input::Start => start = value,
                _ => set_launch(input, value, &mut launch, &bank),
            }
        }
        let launch = launch.validated(bank.geometry().span_m)?;
        let line = match self.line {
            Some(line) => line,
            None => self
                .ruled(contact, &bank, || label(places()))?
                .unwrap_or_else(|| Line::new(contact, start)),
        };
        self.looks.fetch_add(1, Ordering::Relaxed);
        let outcome = bank.play_validated(line, launch);
        (self.tick)();
        Ok(sample(along, &outcome))
    }

    /// The table at a place.
    ///
    /// # Errors
    /// Equipment that does not fit together there.
    pub fn table(&self, across: Option<f64>, along: f64) -> Result<Cow<'_, Bank>, PlanError> {
        let mut changes =
            self.places(across, along).filter(|(input, _)| !input.is_launch()).peekable();
        if changes.peek().is_none() {
            return Ok(Cow::Borrowed(&self.bank));
        }
        let mut equipment = self.bank.equipment().clone();
        for (input, value) in changes {
            input.apply(&mut equipment, value);
        }
        let equipment = equipment.validated()?;
        let geometry = self.bank.geometry();
        let bank = Bank::new(&equipment, geometry.rail, geometry.pocket, self.bank.model())?;
        Ok(Cow::Owned(bank))
    }

    fn places(&self, across: Option<f64>, along: f64) -> impl Iterator<Item = (Input, f64)> {
        self.across.zip(across).into_iter().chain([(self.along, along)])
    }

    /// The rule's line; `None` when the plan gives start numbers itself.
    fn ruled(
        &self,
        contact: f64,
        bank: &Bank,
        label: impl Fn() -> String,
    ) -> Result<Option<Line>, PlanError> {
        let Some(named) = self.rule else { return Ok(None) };
        let rule = || named.name.clone();
        let point = || match label() {
            place if place.is_empty() => format!("contact {contact}"),
            place => place,
        };
        let line = named
            .rule
            .line_for_contact(contact, bank.geometry())
            .map_err(|error| PlanError::Rule { rule: rule(), point: point(), error })?;
        if let Some(range) = Input::Start.parameter() {
            range.check(line.start).map_err(|error| PlanError::FarStart {
                rule: rule(),
                point: point(),
                error: Box::new(error),
            })?;
        }
        Ok(Some(line))
    }
}

/// What a bank's outcome says of the rule.
fn sample(at: f64, outcome: &Outcome) -> Sample<Outcome> {
    let rooms =
        outcome.arrival.map(|arrival| [arrival.clearance_long_m, arrival.clearance_short_m]);
    Sample { at, holds: outcome.verdict() == Verdict::Holds, rooms, what: *outcome }
}

fn set_launch(input: Input, value: f64, launch: &mut Launch, bank: &Bank) {
    match input {
        Input::OffRail => launch.off_rail_m = value,
        Input::Speed => launch.speed_m_s = value,
        Input::Lag => {
            let equipment = bank.equipment();
            launch.speed_m_s = Speed::TableLengths(value)
                .metres_per_second(equipment.table.length_m, equipment.rolling_deceleration_m_s2());
        }
        Input::Roll => launch.roll = value,
        Input::Side => launch.side = value,
        Input::AimError => launch.aim_error_rad = value,
        _ => {}
    }
}

fn label(places: impl Iterator<Item = (Input, f64)>) -> String {
    let words = places.map(|(input, value)| {
        let unit = input.parameter().map_or("", |parameter| parameter.dimension.si_symbol());
        format!("{} {value} {unit}", input.name()).trim_end().to_owned()
    });
    words.collect::<Vec<_>>().join(", ")
}

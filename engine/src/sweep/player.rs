//! A run of points played by every rule, in columns.

use super::aiming::{check_aim, ruled_line};
use super::lags::LagSpeeds;
use super::{Input, Plan, PlanCursor, PlanError, PointValues};
use crate::bank::{Bank, Launch};
use crate::batch::{self, ColumnChoice, Inputs, Outcomes};
use crate::equipment::RailModel;
use crate::rail::Line;
use crate::rule::NamedRule;
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};

/// Banks that are played together.
const TOGETHER: usize = 2048;
/// The same of a model that takes a millisecond a bank: nobody waits long for a stop.
const STEPPED_TOGETHER: usize = 32;

/// The rows of a run of points, ordered by point, and by rule within a point.
#[derive(Debug, Clone, Default)]
pub struct PlayedRows {
    /// Index of each row's point in the plan.
    pub point: Vec<u64>,
    /// Index of each row's rule; 0 when the plan gives start numbers itself.
    pub rule: Vec<usize>,
    /// For each axis of the plan that varies, each row's value.
    pub axes: Vec<AxisColumn>,
    /// The inputs of the ball, a row each; the start is NaN where the point failed.
    pub inputs: Inputs,
    /// The outcomes, a row each.
    pub outcomes: Outcomes,
    /// Rows that could not be played, in order.
    pub failures: Vec<Failure>,
}

/// The values of one axis, a row each.
#[derive(Debug, Clone, Default)]
pub struct AxisColumn {
    /// Which axis of the plan.
    pub axis: usize,
    /// Index of the value in the axis' list; 0 for a range.
    pub digits: Vec<usize>,
    /// The number, SI; not a number for words.
    pub numbers: Vec<f64>,
}

impl AxisColumn {
    fn emptied(&self) -> Self {
        Self { axis: self.axis, ..Self::default() }
    }
}

/// A row that could not be played.
#[derive(Debug, Clone, PartialEq)]
pub struct Failure {
    /// The row in its run.
    pub row: usize,
    /// Why.
    pub error: PlanError,
}

impl PlayedRows {
    /// No rows, with a column for each axis of the plan that varies.
    pub fn empty_of(plan: &Plan) -> Self {
        let varying = plan.axes().iter().enumerate().filter(|(_, axis)| axis.varies());
        let axes = varying.map(|(axis, _)| AxisColumn { axis, ..AxisColumn::default() }).collect();
        Self { axes, ..Self::default() }
    }

    /// The number of rows.
    pub fn len(&self) -> usize {
        self.point.len()
    }

    /// True without rows.
    pub fn is_empty(&self) -> bool {
        self.point.is_empty()
    }

    /// Adds another's rows that could not be played.
    pub fn append_failures(&mut self, other: &Self) {
        if self.axes.is_empty() {
            let axes = other.axes.iter();
            self.axes = axes.map(AxisColumn::emptied).collect();
        }
        for failure in &other.failures {
            let row = failure.row;
            self.failures.push(Failure { row: self.len(), error: failure.error.clone() });
            self.point.push(other.point[row]);
            self.rule.push(other.rule[row]);
            for (column, from) in self.axes.iter_mut().zip(&other.axes) {
                column.digits.push(from.digits[row]);
                column.numbers.push(from.numbers[row]);
            }
            self.inputs.push(other.inputs.line(row), other.inputs.launch(row));
            self.outcomes.push_nothing();
        }
    }

    /// Adds what names a point's rows.
    fn begin(&mut self, point: u64, at: &PointValues, ways: usize) {
        for rule in 0..ways {
            self.point.push(point);
            self.rule.push(rule);
            for column in &mut self.axes {
                column.digits.push(at.digits[column.axis]);
                column.numbers.push(at.numbers[column.axis]);
            }
        }
    }

    /// Adds the outcome of a row of a point without a table.
    fn fail(&mut self, contact: f64, launch: Launch, error: PlanError) {
        self.failures.push(Failure { row: self.outcomes.len(), error });
        self.inputs.push(Line::new(contact, f64::NAN), launch);
        self.outcomes.push_nothing();
    }

    /// Forgets all rows and keeps the memory.
    pub fn clear(&mut self) {
        self.point.clear();
        self.rule.clear();
        for column in &mut self.axes {
            column.digits.clear();
            column.numbers.clear();
        }
        self.inputs.clear();
        self.outcomes.clear();
        self.failures.clear();
    }
}

/// Plays points of a plan by its rules.
#[derive(Debug)]
pub struct Player<'a> {
    plan: &'a Plan,
    rules: &'a [NamedRule],
    wanted: ColumnChoice,
    until_refused: bool,
    /// Each rule's last line on this table, and its contact number.
    lines: Vec<Option<(f64, Line)>>,
    lags: LagSpeeds,
    group: Inputs,
    outcomes: Outcomes,
}

impl<'a> Player<'a> {
    /// Gets ready.
    ///
    /// # Errors
    /// A plan that gives start numbers and rules both, or neither.
    pub fn new(
        plan: &'a Plan,
        rules: &'a [NamedRule],
        wanted: ColumnChoice,
    ) -> Result<Self, PlanError> {
        check_aim(plan, rules)?;
        Ok(Self {
            plan,
            rules,
            wanted,
            until_refused: false,
            lines: vec![None; rules.len()],
            lags: LagSpeeds::default(),
            group: Inputs::default(),
            outcomes: Outcomes::default(),
        })
    }

    /// The same, which stops at the first failure.
    #[must_use]
    pub fn until_refused(self) -> Self {
        Self { until_refused: true, ..self }
    }

    /// Plays the points and adds their rows; false when `stop` turned true before the end. A point
    /// that can't be played is a failure and does not keep the others from being played. Nothing
    /// depends on what was played before.
    pub fn play(&mut self, points: Range<u64>, into: &mut PlayedRows, stop: &AtomicBool) -> bool {
        if into.axes.is_empty() {
            into.axes = PlayedRows::empty_of(self.plan).axes;
        }
        if points.is_empty() {
            return true;
        }
        let mut walk = PlanCursor::from(self.plan, points.start);
        let mut table: Option<Result<Bank, PlanError>> = None;
        let mut together = TOGETHER;
        while walk.point() < points.end {
            if stop.load(Ordering::Relaxed) || self.until_refused && !into.failures.is_empty() {
                return false;
            }
            if !walk.same_table() || table.is_none() {
                self.flush(table.as_ref(), into);
                self.lines.fill(None);
                table = Some(self.plan.table(walk.values()));
                together = match &table {
                    Some(Ok(bank)) if bank.model() == RailModel::Compliant => STEPPED_TOGETHER,
                    _ => TOGETHER,
                };
            } else if self.group.len() >= together {
                self.flush(table.as_ref(), into);
            }
            into.begin(walk.point(), walk.values(), self.ways());
            match &table {
                Some(Ok(bank)) => self.add(walk.values(), bank, into),
                Some(Err(error)) => {
                    let contact = walk.values().number(self.plan, Input::Contact).unwrap_or(0.0);
                    let launch = self.plan.launch_without_table(walk.values());
                    for _ in 0..self.ways() {
                        into.fail(contact, launch, error.clone());
                    }
                }
                None => {}
            }
            walk.step();
        }
        self.flush(table.as_ref(), into);
        true
    }

    /// Rows of a point.
    fn ways(&self) -> usize {
        self.rules.len().max(1)
    }

    /// Makes a point's rows ready to be played.
    fn add(&mut self, at: &PointValues, bank: &Bank, into: &mut PlayedRows) {
        let contact = at.number(self.plan, Input::Contact).unwrap_or(0.0);
        let lags = &mut self.lags;
        let launch = self.plan.launch_with(at, |lengths| lags.m_s(lengths, bank.equipment()));
        let allowed = launch.validated(bank.geometry().span_m).map_err(PlanError::from);
        for rule in 0..self.ways() {
            let line = allowed.clone().and_then(|_| match self.rules.get(rule) {
                Some(named) => self.line(rule, named, contact, bank, at),
                None => Ok(Line::new(contact, at.number(self.plan, Input::Start).unwrap_or(0.0))),
            });
            // No ball can be sent from a start that is not a number: such a row plays to nothing.
            let line = line.unwrap_or_else(|error| {
                let row = into.outcomes.len() + self.group.len();
                into.failures.push(Failure { row, error });
                Line::new(contact, f64::NAN)
            });
            self.group.push(line, launch);
        }
    }

    /// A rule's line; the last one when the contact is the same.
    fn line(
        &mut self,
        rule: usize,
        named: &NamedRule,
        contact: f64,
        bank: &Bank,
        at: &PointValues,
    ) -> Result<Line, PlanError> {
        if let Some((known, line)) = self.lines[rule]
            && known.to_bits() == contact.to_bits()
        {
            return Ok(line);
        }
        let line = ruled_line(named, contact, bank, || at.say(self.plan))?;
        self.lines[rule] = Some((contact, line));
        Ok(line)
    }

    /// Plays what is ready.
    fn flush(&mut self, table: Option<&Result<Bank, PlanError>>, into: &mut PlayedRows) {
        if let Some(Ok(bank)) = table
            && !self.group.is_empty()
        {
            batch::play(bank, &self.group, self.wanted, &mut self.outcomes);
            into.inputs.append(&self.group);
            into.outcomes.append(&self.outcomes);
            self.group.clear();
        }
    }
}

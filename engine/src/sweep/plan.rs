//! A sweep as plain data: every input has its values, and a point is one of each.

use super::{Input, PlanError};
use crate::equipment::{Equipment, RailModel};
use crate::rail::{PocketChoice, RailChoice};
use crate::sample::{Sample, Sampling};
use serde::{Deserialize, Serialize};

/// The most rows (points times rules) that are held in memory at once.
pub const MAX_ROWS: usize = 2_000_000;

/// The values of one input.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Values {
    /// SI numbers.
    Numbers(Vec<f64>),
    /// All SI numbers between two, for plans that sample.
    Range(Span),
    /// Equipment.
    Equipment(Vec<Equipment>),
    /// Rails.
    Rails(Vec<RailChoice>),
    /// Pockets.
    Pockets(Vec<PocketChoice>),
    /// Rail models.
    Models(Vec<RailModel>),
}

/// From one number to a greater one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Span {
    /// The least number.
    pub low: f64,
    /// The greatest; it is approached and not reached.
    pub high: f64,
}

impl Values {
    /// The number of values; a range counts as one.
    pub fn len(&self) -> usize {
        match self {
            Self::Numbers(values) => values.len(),
            Self::Range(_) => 1,
            Self::Equipment(values) => values.len(),
            Self::Rails(values) => values.len(),
            Self::Pockets(values) => values.len(),
            Self::Models(values) => values.len(),
        }
    }

    /// True when there are none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The number at an index, when these are numbers.
    pub fn number(&self, index: usize) -> Option<f64> {
        match self {
            Self::Numbers(values) => values.get(index).copied(),
            _ => None,
        }
    }

    /// The one value at an index; a range stays whole.
    pub fn only(&self, index: usize) -> Option<Self> {
        Some(match self {
            Self::Numbers(values) => Self::Numbers(vec![*values.get(index)?]),
            Self::Range(span) => Self::Range(*span),
            Self::Equipment(values) => Self::Equipment(vec![values.get(index)?.clone()]),
            Self::Rails(values) => Self::Rails(vec![*values.get(index)?]),
            Self::Pockets(values) => Self::Pockets(vec![*values.get(index)?]),
            Self::Models(values) => Self::Models(vec![*values.get(index)?]),
        })
    }

    /// The name at an index, when these are not numbers.
    pub fn word(&self, index: usize) -> Option<&str> {
        match self {
            Self::Numbers(_) | Self::Range(_) => None,
            Self::Equipment(values) => values.get(index).map(|value| value.name.as_str()),
            Self::Rails(values) => values.get(index).map(|value| value.name()),
            Self::Pockets(values) => values.get(index).map(|value| value.name()),
            Self::Models(values) => values.get(index).map(|value| value.name()),
        }
    }
}

/// An input and its values.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Axis {
    /// Which input.
    pub input: Input,
    /// Its values.
    pub values: Values,
}

/// All inputs of a sweep: a grid, whose first axis varies slowest, or a sample.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plan {
    axes: Vec<Axis>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sample: Option<Sample>,
}

impl Plan {
    /// Checks the axes and adds the defaults of inputs that were not given: off the rail 0, no
    /// spin, no aim error, a long rail, a corner pocket, the rail model of the equipment's cushion.
    ///
    /// # Errors
    /// [`PlanError`] for an empty, doubled, missing or contradictory axis, or a value outside its
    /// range.
    pub fn new(axes: Vec<Axis>) -> Result<Self, PlanError> {
        for (index, axis) in axes.iter().enumerate() {
            let name = axis.input.name();
            if axis.values.is_empty() {
                return Err(PlanError::EmptyAxis { axis: name });
            }
            if axes[..index].iter().any(|other| other.input == axis.input) {
                return Err(PlanError::Twice { axis: name });
            }
            axis.check()?;
        }
        let mut plan = Self { axes, sample: None };
        let has = |plan: &Self, input| plan.axis(input).is_some();
        for (first, second) in [(Input::Speed, Input::Lag)] {
            if has(&plan, first) && has(&plan, second) {
                return Err(PlanError::Contradiction {
                    first: first.name(),
                    second: second.name(),
                });
            }
        }
        for input in [Input::Equipment, Input::Contact] {
            if !has(&plan, input) {
                return Err(PlanError::Missing { axis: input.name() });
            }
        }
        if !has(&plan, Input::Speed) && !has(&plan, Input::Lag) {
            return Err(PlanError::Missing { axis: Input::Speed.name() });
        }
        let zero = |input| Axis { input, values: Values::Numbers(vec![0.0]) };
        let defaults = [
            Axis { input: Input::Rail, values: Values::Rails(vec![RailChoice::Long]) },
            Axis { input: Input::Pocket, values: Values::Pockets(vec![PocketChoice::Corner]) },
            zero(Input::OffRail),
            zero(Input::Roll),
            zero(Input::RunningSide),
            zero(Input::AimError),
        ];
        for axis in defaults {
            if !has(&plan, axis.input) {
                plan.axes.push(axis);
            }
        }
        Ok(plan)
    }

    /// As [`Plan::new`], with `points` points spread over the ranges and lists instead of all of a
    /// grid: every axis with a choice is a dimension of the sample, in the order of the axes.
    ///
    /// # Errors
    /// As [`Plan::new`]; [`PlanError::Sample`] when nothing varies or there are no or too many
    /// points.
    pub fn sampled(
        axes: Vec<Axis>,
        how: Sampling,
        points: u64,
        seed: u64,
    ) -> Result<Self, PlanError> {
        let mut plan = Self::new(axes)?;
        let dimensions = plan.axes.iter().filter(|axis| axis.varies()).count();
        plan.sample = Some(Sample::new(how, points, seed, dimensions)?);
        Ok(plan)
    }

    /// The way the points are spread, unless they are a grid.
    pub const fn sample(&self) -> Option<&Sample> {
        self.sample.as_ref()
    }

    /// The axes, given ones first, then the defaults.
    pub fn axes(&self) -> &[Axis] {
        &self.axes
    }

    /// The axis of an input, when the plan has one.
    pub fn axis(&self, input: Input) -> Option<&Axis> {
        self.axes.iter().find(|axis| axis.input == input)
    }

    /// The number of points, as far as it can be counted.
    pub fn size(&self) -> u128 {
        if let Some(sample) = &self.sample {
            return u128::from(sample.points);
        }
        self.axes
            .iter()
            .fold(1u128, |product, axis| product.saturating_mul(axis.values.len() as u128))
    }

    /// The number of points, when `rules` rows for each are few enough to be held.
    ///
    /// # Errors
    /// [`PlanError::TooLarge`] with the size it would have.
    pub fn checked_len(&self, rules: usize) -> Result<usize, PlanError> {
        let rows = self.size().saturating_mul(rules.max(1) as u128);
        if rows > MAX_ROWS as u128 {
            return Err(PlanError::TooLarge { rows, limit: MAX_ROWS });
        }
        Ok(usize::try_from(self.size()).unwrap_or(MAX_ROWS))
    }

    /// The index of each axis' value at a point.
    pub fn digits(&self, point: usize) -> Vec<usize> {
        let mut rest = point;
        let mut digits = vec![0; self.axes.len()];
        for (digit, axis) in digits.iter_mut().zip(&self.axes).rev() {
            *digit = rest % axis.values.len();
            rest /= axis.values.len();
        }
        digits
    }

    /// The number of an input at a point; `None` when the plan has no such axis of numbers.
    pub fn number(&self, input: Input, digits: &[usize]) -> Option<f64> {
        let place = self.axes.iter().position(|axis| axis.input == input)?;
        self.axes[place].values.number(digits[place])
    }

    /// Which table a point is played on: equal keys play on the same.
    pub fn table_key(&self, digits: &[usize]) -> usize {
        self.axes
            .iter()
            .zip(digits)
            .filter(|(axis, _)| !axis.input.is_launch())
            .fold(0, |key, (axis, digit)| key * axis.values.len() + digit)
    }
}

impl Axis {
    /// True when points differ in this input.
    pub fn varies(&self) -> bool {
        matches!(self.values, Values::Range(_)) || self.values.len() > 1
    }

    /// Refuses numbers outside the input's range, and ranges that are none.
    ///
    /// # Errors
    /// The fault of its values; an axis without values is for the plan to refuse.
    pub fn check(&self) -> Result<(), PlanError> {
        let name = self.input.name();
        match (&self.values, self.input.parameter()) {
            (Values::Numbers(values), Some(parameter)) => {
                for value in values {
                    parameter.check(*value)?;
                }
            }
            (Values::Range(Span { low, high }), Some(parameter)) => {
                parameter.check(*low)?;
                parameter.check(*high)?;
                if low >= high {
                    return Err(PlanError::EmptyRange { axis: name, low: *low, high: *high });
                }
            }
            (Values::Equipment(all), None) if self.input == Input::Equipment => {
                for one in all {
                    one.clone().validated()?;
                }
            }
            (Values::Rails(_), None) if self.input == Input::Rail => {}
            (Values::Pockets(_), None) if self.input == Input::Pocket => {}
            (Values::Models(_), None) if self.input == Input::RailModel => {}
            _ => return Err(PlanError::WrongKind { axis: name }),
        }
        Ok(())
    }
}

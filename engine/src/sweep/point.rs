//! One point of a plan: its inputs, the table it is played on, and its launch.

use super::{Axis, Input, Plan, PlanError, Values};
use crate::bank::{Bank, Launch, speed_on};
use crate::equipment::Equipment;
use crate::rail::{PocketChoice, RailChoice};
use crate::units::Speed;

/// The inputs of one point: one entry for each axis of the plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PointValues {
    /// The index of each axis' value; 0 for a range.
    pub digits: Vec<usize>,
    /// Each axis' number, SI; not a number for words.
    pub numbers: Vec<f64>,
}

impl PointValues {
    /// The inputs of a grid's point.
    pub fn of_digits(plan: &Plan, digits: &[usize]) -> Self {
        let axes = plan.axes().iter();
        let numbers = axes.zip(digits).map(|(axis, digit)| number_at(axis, *digit)).collect();
        Self { digits: digits.to_vec(), numbers }
    }

    /// The number of an input; `None` when the plan has no such axis.
    pub fn number(&self, plan: &Plan, input: Input) -> Option<f64> {
        let place = plan.axes().iter().position(|axis| axis.input == input)?;
        self.numbers.get(place).copied()
    }

    /// The inputs that vary, in words, with SI numbers.
    pub fn say(&self, plan: &Plan) -> String {
        let axes = plan.axes().iter().zip(&self.digits).zip(&self.numbers);
        let parts: Vec<String> = axes
            .filter(|((axis, _), _)| axis.varies() || axis.input == Input::Contact)
            .map(|((axis, digit), number)| match axis.values.word(*digit) {
                Some(word) => format!("{} {word}", axis.input.name()),
                None => {
                    let unit = axis.input.parameter().map_or("", |kind| kind.dimension.si_symbol());
                    format!("{} {number} {unit}", axis.input.name()).trim_end().to_owned()
                }
            })
            .collect();
        parts.join(", ")
    }
}

impl Plan {
    /// The table, rail, pocket and model of a point of a grid.
    ///
    /// # Errors
    /// As [`Plan::table`].
    pub fn bank(&self, digits: &[usize]) -> Result<Bank, PlanError> {
        self.table(&PointValues::of_digits(self, digits))
    }

    /// The table, rail, pocket and model of a point.
    ///
    /// # Errors
    /// [`PlanError`] when parameters do not fit together or the rail and pocket make no bank.
    pub fn table(&self, at: &PointValues) -> Result<Bank, PlanError> {
        let mut equipment: Option<Equipment> = None;
        let (mut rail, mut pocket) = (RailChoice::Long, PocketChoice::Corner);
        let mut model = None;
        for (axis, digit) in self.axes().iter().zip(&at.digits) {
            match &axis.values {
                Values::Equipment(values) => equipment = values.get(*digit).cloned(),
                Values::Rails(values) => rail = values[*digit],
                Values::Pockets(values) => pocket = values[*digit],
                Values::Models(values) => model = values.get(*digit).copied(),
                Values::Numbers(_) | Values::Range(_) => {}
            }
        }
        let mut equipment =
            equipment.ok_or(PlanError::Missing { axis: Input::Equipment.name() })?;
        for (axis, number) in self.axes().iter().zip(&at.numbers) {
            if let Input::Number(input) = axis.input {
                input.set(&mut equipment, *number);
            }
        }
        let equipment = equipment.validated()?;
        let rail = rail.facing(pocket);
        let model = model.unwrap_or(equipment.cushion.rail_model);
        Ok(Bank::new(&equipment, rail, pocket.across_from(rail), model)?)
    }

    /// The launch of a point of a grid on its table.
    pub fn launch(&self, digits: &[usize], bank: &Bank) -> Launch {
        self.launch_at(&PointValues::of_digits(self, digits), bank)
    }

    /// The launch of a point on its table.
    pub fn launch_at(&self, at: &PointValues, bank: &Bank) -> Launch {
        self.launch_with(at, |lengths| speed_on(Speed::TableLengths(lengths), bank.equipment()))
    }

    /// The launch of a point whose lag has the speed that `lag_m_s` gives for its table lengths.
    pub(crate) fn launch_with(&self, at: &PointValues, lag_m_s: impl FnOnce(f64) -> f64) -> Launch {
        let launch = self.launch_without_table(at);
        match at.number(self, Input::Lag) {
            Some(lengths) => Launch { speed_m_s: lag_m_s(lengths), ..launch },
            None => launch,
        }
    }

    /// The launch of a point; a speed in table lengths, which depends on the table, is not a number.
    pub(super) fn launch_without_table(&self, at: &PointValues) -> Launch {
        let number = |input| at.number(self, input);
        Launch {
            off_rail_m: number(Input::OffRail).unwrap_or(0.0),
            speed_m_s: number(Input::Speed).unwrap_or(f64::NAN),
            roll: number(Input::Roll).unwrap_or(0.0),
            side: number(Input::RunningSide).unwrap_or(0.0),
            aim_error_rad: number(Input::AimError).unwrap_or(0.0),
        }
    }
}

pub(super) fn number_at(axis: &Axis, digit: usize) -> f64 {
    match &axis.values {
        Values::Numbers(values) => values.get(digit).copied().unwrap_or(f64::NAN),
        Values::Range(span) => span.low,
        _ => f64::NAN,
    }
}

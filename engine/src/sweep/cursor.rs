//! Going through a plan's points in order, cheaply.

use super::point::{PointValues, number_at};
use super::{Axis, Plan, Span, Values};

/// Stands at one point of a plan and goes on to the next.
#[derive(Debug, Clone)]
pub struct PlanCursor<'a> {
    plan: &'a Plan,
    point: u64,
    at: PointValues,
    /// For each axis, whether it makes another table.
    makes_table: Vec<bool>,
    /// Which axes with a choice do.
    of_table: Vec<usize>,
    /// Which axes have a choice.
    varying: Vec<usize>,
    same_table: bool,
}

impl<'a> PlanCursor<'a> {
    /// Stands at a point of the plan.
    pub fn from(plan: &'a Plan, point: u64) -> Self {
        let axes = || plan.axes().iter().enumerate();
        let mut walk = Self {
            plan,
            point,
            at: PointValues::of_digits(plan, &vec![0; plan.axes().len()]),
            makes_table: axes().map(|(_, axis)| !axis.input.is_launch()).collect(),
            of_table: axes()
                .filter(|(_, axis)| axis.varies() && !axis.input.is_launch())
                .map(|(at, _)| at)
                .collect(),
            varying: axes().filter(|(_, axis)| axis.varies()).map(|(at, _)| at).collect(),
            same_table: false,
        };
        walk.stand();
        walk
    }

    /// The point's index.
    pub const fn point(&self) -> u64 {
        self.point
    }

    /// The point's inputs.
    pub const fn values(&self) -> &PointValues {
        &self.at
    }

    /// True when the last step stayed on the same table.
    pub const fn same_table(&self) -> bool {
        self.same_table
    }

    /// Goes on to the next point.
    pub fn step(&mut self) {
        self.point += 1;
        self.same_table = true;
        if self.plan.sample().is_some() {
            let before: Vec<(usize, f64)> = self.table_values();
            self.stand();
            self.same_table = self
                .table_values()
                .iter()
                .zip(&before)
                .all(|(now, then)| now.0 == then.0 && now.1.to_bits() == then.1.to_bits());
            return;
        }
        for axis in (0..self.plan.axes().len()).rev() {
            let values = &self.plan.axes()[axis];
            if values.values.len() == 1 {
                continue;
            }
            self.same_table &= !self.makes_table[axis];
            let next = self.at.digits[axis] + 1;
            let digit = if next == values.values.len() { 0 } else { next };
            self.at.digits[axis] = digit;
            self.at.numbers[axis] = number_at(values, digit);
            if digit != 0 {
                return;
            }
        }
    }

    fn table_values(&self) -> Vec<(usize, f64)> {
        self.of_table.iter().map(|axis| (self.at.digits[*axis], self.at.numbers[*axis])).collect()
    }

    /// Works out the inputs of the point it stands at.
    fn stand(&mut self) {
        if u128::from(self.point) >= self.plan.size() {
            return;
        }
        let axes = self.plan.axes();
        if let Some(sample) = self.plan.sample() {
            for (dimension, axis) in self.varying.iter().enumerate() {
                let share = sample.coordinate(self.point, dimension);
                let (digit, number) = spread(&axes[*axis], share);
                self.at.digits[*axis] = digit;
                self.at.numbers[*axis] = number;
            }
            return;
        }
        let mut rest = self.point;
        for axis in self.varying.iter().rev() {
            let count = axes[*axis].values.len() as u64;
            let digit = usize::try_from(rest % count).unwrap_or(0);
            rest /= count;
            self.at.digits[*axis] = digit;
            self.at.numbers[*axis] = number_at(&axes[*axis], digit);
        }
    }
}

/// The value that a share of an axis falls on: a range is spread evenly, of a list each value has
/// the same share.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to the count")]
fn spread(axis: &Axis, share: f64) -> (usize, f64) {
    match &axis.values {
        Values::Range(Span { low, high }) => (0, (low + (high - low) * share).min(*high)),
        values => {
            let digit = ((share * values.len() as f64) as usize).min(values.len() - 1);
            (digit, number_at(axis, digit))
        }
    }
}

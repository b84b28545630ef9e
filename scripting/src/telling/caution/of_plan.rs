//! The cautions of a sweep, from its plan alone.

use super::{Caution, Cautions, HARD_M_S};
use crate::plan::SweepPlan;
use railproof_engine::bank::speed_on;
use railproof_engine::equipment::Equipment;
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use railproof_engine::units::Speed;

impl Cautions {
    /// Those that follow from a sweep's plan; whole shots show theirs when they are played.
    pub fn of_sweep(plan: &SweepPlan) -> Self {
        plan.banks().map_or_else(Self::default, Self::of_plan)
    }

    /// Those of all banks of a plan.
    pub fn of_plan(plan: &Plan) -> Self {
        Self::of_part(plan, |_, _| true)
    }

    /// Those of the banks of a plan whose values are kept: `kept` is asked for an axis and a place on
    /// it.
    pub fn of_part(plan: &Plan, kept: impl Fn(usize, usize) -> bool) -> Self {
        let numbers = |at: usize, axis: &Axis| -> Vec<f64> {
            match &axis.values {
                Values::Range(span) => vec![span.low, span.high],
                values => (0..values.len())
                    .filter(|place| kept(at, *place))
                    .filter_map(|place| values.number(place))
                    .collect(),
            }
        };
        let mut fastest_m_s = 0.0_f64;
        for (at, axis) in plan.axes().iter().enumerate() {
            let numbers = numbers(at, axis);
            match axis.input {
                Input::Speed => fastest_m_s = numbers.into_iter().fold(fastest_m_s, f64::max),
                Input::Lag => {
                    for (table, equipment) in tables(plan) {
                        let kept_table = kept(table, equipment.0);
                        for lengths in numbers.iter().filter(|_| kept_table) {
                            let speed = speed_on(Speed::TableLengths(*lengths), &equipment.1);
                            fastest_m_s = fastest_m_s.max(speed);
                        }
                    }
                }
                _ => {}
            }
        }
        let of_tables = tables(plan)
            .into_iter()
            .filter(|(at, (place, _))| kept(*at, *place))
            .fold(Self::default(), |all, (_, (_, table))| all.and(&Self::of_table(&table.table)));
        of_tables.with(Caution::Hard, fastest_m_s >= HARD_M_S)
    }
}

/// Each table of a plan, with its axis and its place on it; swept numbers at their greatest, which is
/// where a lag takes most speed.
fn tables(plan: &Plan) -> Vec<(usize, (usize, Equipment))> {
    let mut all = Vec::new();
    for (at, axis) in plan.axes().iter().enumerate() {
        let Values::Equipment(tables) = &axis.values else { continue };
        for (place, table) in tables.iter().enumerate() {
            let mut table = table.clone();
            for other in plan.axes() {
                let greatest = match &other.values {
                    Values::Numbers(numbers) => numbers.iter().copied().fold(0.0, f64::max),
                    Values::Range(span) => span.high,
                    _ => continue,
                };
                if let Input::Number(number) = other.input {
                    number.set(&mut table, greatest);
                }
            }
            all.push((at, (place, table)));
        }
    }
    all
}

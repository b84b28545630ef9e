//! BankLooks at banks: what room a start number leaves at both points of the mouth.

use super::super::nodes::SpreadNode;
use super::super::{BallLines, Condition};
use crate::bank::{Bank, Launch};
use crate::batch::{self, ColumnChoice, Inputs, Outcomes};
use crate::ensemble::Habit;

/// One look to be taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    /// Index of the condition.
    pub condition: usize,
    /// Index of the node.
    pub node: usize,
    /// The start number.
    pub start: f64,
}

/// The two points of a mouth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Point {
    Long,
    Short,
}

/// What was seen: the room at each point of the mouth, m; NaN where the ball does not come there.
#[derive(Debug, Clone, Copy)]
pub(super) struct MouthRoom {
    pub long_m: f64,
    pub short_m: f64,
}

impl MouthRoom {
    pub(super) fn at(self, point: Point) -> f64 {
        match point {
            Point::Long => self.long_m,
            Point::Short => self.short_m,
        }
    }

    pub(super) fn is_seen(self) -> bool {
        self.long_m.is_finite() && self.short_m.is_finite()
    }

    pub(super) fn holds(self) -> bool {
        self.long_m > 0.0 && self.short_m > 0.0
    }
}

/// The banks of one table that are looked at.
pub(super) struct BankLooks<'a> {
    bank: &'a Bank,
    habit: Habit,
    nodes: &'a [SpreadNode],
    conditions: &'a [Condition],
    launches: Vec<Launch>,
    places: Vec<BallLines>,
    inputs: Inputs,
    outcomes: Outcomes,
}

impl<'a> BankLooks<'a> {
    pub(super) fn new(
        bank: &'a Bank,
        habit: Habit,
        nodes: &'a [SpreadNode],
        conditions: &'a [Condition],
    ) -> Self {
        Self {
            bank,
            habit,
            nodes,
            conditions,
            launches: conditions.iter().map(|it| it.launch(bank.equipment())).collect(),
            places: conditions.iter().map(|it| it.on(bank.geometry())).collect(),
            inputs: Inputs::default(),
            outcomes: Outcomes::default(),
        }
    }

    pub(super) fn conditions(&self) -> &'a [Condition] {
        self.conditions
    }

    pub(super) fn nodes(&self) -> &'a [SpreadNode] {
        self.nodes
    }

    /// Takes all of them at once.
    pub(super) fn take(&mut self, looks: &[Look]) -> Vec<MouthRoom> {
        self.inputs.clear();
        for look in looks {
            let meant = self.launches[look.condition];
            let node = &self.nodes[look.node];
            let line = self.places[look.condition].line(look.start);
            let habit = self.bank.geometry().right_side_runs(line) * self.habit.right_side;
            let launch = Launch {
                speed_m_s: meant.speed_m_s * node.speed_ratio,
                side: meant.side + node.side + habit,
                aim_error_rad: meant.aim_error_rad + self.habit.aim_rad,
                ..meant
            };
            self.inputs.push(line, launch);
        }
        batch::play(self.bank, &self.inputs, ColumnChoice::Verdicts, &mut self.outcomes);
        let short_m = &self.outcomes.clearance_short_m;
        let rooms = self.outcomes.clearance_long_m.iter().zip(short_m);
        rooms.map(|(&long_m, &short_m)| MouthRoom { long_m, short_m }).collect()
    }
}

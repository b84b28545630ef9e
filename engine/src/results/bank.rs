//! Everything that is read from one bank: the only list of it.

use super::measure::{Measure, MeasureReading, ResultKind, ResultPart, measure_named};
use crate::bank::{Bank, BankVerdict, Direction, Outcome, RailRebound};
use crate::motion::BallState;
use crate::rail::Line;
use crate::sweep::{Plan, PlanError, Row, Tables};
use crate::units::Dimension;
use crate::vector::{Vec2, Vec3};

/// Results of banks of a lone ball.
#[derive(Debug, Clone, Copy)]
pub struct BankResults;

/// One bank that was played.
#[derive(Debug, Clone, Copy)]
pub struct BankResult<'a> {
    /// The table, rail, pocket and model it was played on.
    pub bank: &'a Bank,
    /// The line it was sent along, groove reading.
    pub line: Line,
    /// The outcome.
    pub outcome: &'a Outcome,
}

impl<'a> BankResult<'a> {
    /// A row of a plan on the table that it was played on; `digits` are those of its point.
    ///
    /// # Errors
    /// Only for a row of another plan: a table that is refused is not played on.
    pub fn of_row(
        tables: &'a mut Tables,
        plan: &Plan,
        digits: &[usize],
        row: &'a Row,
    ) -> Result<Self, PlanError> {
        let bank = tables.of_point(plan, digits)?;
        Ok(Self { bank, line: row.line, outcome: &row.outcome })
    }
}

impl ResultKind for BankResults {
    type Result<'a> = BankResult<'a>;
}

use Dimension::{Angle, Length, Ratio, Speed, SpinRate, Time};
use MeasureReading::{Diamonds, Flag, Number, Word};
use ResultPart::{Arrival, AtRail, Launch, Rebound, Table, Whole};

type OfBank = Measure<BankResults>;

/// All of them, in the order of a file's columns.
#[rustfmt::skip]
pub const BANK_MEASURES: &[OfBank] = &[
    OfBank::new(Table, "rail_played", "the very rail that the bank was played off", Word(|at| Some(at.bank.geometry().rail.name()))),
    OfBank::new(Table, "pocket_played", "the very pocket that it was played for", Word(|at| Some(at.bank.geometry().pocket.name()))),
    OfBank::new(Table, "rail_model_played", "the rail model that it was played by", Word(|at| Some(at.bank.model().name()))),
    OfBank::new(Whole, "contact", "contact number of the line, groove reading", Diamonds(|at| Some(at.line.contact))).titled("contact number of the line"),
    OfBank::new(Whole, "start", "start number, groove reading", Diamonds(|at| Some(at.line.start))).titled("start number of the line"),
    OfBank::new(Whole, "verdict", "outcome of the ball", Word(|at| Some(at.outcome.verdict().name()))),
    OfBank::new(Whole, "holds", "it clears both points of the mouth", Flag(|at| Some(at.outcome.verdict() == BankVerdict::Holds))),
    OfBank::new(Whole, "long_or_short", "the side of the pocket on which it errs", Word(|at| at.outcome.verdict().direction().map(Direction::name))),
    OfBank::new(Whole, "miss", "from the mouth's midpoint, square to the path; positive is long", Number(Length, |at| at.outcome.miss_m())).titled("miss at the pocket: above is long, below is short"),
    OfBank::new(Whole, "miss_diamonds", "the miss in diamonds of the rail", Diamonds(|at| Some(at.outcome.miss_m()? / at.bank.geometry().diamond_m))),
    OfBank::new(Whole, "clearance", "room to the nearer mouth point", Number(Length, |at| at.outcome.clearance_m())),
    OfBank::new(Arrival, "clearance_long", "room between ball and long mouth point", Number(Length, |at| Some(at.outcome.arrival?.clearance_long_m))),
    OfBank::new(Arrival, "clearance_short", "room between ball and short mouth point", Number(Length, |at| Some(at.outcome.arrival?.clearance_short_m))),
    OfBank::new(Launch, "launch_x", "place of the start, along the table from its centre", Number(Length, |at| Some(in_table(at, at.outcome.launch.position).x))),
    OfBank::new(Launch, "launch_y", "place of the start, across the table from its centre", Number(Length, |at| Some(in_table(at, at.outcome.launch.position).y))),
    OfBank::new(Launch, "launch_speed", "speed at launch", Number(Speed, |at| Some(at.outcome.launch.velocity.norm()))),
    OfBank::new(AtRail, "at_rail_contact", "place where it met the rail, groove reading", Diamonds(|at| Some(at.outcome.at_rail?.contact))),
    OfBank::new(AtRail, "at_rail_time", "from launch to the rail", Number(Time, |at| Some(at.outcome.at_rail?.time_s))),
    OfBank::new(AtRail, "at_rail_speed", "speed at the rail", Number(Speed, |at| Some(at.outcome.at_rail?.state.velocity.norm()))),
    OfBank::new(AtRail, "at_rail_normal_speed", "speed square to the rail as it meets it", Number(Speed, |at| Some(at.outcome.at_rail?.state.velocity.y))),
    OfBank::new(AtRail, "at_rail_roll_fraction", "fraction of natural roll at the rail", Number(Ratio, |at| at.outcome.at_rail?.state.natural_roll_fraction(radius_m(at)))),
    OfBank::new(AtRail, "at_rail_running_side", "side at the rail as R·wz/v, positive running", Number(Ratio, |at| running_side(at, &at.outcome.at_rail?.state))),
    OfBank::new(AtRail, "at_rail_spin_x", "spin at the rail about the table's long axis", Number(SpinRate, |at| Some(spin_at_rail(at)?.x))),
    OfBank::new(AtRail, "at_rail_spin_y", "spin at the rail about the table's short axis", Number(SpinRate, |at| Some(spin_at_rail(at)?.y))),
    OfBank::new(AtRail, "at_rail_spin_z", "spin at the rail about the vertical", Number(SpinRate, |at| Some(spin_at_rail(at)?.z))),
    OfBank::new(AtRail, "incidence", "angle of the path in, from the normal", Number(Angle, |at| Some(at.outcome.at_rail?.incidence_rad()))).titled("angle to the rail, from its normal"),
    OfBank::new(Rebound, "held", "contact time with the rail", Number(Time, |at| Some(at.outcome.rebound?.held_s))).shown_in("ms", 1e3),
    OfBank::new(Rebound, "departure", "place where it left the rail, groove reading", Diamonds(|at| Some(at.outcome.rebound?.departure))),
    OfBank::new(Rebound, "rebound_speed", "speed off the rail", Number(Speed, |at| Some(at.outcome.rebound?.state.velocity.norm()))),
    OfBank::new(Rebound, "rebound_roll_fraction", "fraction of natural roll off the rail", Number(Ratio, |at| at.outcome.rebound?.state.natural_roll_fraction(radius_m(at)))),
    OfBank::new(Rebound, "rebound_running_side", "side off the rail as R·wz/v, positive running", Number(Ratio, |at| running_side(at, &at.outcome.rebound?.state))),
    OfBank::new(Rebound, "rebound_spin_x", "spin off the rail about the table's long axis", Number(SpinRate, |at| Some(spin_off_rail(at)?.x))),
    OfBank::new(Rebound, "rebound_spin_y", "spin off the rail about the table's short axis", Number(SpinRate, |at| Some(spin_off_rail(at)?.y))),
    OfBank::new(Rebound, "rebound_spin_z", "spin off the rail about the vertical", Number(SpinRate, |at| Some(spin_off_rail(at)?.z))),
    OfBank::new(Rebound, "rebound_angle", "angle of the path off the rail, from the normal", Number(Angle, |at| after(at, RailRebound::angle_rad))).titled("angle off the rail, from its normal"),
    OfBank::new(Rebound, "angle_difference", "rebound angle less the angle the rule implies; positive is longer", Number(Angle, |at| at.outcome.angle_difference_rad())).titled("rebound angle less the angle the rule implies: above is longer"),
    OfBank::new(Rebound, "rebound_restitution", "restitution that acted at the rail", Number(Ratio, |at| Some(at.outcome.rebound?.restitution))),
    OfBank::new(Rebound, "rolls_after", "from leaving the rail until it rolls", Number(Time, |at| Some(at.outcome.rebound?.rolls_after_s))),
    OfBank::new(Rebound, "bend", "turn of the path after the rail; positive is longer", Number(Angle, |at| after(at, RailRebound::bend_rad))).titled("bend of the path after the rail: above is longer"),
    OfBank::new(Rebound, "outside_checked_speed", "the speed square to the rail was above the model's checked range", Flag(|at| Some(at.outcome.rebound?.outside_checked_speed))),
    OfBank::new(Rebound, "hop", "the ball would hop off the rail", Flag(|at| Some(at.outcome.rebound?.hop))),
    OfBank::new(Arrival, "arrival_time", "from meeting the rail to the mouth line", Number(Time, |at| Some(at.outcome.arrival?.time_s))),
    OfBank::new(Arrival, "arrival_speed", "speed at the mouth line", Number(Speed, |at| Some(at.outcome.arrival?.state.velocity.norm()))).titled("speed left at the pocket's mouth"),
    OfBank::new(Whole, "ending", "how the ball's path ended", Word(|at| Some(at.outcome.ending.name()))),
    OfBank::new(Whole, "ending_at", "the rail or pocket where it ended", Word(|at| at.outcome.ending.at(at.bank.geometry()))),
    OfBank::new(Whole, "ending_x", "place where its path ended, along the table from its centre", Number(Length, |at| Some(in_table(at, at.outcome.ending_place()?).x))),
    OfBank::new(Whole, "ending_y", "place where its path ended, across the table from its centre", Number(Length, |at| Some(in_table(at, at.outcome.ending_place()?).y))),
    OfBank::new(Whole, "flagged", "outside the cushion's checked speed, or the ball would hop", Flag(|at| Some(at.outcome.flagged()))),
];

/// The measure of this name, found while compiling.
pub const fn bank_measure(name: &str) -> &'static OfBank {
    measure_named(BANK_MEASURES, name)
}

fn radius_m(at: &BankResult<'_>) -> f64 {
    at.bank.equipment().ball.radius_m()
}

/// A place of the bank frame in the table's.
fn in_table(at: &BankResult<'_>, place: Vec2) -> Vec2 {
    at.bank.geometry().to_table(place)
}

fn spin_at_rail(at: &BankResult<'_>) -> Option<Vec3> {
    Some(at.bank.geometry().spin_to_table(at.outcome.at_rail?.state.spin))
}

fn spin_off_rail(at: &BankResult<'_>) -> Option<Vec3> {
    Some(at.bank.geometry().spin_to_table(at.outcome.rebound?.state.spin))
}

/// An angle after the rail, by the velocity before it.
fn after(at: &BankResult<'_>, angle: fn(&RailRebound, Vec2) -> f64) -> Option<f64> {
    let incoming = at.outcome.at_rail?.state.velocity;
    Some(angle(&at.outcome.rebound?, incoming))
}

/// Side spin as R·wz/v, positive running, for a ball that came this way along the rail.
fn running_side(at: &BankResult<'_>, state: &BallState) -> Option<f64> {
    let sense = if at.outcome.at_rail?.state.velocity.x > 0.0 { 1.0 } else { -1.0 };
    let speed = state.velocity.norm();
    // Adding zero turns −0 into 0.
    (speed > 0.0).then(|| sense * radius_m(at) * state.spin.z / speed + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn names_and_columns_are_unique_and_every_measure_means_something() {
        let names: BTreeSet<&str> = BANK_MEASURES.iter().map(|measure| measure.name).collect();
        let columns: BTreeSet<String> = BANK_MEASURES.iter().map(OfBank::column).collect();
        assert_eq!((names.len(), columns.len()), (BANK_MEASURES.len(), BANK_MEASURES.len()));
        assert!(BANK_MEASURES.iter().all(|measure| !measure.meaning.is_empty()));
        assert_eq!(bank_measure("miss").column(), "miss_m");
        assert_eq!(bank_measure("incidence").column(), "incidence_rad");
        assert_eq!(bank_measure("miss_diamonds").column(), "miss_diamonds");
        assert_eq!(bank_measure("start").column(), "start_diamonds");
        assert_eq!(bank_measure("at_rail_speed").key(), "speed");
        assert_eq!(bank_measure("incidence").key(), "incidence");
    }
}

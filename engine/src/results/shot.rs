//! Everything that is read from one whole shot: the only list of it.

use super::measure::{Measure, MeasureReading, ResultKind, ResultPart, measure_named};
use crate::equipment::Equipment;
use crate::rail::Rail;
use crate::stroke::Stroke;
use crate::units::Dimension;
use crate::vector::Vec2;
use crate::verdict::{PocketArrival, PocketVerdict, ShotVerdict};

/// Results of whole shots at a pocket.
#[derive(Debug, Clone, Copy)]
pub struct ShotResults;

/// One whole shot at a pocket, or the attempt at one.
#[derive(Debug, Clone, Copy)]
pub struct ShotResult<'a> {
    /// The table it was played on, where there is one.
    pub equipment: Option<&'a Equipment>,
    /// Where the cue ball lay, m.
    pub cue: Option<Vec2>,
    /// Where the ball that is meant for the pocket lay, m.
    pub object: Option<Vec2>,
    /// The stroke, its aim solved where there is a shot.
    pub stroke: Option<Stroke>,
    /// The outcome; nothing where there is no such shot.
    pub outcome: Option<&'a ShotOutcome>,
}

/// The outcome of a shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShotOutcome {
    /// The verdict.
    pub verdict: ShotVerdict,
    /// When every ball rests or has dropped, or the watch ends, s.
    pub duration_s: f64,
    /// The number of its events.
    pub events: usize,
    /// A touch was outside its model's checked range, or a ball would have hopped or jumped.
    pub flagged: bool,
}

/// The verdict on a shot that there is not.
pub const NO_SHOT: &str = "no-shot";

/// Every word for what becomes of a shot.
pub const SHOT_VERDICTS: [&str; PocketVerdict::NAMES.len() + 1] = {
    let mut words = [NO_SHOT; PocketVerdict::NAMES.len() + 1];
    let mut at = 0;
    while at < PocketVerdict::NAMES.len() {
        words[at] = PocketVerdict::NAMES[at];
        at += 1;
    }
    words
};

impl ResultKind for ShotResults {
    type Result<'a> = ShotResult<'a>;
}

impl<'a> ShotResult<'a> {
    /// The word for what became of it.
    pub fn verdict_name(&self) -> &'static str {
        self.outcome.map_or(NO_SHOT, |outcome| outcome.verdict.pocket.name())
    }

    fn arrival(&self) -> Option<&'a PocketArrival> {
        self.outcome?.verdict.arrival.as_ref()
    }
}

use Dimension::{Angle, Length, Ratio, Speed, Time};
use MeasureReading::{Count, Flag, Number, Word};
use ResultPart::{Arrival, Launch, Stroke as OfStroke, Table, Whole};

type OfShot = Measure<ShotResults>;

/// All of them, in the order of a file's columns.
#[rustfmt::skip]
pub const SHOT_MEASURES: &[OfShot] = &[
    OfShot::new(Table, "rail_model_played", "the rail model that it was played by", Word(|at| Some(at.equipment?.cushion.rail_model.name()))),
    OfShot::new(Launch, "cue_x", "place of the cue ball, along the table from its centre", Number(Length, |at| Some(at.cue?.x))),
    OfShot::new(Launch, "cue_y", "place of the cue ball, across the table from its centre", Number(Length, |at| Some(at.cue?.y))),
    OfShot::new(Launch, "object_x", "place of the ball that is meant for the pocket, along the table from its centre", Number(Length, |at| Some(at.object?.x))),
    OfShot::new(Launch, "object_y", "place of the ball that is meant for the pocket, across the table from its centre", Number(Length, |at| Some(at.object?.y))),
    OfShot::new(OfStroke, "stroke_speed", "speed of the struck ball along the cue as it leaves the tip", Number(Speed, |at| Some(at.stroke?.speed_m_s))),
    OfShot::new(OfStroke, "stroke_aim", "direction of the cue, from the table's long axis towards its short one", Number(Angle, |at| Some(at.stroke?.aim_rad))),
    OfShot::new(OfStroke, "tip_side", "tip offset in radii, positive to the player's right", Number(Ratio, |at| Some(at.stroke?.side_offset))),
    OfShot::new(OfStroke, "tip_height", "tip offset in radii, positive above the centre", Number(Ratio, |at| Some(at.stroke?.height_offset))),
    OfShot::new(OfStroke, "stroke_elevation", "elevation of the cue", Number(Angle, |at| Some(at.stroke?.elevation_rad))),
    OfShot::new(Whole, "verdict", "outcome of the ball at its pocket", Word(|at| Some(at.verdict_name()))),
    OfShot::new(Whole, "made", "it dropped where it should, and the struck ball stayed up", Flag(|at| Some(at.outcome.is_some_and(|outcome| outcome.verdict.is_made())))),
    OfShot::new(Whole, "kissed", "there was a double kiss", Flag(|at| Some(at.outcome.is_some_and(|outcome| outcome.verdict.kissed_at_s.is_some())))),
    OfShot::new(Whole, "kissed_at", "time of the double kiss", Number(Time, |at| at.outcome?.verdict.kissed_at_s)),
    OfShot::new(Arrival, "last_rail", "the rail that the ball came off last", Word(|at| at.arrival()?.last_rail.map(Rail::name))),
    OfShot::new(Arrival, "miss", "from the mouth's midpoint, square to the path; positive is long, or, off no rail, right", Number(Length, |at| Some(at.arrival()?.miss_m))).titled("miss at the pocket: above is long, below is short"),
    OfShot::new(Arrival, "clearance", "room to the nearer mouth point", Number(Length, |at| Some(at.arrival()?.clearance_long_m.min(at.arrival()?.clearance_short_m)))),
    OfShot::new(Arrival, "clearance_long", "room between ball and long (right) mouth point", Number(Length, |at| Some(at.arrival()?.clearance_long_m))),
    OfShot::new(Arrival, "clearance_short", "room between ball and short (left) mouth point", Number(Length, |at| Some(at.arrival()?.clearance_short_m))),
    OfShot::new(Arrival, "arrival_speed", "speed at the mouth line", Number(Speed, |at| Some(at.arrival()?.state.velocity.norm()))).titled("speed left at the pocket's mouth"),
    OfShot::new(Whole, "duration", "time from the start until every ball rests or has dropped, or until the watch ends", Number(Time, |at| Some(at.outcome?.duration_s))),
    OfShot::new(Whole, "events", "number of events", Count(|at| Some(at.outcome?.events as u64))),
    OfShot::new(Whole, "flagged", "a touch outside its model's checked range, or a ball that would hop or jump", Flag(|at| Some(at.outcome?.flagged))),
];

/// The measure of this name, found while compiling.
pub const fn shot_measure(name: &str) -> &'static OfShot {
    measure_named(SHOT_MEASURES, name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_kind_of_verdict_stands_at_its_place() {
        for (at, verdict) in PocketVerdict::ALL.into_iter().enumerate() {
            assert_eq!((verdict.place(), verdict.name()), (at, SHOT_VERDICTS[at]));
        }
        assert_eq!(SHOT_VERDICTS.last(), Some(&NO_SHOT));
    }

    #[test]
    fn names_and_columns_are_unique_and_every_measure_means_something() {
        let names: BTreeSet<&str> = SHOT_MEASURES.iter().map(|measure| measure.name).collect();
        let columns: BTreeSet<String> = SHOT_MEASURES.iter().map(OfShot::column).collect();
        assert_eq!((names.len(), columns.len()), (SHOT_MEASURES.len(), SHOT_MEASURES.len()));
        assert!(SHOT_MEASURES.iter().all(|measure| !measure.meaning.is_empty()));
        for column in ["miss_m", "stroke_aim_rad", "kissed_at_s", "tip_side", "events"] {
            assert!(columns.contains(column), "{column}");
        }
    }
}

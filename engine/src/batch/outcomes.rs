//! The outcomes: one column for each number of an outcome.

use super::block_outcomes::{BasicOutcomes, FurtherOutcomes};
use crate::bank::{BankVerdict, Outcome};

/// Which columns are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColumnChoice {
    /// All.
    Everything,
    /// BankVerdict, flag, miss and clearances; the others are left empty.
    Verdicts,
    /// The same and each outcome as [`Bank::play`](crate::bank::Bank::play) gives it.
    Whole,
}

/// The outcomes of many banks, one entry each in every column that was wanted. A number that a bank has not
/// is NaN.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outcomes {
    /// The verdicts.
    pub verdict: Vec<BankVerdict>,
    /// The model was outside its checked range, or the ball would hop.
    pub flagged: Vec<bool>,
    /// Misses, m; positive is long.
    pub miss_m: Vec<f64>,
    /// Room to the long mouth point, m.
    pub clearance_long_m: Vec<f64>,
    /// Room to the short mouth point, m.
    pub clearance_short_m: Vec<f64>,
    /// The cloth would have had to pull: a real ball would have hopped.
    pub hop: Vec<bool>,
    /// The speed square to the rail was above the model's checked range.
    pub outside_checked_speed: Vec<bool>,
    /// Where the ball met the rail, diamonds (groove reading).
    pub contact_at_rail: Vec<f64>,
    /// When, s from the launch.
    pub time_at_rail_s: Vec<f64>,
    /// Speed there, m/s.
    pub speed_at_rail_m_s: Vec<f64>,
    /// With which fraction of natural roll.
    pub roll_at_rail: Vec<f64>,
    /// At which angle from the rail's normal, rad.
    pub incidence_rad: Vec<f64>,
    /// Where it left the rail, diamonds (groove reading).
    pub departure: Vec<f64>,
    /// Speed at which it left, m/s.
    pub rebound_speed_m_s: Vec<f64>,
    /// At which angle from the rail's normal, rad.
    pub rebound_angle_rad: Vec<f64>,
    /// The restitution that acted.
    pub restitution: Vec<f64>,
    /// When it came to the mouth line, s from the rail.
    pub arrival_time_s: Vec<f64>,
    /// Speed there, m/s.
    pub arrival_speed_m_s: Vec<f64>,
    /// The outcomes themselves; only of [`ColumnChoice::Whole`].
    pub whole: Vec<Outcome>,
}

const NO_NUMBER: f64 = f64::NAN;

impl Outcomes {
    /// The number of banks.
    pub fn len(&self) -> usize {
        self.verdict.len()
    }

    /// True when there are none.
    pub fn is_empty(&self) -> bool {
        self.verdict.is_empty()
    }

    /// Takes all banks out and keeps the memory.
    pub fn clear(&mut self) {
        self.resize(0, ColumnChoice::Everything);
    }

    /// Adds a bank that was not played: it has no room, and no numbers.
    pub fn push_nothing(&mut self) {
        self.verdict.push(BankVerdict::NoRoom);
        for column in self.marks_mut() {
            column.push(false);
        }
        for column in self.short_mut() {
            column.push(NO_NUMBER);
        }
        for column in self.extra_mut() {
            column.push(NO_NUMBER);
        }
        self.whole.push(Outcome::NOT_PLAYED);
    }

    /// Adds all of another's banks, column by column.
    pub fn append(&mut self, other: &Self) {
        self.verdict.extend_from_slice(&other.verdict);
        for (column, more) in self.marks_mut().into_iter().zip(other.marks()) {
            column.extend_from_slice(more);
        }
        for (column, more) in self.short_mut().into_iter().zip(other.short()) {
            column.extend_from_slice(more);
        }
        for (column, more) in self.extra_mut().into_iter().zip(other.extra()) {
            column.extend_from_slice(more);
        }
        self.whole.extend_from_slice(&other.whole);
    }

    /// Makes the wanted columns this long and empties the others.
    pub(super) fn resize(&mut self, len: usize, wanted: ColumnChoice) {
        let more = if wanted == ColumnChoice::Everything { len } else { 0 };
        self.verdict.resize(len, BankVerdict::NoRoom);
        for (column, len) in self.marks_mut().into_iter().zip([len, more, more]) {
            column.resize(len, false);
        }
        for column in self.short_mut() {
            column.resize(len, NO_NUMBER);
        }
        for column in self.extra_mut() {
            column.resize(more, NO_NUMBER);
        }
        self.whole.resize(if wanted == ColumnChoice::Whole { len } else { 0 }, Outcome::NOT_PLAYED);
    }

    /// Puts in the first `count` banks of a block, from `at` on.
    #[inline(always)]
    pub(super) fn put_short(&mut self, at: usize, count: usize, known: &BasicOutcomes) {
        let to = at..at + count;
        self.verdict[to.clone()].copy_from_slice(&known.verdict[..count]);
        self.flagged[to.clone()].copy_from_slice(&known.flagged[..count]);
        for (column, known) in self.short_mut().into_iter().zip(&known.numbers) {
            column[to.clone()].copy_from_slice(&known[..count]);
        }
    }

    /// As [`Outcomes::put_short`], the rest.
    #[inline(always)]
    pub(super) fn put_extra(&mut self, at: usize, count: usize, known: &FurtherOutcomes) {
        let to = at..at + count;
        self.hop[to.clone()].copy_from_slice(&known.hop[..count]);
        self.outside_checked_speed[to.clone()]
            .copy_from_slice(&known.outside_checked_speed[..count]);
        for (column, known) in self.extra_mut().into_iter().zip(&known.numbers) {
            column[to.clone()].copy_from_slice(&known[..count]);
        }
    }

    /// Puts in one bank; `None` has no room.
    pub(super) fn put(
        &mut self,
        at: usize,
        outcome: Option<&Outcome>,
        wanted: ColumnChoice,
        radius_m: f64,
    ) {
        self.verdict[at] = outcome.map_or(BankVerdict::NoRoom, Outcome::verdict);
        self.flagged[at] = outcome.is_some_and(Outcome::flagged);
        let arrival = outcome.and_then(|outcome| outcome.arrival);
        let short = [
            arrival.map(|arrival| arrival.miss_m),
            arrival.map(|arrival| arrival.clearance_long_m),
            arrival.map(|arrival| arrival.clearance_short_m),
        ];
        for (column, number) in self.short_mut().into_iter().zip(short) {
            column[at] = number.unwrap_or(NO_NUMBER);
        }
        match wanted {
            ColumnChoice::Everything => {}
            ColumnChoice::Verdicts => return,
            ColumnChoice::Whole => {
                self.whole[at] = outcome.copied().unwrap_or(Outcome::NOT_PLAYED);
                return;
            }
        }
        let at_rail = outcome.and_then(|outcome| outcome.at_rail);
        let rebound = outcome.and_then(|outcome| outcome.rebound);
        self.hop[at] = rebound.is_some_and(|rebound| rebound.hop);
        self.outside_checked_speed[at] =
            rebound.is_some_and(|rebound| rebound.outside_checked_speed);
        let extra = [
            at_rail.map(|at_rail| at_rail.contact),
            at_rail.map(|at_rail| at_rail.time_s),
            at_rail.map(|at_rail| at_rail.state.velocity.norm()),
            at_rail.and_then(|at_rail| at_rail.state.natural_roll_fraction(radius_m)),
            at_rail.map(|at_rail| at_rail.incidence_rad()),
            rebound.map(|rebound| rebound.departure),
            rebound.map(|rebound| rebound.state.velocity.norm()),
            rebound
                .zip(at_rail)
                .map(|(rebound, at_rail)| rebound.angle_rad(at_rail.state.velocity)),
            rebound.map(|rebound| rebound.restitution),
            arrival.map(|arrival| arrival.time_s),
            arrival.map(|arrival| arrival.state.velocity.norm()),
        ];
        for (column, number) in self.extra_mut().into_iter().zip(extra) {
            column[at] = number.unwrap_or(NO_NUMBER);
        }
    }
}

/// Lists of the columns, in one order whether they are read or written.
macro_rules! columns {
    ($kind:ty, $count:literal, $read:ident, $write:ident: $($name:ident),*) => {
        impl Outcomes {
            fn $read(&self) -> [&[$kind]; $count] {
                [$(&self.$name),*]
            }

            fn $write(&mut self) -> [&mut Vec<$kind>; $count] {
                [$(&mut self.$name),*]
            }
        }
    };
}

columns!(bool, 3, marks, marks_mut: flagged, hop, outside_checked_speed);
columns!(f64, 3, short, short_mut: miss_m, clearance_long_m, clearance_short_m);
columns!(f64, 11, extra, extra_mut: contact_at_rail, time_at_rail_s, speed_at_rail_m_s, roll_at_rail,
    incidence_rad, departure, rebound_speed_m_s, rebound_angle_rad, restitution, arrival_time_s,
    arrival_speed_m_s);

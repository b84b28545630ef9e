//! What comes out: one column for each number of an outcome.

use super::block::{Extra, Short};
use crate::bank::{Outcome, Verdict};

/// What became of many banks, only in short. All columns are of one length.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Verdicts {
    /// The verdicts.
    pub verdict: Vec<Verdict>,
    /// The model was outside its checked range, or the ball would hop.
    pub flagged: Vec<bool>,
    /// Misses, m; positive is long, not a number where the ball would never come to the mouth line.
    pub miss_m: Vec<f64>,
    /// Room to the long mouth point, m; as for the miss.
    pub clearance_long_m: Vec<f64>,
    /// Room to the short mouth point, m; as for the miss.
    pub clearance_short_m: Vec<f64>,
}

/// What became of many banks. All columns are of one length; what a bank has not is not a number.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outcomes {
    /// The verdicts.
    pub verdict: Vec<Verdict>,
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
    /// How fast, m/s.
    pub speed_at_rail_m_s: Vec<f64>,
    /// With which fraction of natural roll.
    pub roll_at_rail: Vec<f64>,
    /// At which angle from the rail's normal, rad.
    pub incidence_rad: Vec<f64>,
    /// Where it left the rail, diamonds (groove reading).
    pub departure: Vec<f64>,
    /// How fast it left, m/s.
    pub rebound_speed_m_s: Vec<f64>,
    /// At which angle from the rail's normal, rad.
    pub rebound_angle_rad: Vec<f64>,
    /// The restitution that acted.
    pub restitution: Vec<f64>,
    /// When it came to the mouth line, s from the rail.
    pub arrival_time_s: Vec<f64>,
    /// How fast, m/s.
    pub arrival_speed_m_s: Vec<f64>,
}

/// Columns that a batch can fill.
pub(super) trait Answers {
    /// True when the numbers of [`Extra`] are wanted too.
    const EXTRA: bool;

    /// Makes every column this long.
    fn resize(&mut self, len: usize);

    /// Puts in the first `count` banks of a block, from `at` on.
    fn put_block(&mut self, at: usize, count: usize, short: &Short, extra: &Extra);

    /// Puts in one bank.
    fn put(&mut self, at: usize, outcome: &Outcome, radius_m: f64);
}

const NO_NUMBER: f64 = f64::NAN;

fn of(number: Option<f64>) -> f64 {
    number.unwrap_or(NO_NUMBER)
}

impl Verdicts {
    /// How many banks.
    pub fn len(&self) -> usize {
        self.verdict.len()
    }

    /// True when there are none.
    pub fn is_empty(&self) -> bool {
        self.verdict.is_empty()
    }
}

impl Outcomes {
    /// How many banks.
    pub fn len(&self) -> usize {
        self.verdict.len()
    }

    /// True when there are none.
    pub fn is_empty(&self) -> bool {
        self.verdict.is_empty()
    }

    /// Takes all banks out and keeps the memory.
    pub fn clear(&mut self) {
        self.resize(0);
    }

    /// Adds a bank that was not played: it has no numbers.
    pub fn push_nothing(&mut self) {
        self.resize(self.len() + 1);
    }

    /// Adds all of another's banks.
    pub fn append(&mut self, other: &Self) {
        let at = self.len();
        self.resize(at + other.len());
        self.put_short(at, &other.verdict, &other.flagged, other.short_columns());
        self.hop[at..].copy_from_slice(&other.hop);
        self.outside_checked_speed[at..].copy_from_slice(&other.outside_checked_speed);
        for (column, more) in self.extra_columns().into_iter().zip(other.extras()) {
            column[at..].copy_from_slice(more);
        }
    }

    /// Adds banks of which only the verdicts are known.
    pub fn append_verdicts(&mut self, other: &Verdicts) {
        let at = self.len();
        self.resize(at + other.len());
        let columns = [&other.miss_m, &other.clearance_long_m, &other.clearance_short_m];
        self.put_short(at, &other.verdict, &other.flagged, columns.map(Vec::as_slice));
    }

    fn put_short(&mut self, at: usize, verdict: &[Verdict], flagged: &[bool], more: [&[f64]; 3]) {
        self.verdict[at..].copy_from_slice(verdict);
        self.flagged[at..].copy_from_slice(flagged);
        let own = [&mut self.miss_m, &mut self.clearance_long_m, &mut self.clearance_short_m];
        for (column, more) in own.into_iter().zip(more) {
            column[at..].copy_from_slice(more);
        }
    }

    fn short_columns(&self) -> [&[f64]; 3] {
        [&self.miss_m, &self.clearance_long_m, &self.clearance_short_m]
    }

    fn extras(&self) -> [&[f64]; 11] {
        [
            &self.contact_at_rail,
            &self.time_at_rail_s,
            &self.speed_at_rail_m_s,
            &self.roll_at_rail,
            &self.incidence_rad,
            &self.departure,
            &self.rebound_speed_m_s,
            &self.rebound_angle_rad,
            &self.restitution,
            &self.arrival_time_s,
            &self.arrival_speed_m_s,
        ]
    }

    fn extra_columns(&mut self) -> [&mut Vec<f64>; 11] {
        [
            &mut self.contact_at_rail,
            &mut self.time_at_rail_s,
            &mut self.speed_at_rail_m_s,
            &mut self.roll_at_rail,
            &mut self.incidence_rad,
            &mut self.departure,
            &mut self.rebound_speed_m_s,
            &mut self.rebound_angle_rad,
            &mut self.restitution,
            &mut self.arrival_time_s,
            &mut self.arrival_speed_m_s,
        ]
    }
}

impl Answers for Verdicts {
    const EXTRA: bool = false;

    fn resize(&mut self, len: usize) {
        self.verdict.resize(len, Verdict::LeftCloth);
        self.flagged.resize(len, false);
        for column in [&mut self.miss_m, &mut self.clearance_long_m, &mut self.clearance_short_m] {
            column.resize(len, NO_NUMBER);
        }
    }

    #[inline(always)]
    fn put_block(&mut self, at: usize, count: usize, short: &Short, _: &Extra) {
        let to = at..at + count;
        self.verdict[to.clone()].copy_from_slice(&short.verdict[..count]);
        self.flagged[to.clone()].copy_from_slice(&short.flagged[..count]);
        self.miss_m[to.clone()].copy_from_slice(&short.miss_m[..count]);
        self.clearance_long_m[to.clone()].copy_from_slice(&short.clearance_long_m[..count]);
        self.clearance_short_m[to].copy_from_slice(&short.clearance_short_m[..count]);
    }

    fn put(&mut self, at: usize, outcome: &Outcome, _: f64) {
        self.verdict[at] = outcome.verdict();
        self.flagged[at] = outcome.flagged();
        let arrival = outcome.arrival;
        self.miss_m[at] = of(outcome.miss_m());
        self.clearance_long_m[at] = of(arrival.map(|arrival| arrival.clearance_long_m));
        self.clearance_short_m[at] = of(arrival.map(|arrival| arrival.clearance_short_m));
    }
}

impl Answers for Outcomes {
    const EXTRA: bool = true;

    fn resize(&mut self, len: usize) {
        self.verdict.resize(len, Verdict::LeftCloth);
        for column in [&mut self.flagged, &mut self.hop, &mut self.outside_checked_speed] {
            column.resize(len, false);
        }
        for column in [&mut self.miss_m, &mut self.clearance_long_m, &mut self.clearance_short_m] {
            column.resize(len, NO_NUMBER);
        }
        for column in self.extra_columns() {
            column.resize(len, NO_NUMBER);
        }
    }

    #[inline(always)]
    fn put_block(&mut self, at: usize, count: usize, short: &Short, extra: &Extra) {
        let to = at..at + count;
        self.verdict[to.clone()].copy_from_slice(&short.verdict[..count]);
        self.flagged[to.clone()].copy_from_slice(&short.flagged[..count]);
        self.miss_m[to.clone()].copy_from_slice(&short.miss_m[..count]);
        self.clearance_long_m[to.clone()].copy_from_slice(&short.clearance_long_m[..count]);
        self.clearance_short_m[to.clone()].copy_from_slice(&short.clearance_short_m[..count]);
        self.hop[to.clone()].copy_from_slice(&extra.hop[..count]);
        self.outside_checked_speed[to.clone()]
            .copy_from_slice(&extra.outside_checked_speed[..count]);
        for (column, known) in self.extra_columns().into_iter().zip(&extra.numbers) {
            column[to.clone()].copy_from_slice(&known[..count]);
        }
    }

    fn put(&mut self, at: usize, outcome: &Outcome, radius_m: f64) {
        self.verdict[at] = outcome.verdict();
        self.flagged[at] = outcome.flagged();
        let (at_rail, rebound, arrival) = (outcome.at_rail, outcome.rebound, outcome.arrival);
        self.miss_m[at] = of(outcome.miss_m());
        self.clearance_long_m[at] = of(arrival.map(|arrival| arrival.clearance_long_m));
        self.clearance_short_m[at] = of(arrival.map(|arrival| arrival.clearance_short_m));
        self.hop[at] = rebound.is_some_and(|rebound| rebound.hop);
        self.outside_checked_speed[at] =
            rebound.is_some_and(|rebound| rebound.outside_checked_speed);
        let numbers = [
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
        for (column, number) in self.extra_columns().into_iter().zip(numbers) {
            column[at] = of(number);
        }
    }
}

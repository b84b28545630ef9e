//! Many banks on one table, inputs and outcomes in columns.

use crate::bank::{Bank, Launch, Verdict};
use crate::rail::Line;

/// Inputs of many banks, one entry each.
#[derive(Debug, Clone, Default, PartialEq)]
#[expect(missing_docs, reason = "interim")]
pub struct Inputs {
    pub contact: Vec<f64>,
    pub start: Vec<f64>,
    pub off_rail_m: Vec<f64>,
    pub speed_m_s: Vec<f64>,
    pub roll: Vec<f64>,
    pub side: Vec<f64>,
    pub aim_error_rad: Vec<f64>,
}

impl Inputs {
    /// Forgets all.
    pub fn clear(&mut self) {
        for column in [
            &mut self.contact,
            &mut self.start,
            &mut self.off_rail_m,
            &mut self.speed_m_s,
            &mut self.roll,
            &mut self.side,
            &mut self.aim_error_rad,
        ] {
            column.clear();
        }
    }

    /// Adds one.
    pub fn push(&mut self, line: Line, launch: Launch) {
        self.contact.push(line.contact);
        self.start.push(line.start);
        self.off_rail_m.push(launch.off_rail_m);
        self.speed_m_s.push(launch.speed_m_s);
        self.roll.push(launch.roll);
        self.side.push(launch.side);
        self.aim_error_rad.push(launch.aim_error_rad);
    }

    /// Adds all of another's.
    pub fn append(&mut self, other: &Self) {
        self.contact.extend_from_slice(&other.contact);
        self.start.extend_from_slice(&other.start);
        self.off_rail_m.extend_from_slice(&other.off_rail_m);
        self.speed_m_s.extend_from_slice(&other.speed_m_s);
        self.roll.extend_from_slice(&other.roll);
        self.side.extend_from_slice(&other.side);
        self.aim_error_rad.extend_from_slice(&other.aim_error_rad);
    }

    /// The line of one.
    pub fn line(&self, at: usize) -> Line {
        Line::new(self.contact[at], self.start[at])
    }

    /// The launch of one.
    pub fn launch(&self, at: usize) -> Launch {
        Launch {
            off_rail_m: self.off_rail_m[at],
            speed_m_s: self.speed_m_s[at],
            roll: self.roll[at],
            side: self.side[at],
            aim_error_rad: self.aim_error_rad[at],
        }
    }

    /// How many.
    pub fn len(&self) -> usize {
        self.contact.len()
    }

    /// True for none.
    pub fn is_empty(&self) -> bool {
        self.contact.is_empty()
    }
}

/// What became of many banks.
#[derive(Debug, Clone, Default, PartialEq)]
#[expect(missing_docs, reason = "interim")]
pub struct Outcomes {
    pub verdict: Vec<Verdict>,
    pub flagged: Vec<bool>,
    pub miss_m: Vec<f64>,
    pub clearance_long_m: Vec<f64>,
    pub clearance_short_m: Vec<f64>,
    pub contact_at_rail: Vec<f64>,
    pub time_at_rail_s: Vec<f64>,
    pub speed_at_rail_m_s: Vec<f64>,
    pub roll_at_rail: Vec<f64>,
    pub incidence_rad: Vec<f64>,
    pub departure: Vec<f64>,
    pub rebound_speed_m_s: Vec<f64>,
    pub rebound_angle_rad: Vec<f64>,
    pub restitution: Vec<f64>,
    pub arrival_time_s: Vec<f64>,
    pub arrival_speed_m_s: Vec<f64>,
}

/// Which columns are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// All.
    Everything,
    /// Verdict, flags, miss and clearances; the others are left empty.
    Verdicts,
}

macro_rules! every_column {
    ($outcomes:expr, $column:ident => $do:expr) => {{
        let Outcomes {
            verdict: _,
            flagged: _,
            miss_m,
            clearance_long_m,
            clearance_short_m,
            contact_at_rail,
            time_at_rail_s,
            speed_at_rail_m_s,
            roll_at_rail,
            incidence_rad,
            departure,
            rebound_speed_m_s,
            rebound_angle_rad,
            restitution,
            arrival_time_s,
            arrival_speed_m_s,
        } = $outcomes;
        for $column in [
            miss_m,
            clearance_long_m,
            clearance_short_m,
            contact_at_rail,
            time_at_rail_s,
            speed_at_rail_m_s,
            roll_at_rail,
            incidence_rad,
            departure,
            rebound_speed_m_s,
            rebound_angle_rad,
            restitution,
            arrival_time_s,
            arrival_speed_m_s,
        ] {
            $do
        }
    }};
}

impl Outcomes {
    /// How many.
    pub fn len(&self) -> usize {
        self.verdict.len()
    }
    /// True for none.
    pub fn is_empty(&self) -> bool {
        self.verdict.is_empty()
    }
    /// Forgets all.
    pub fn clear(&mut self) {
        self.verdict.clear();
        self.flagged.clear();
        every_column!(self, column => column.clear());
    }
    /// Adds one that was not played.
    pub fn push_nothing(&mut self) {
        self.verdict.push(Verdict::LeftCloth);
        self.flagged.push(false);
        every_column!(self, column => column.push(f64::NAN));
    }
    /// Adds all of another's.
    pub fn append(&mut self, other: &Self) {
        self.verdict.extend_from_slice(&other.verdict);
        self.flagged.extend_from_slice(&other.flagged);
        let pairs = [
            (&mut self.miss_m, &other.miss_m),
            (&mut self.clearance_long_m, &other.clearance_long_m),
            (&mut self.clearance_short_m, &other.clearance_short_m),
            (&mut self.contact_at_rail, &other.contact_at_rail),
            (&mut self.time_at_rail_s, &other.time_at_rail_s),
            (&mut self.speed_at_rail_m_s, &other.speed_at_rail_m_s),
            (&mut self.roll_at_rail, &other.roll_at_rail),
            (&mut self.incidence_rad, &other.incidence_rad),
            (&mut self.departure, &other.departure),
            (&mut self.rebound_speed_m_s, &other.rebound_speed_m_s),
            (&mut self.rebound_angle_rad, &other.rebound_angle_rad),
            (&mut self.restitution, &other.restitution),
            (&mut self.arrival_time_s, &other.arrival_time_s),
            (&mut self.arrival_speed_m_s, &other.arrival_speed_m_s),
        ];
        for (column, more) in pairs {
            column.extend_from_slice(more);
        }
    }
}

/// Plays them all.
pub fn play(bank: &Bank, inputs: &Inputs, _: Wanted, outcomes: &mut Outcomes) {
    *outcomes = Outcomes::default();
    let radius = bank.equipment().ball.radius_m();
    for at in 0..inputs.len() {
        let line = Line::new(inputs.contact[at], inputs.start[at]);
        let launch = Launch {
            off_rail_m: inputs.off_rail_m[at],
            speed_m_s: inputs.speed_m_s[at],
            roll: inputs.roll[at],
            side: inputs.side[at],
            aim_error_rad: inputs.aim_error_rad[at],
        };
        let outcome = bank.play_validated(line, launch);
        let nan = f64::NAN;
        outcomes.verdict.push(outcome.verdict());
        outcomes.flagged.push(outcome.flagged());
        outcomes.miss_m.push(outcome.arrival.map_or(nan, |a| a.miss_m));
        outcomes.clearance_long_m.push(outcome.arrival.map_or(nan, |a| a.clearance_long_m));
        outcomes.clearance_short_m.push(outcome.arrival.map_or(nan, |a| a.clearance_short_m));
        let (rail, off) = (outcome.at_rail, outcome.rebound);
        outcomes.contact_at_rail.push(rail.map_or(nan, |r| r.contact));
        outcomes.time_at_rail_s.push(rail.map_or(nan, |r| r.time_s));
        outcomes.speed_at_rail_m_s.push(rail.map_or(nan, |r| r.state.velocity.norm()));
        let roll = rail.and_then(|r| r.state.natural_roll_fraction(radius));
        outcomes.roll_at_rail.push(roll.unwrap_or(nan));
        outcomes.incidence_rad.push(rail.map_or(nan, |r| r.incidence_rad()));
        outcomes.departure.push(off.map_or(nan, |o| o.departure));
        outcomes.rebound_speed_m_s.push(off.map_or(nan, |o| o.state.velocity.norm()));
        let angle = rail.zip(off).map(|(r, o)| o.angle_rad(r.state.velocity));
        outcomes.rebound_angle_rad.push(angle.unwrap_or(nan));
        outcomes.restitution.push(off.map_or(nan, |o| o.restitution));
        outcomes.arrival_time_s.push(outcome.arrival.map_or(nan, |a| a.time_s));
        outcomes.arrival_speed_m_s.push(outcome.arrival.map_or(nan, |a| a.state.velocity.norm()));
    }
}

//! A bank from the rail on, each cause of its miss a number of its own.

use super::{Attribution, Cause, CauseShare, NotAttributed, shapley};
use crate::bank::{Bank, miss_on_way};
use crate::impact::{Bounce, CushionContact, Rebound, bounce};
use crate::motion::{BallState, ClothMotion, Path};
use crate::vector::{Vec2, Vec3};

/// Values that differ by less than this share of themselves are the same.
const SAME: f64 = 1e-12;

/// Where and which way a ball meets the rail. Bank frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RailMeeting {
    /// Along the rail, m.
    pub along_m: f64,
    /// Unit vector.
    pub way: Vec2,
}

/// The values of a bank that decide its miss, from the rail on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RailValues {
    /// Level spin at the rail as R·w/v: forward (natural roll is 1) and about the travel.
    pub roll: Vec2,
    /// R·wz/v.
    pub side: f64,
    /// Restitution.
    pub restitution: f64,
    /// Contact time × speed, m.
    pub held_m: f64,
    /// The cloth's decelerations over the speed's square: sliding and rolling, 1/m, and pivoting.
    pub cloth: [f64; 3],
}

impl RailValues {
    /// Of a ball that meets the rail in this state, by this restitution.
    pub fn at_rail(bank: &Bank, state: &BallState, restitution: f64) -> Self {
        let speed = state.velocity.norm();
        let way = state.velocity.unit_or_zero();
        let per = bank.cloth().radius_m / speed;
        let level = Vec2::new(state.spin.x, state.spin.y);
        let axis = Vec2::new(-way.y, way.x);
        Self {
            roll: Vec2::new(level.dot(axis) * per, level.dot(way) * per),
            side: state.spin.z * per,
            restitution,
            held_m: bank.equipment().cushion.contact_time_s * speed,
            cloth: scaled_cloth(bank, speed),
        }
    }

    /// The same with one cause as `other` has it.
    fn with(mut self, cause: Cause, other: &Self) -> Self {
        match cause {
            Cause::Roll => self.roll = other.roll,
            Cause::Side => self.side = other.side,
            Cause::Restitution => self.restitution = other.restitution,
            Cause::Carry => self.held_m = other.held_m,
            Cause::Bend => self.cloth = other.cloth,
            Cause::Aim | Cause::Squirt | Cause::Throw | Cause::Line | Cause::Table => {}
        }
        self
    }

    /// Whether this and `other` are alike in what a cause sets.
    fn alike(&self, cause: Cause, other: &Self) -> bool {
        match cause {
            Cause::Roll => close(self.roll.x, other.roll.x) && close(self.roll.y, other.roll.y),
            Cause::Side => close(self.side, other.side),
            Cause::Restitution => same(self.restitution, other.restitution),
            Cause::Carry => same(self.held_m, other.held_m),
            Cause::Bend => self.cloth.iter().zip(other.cloth).all(|(a, b)| same(*a, b)),
            Cause::Aim | Cause::Squirt | Cause::Throw | Cause::Line | Cause::Table => true,
        }
    }
}

/// The cloth's decelerations over the speed's square.
pub(super) fn scaled_cloth(bank: &Bank, speed_m_s: f64) -> [f64; 3] {
    let (cloth, square) = (bank.cloth(), speed_m_s * speed_m_s);
    [
        cloth.sliding_deceleration_m_s2 / square,
        cloth.rolling_deceleration_m_s2 / square,
        cloth.pivot_deceleration_rad_s2 / square,
    ]
}

impl RailMeeting {
    /// The same place and way but for rounding.
    pub fn same(&self, other: &Self) -> bool {
        same(self.along_m, other.along_m)
            && close(self.way.x, other.way.x)
            && close(self.way.y, other.way.y)
    }
}

/// The same but for rounding, of numbers that are 1 in size.
fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME * a.abs().max(b.abs())
}

/// The rebound of a ball that meets the rail there at unit speed, its contact and its way after that
/// left out.
fn rebound(bank: &Bank, meeting: RailMeeting, values: &RailValues) -> Rebound {
    let contact = CushionContact {
        restitution: values.restitution,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        ..*bank.contact()
    };
    let way = meeting.way;
    let level = Vec2::new(-way.y, way.x) * values.roll.x + way * values.roll.y;
    let per_radius = 1.0 / bank.cloth().radius_m;
    let spin = Vec3::new(level.x * per_radius, level.y * per_radius, values.side * per_radius);
    bounce(bank.model(), &contact, Bounce { velocity: way, spin })
}

/// Where the way of a ball that comes off so misses, m; at unit speed.
fn miss_after(
    bank: &Bank,
    meeting: RailMeeting,
    values: &RailValues,
    rebound: &Rebound,
) -> Option<f64> {
    if rebound.velocity.y >= 0.0 {
        return None;
    }
    let carried_m = carried_m(meeting, rebound, values.held_m);
    let [sliding, rolling, pivot] = values.cloth;
    let cloth = ClothMotion {
        sliding_deceleration_m_s2: sliding,
        rolling_deceleration_m_s2: rolling,
        pivot_deceleration_rad_s2: pivot,
        ..bank.cloth()
    };
    let state = BallState {
        position: Vec2::new(meeting.along_m + carried_m, bank.geometry().span_m),
        velocity: rebound.velocity,
        spin: rebound.spin,
    };
    miss_on_way(bank.geometry(), &Path::new(state, cloth))
}

/// The distance that the rail carries the ball along, m.
fn carried_m(meeting: RailMeeting, rebound: &Rebound, held_m: f64) -> f64 {
    0.5 * (meeting.way.x + rebound.velocity.x) * held_m
}

/// One side of an attribution: the causes that act, and the table.
#[derive(Debug, Clone, Copy)]
pub(super) struct AttributionSide<'a> {
    pub table: &'a Bank,
    pub values: RailValues,
}

/// Ways into the rail that a set of causes decides.
pub(super) struct RailWays<'a> {
    /// The causes that turn or move the way into the rail, and which of them differ from their
    /// references, with their values and those of their references.
    pub turns: Vec<(Cause, bool, [f64; 2])>,
    /// Where the ball meets the rail when these act.
    pub meeting: &'a dyn Fn(&[Cause]) -> Option<RailMeeting>,
    /// The tables differ.
    pub tables: bool,
}

/// The size of a cause.
struct MissNumbers<'a> {
    meeting: RailMeeting,
    actual: &'a AttributionSide<'a>,
    reference: &'a AttributionSide<'a>,
    /// The speed at the rail, m/s.
    speed_m_s: f64,
}

impl MissNumbers<'_> {
    /// The values of a cause that acts at the rail or after it, and of its reference.
    fn of(&self, cause: Cause) -> [f64; 2] {
        let (here, there) = (&self.actual.values, &self.reference.values);
        let rebound = rebound(self.actual.table, self.meeting, here);
        match cause {
            Cause::Roll => [here.roll.x, there.roll.x],
            Cause::Side => {
                let sense = if self.meeting.way.x > 0.0 { 1.0 } else { -1.0 };
                [here.side, there.side].map(|side| sense * side + 0.0)
            }
            Cause::Restitution => [here.restitution, there.restitution],
            Cause::Carry => [here.held_m, there.held_m]
                .map(|held_m| carried_m(self.meeting, &rebound, held_m).abs()),
            Cause::Bend => {
                let speed = self.speed_m_s * rebound.velocity.norm();
                // The slide's length goes with the speed's square.
                let slower = (here.cloth[0] / there.cloth[0]).sqrt();
                [speed, if slower.is_finite() { speed * slower } else { speed }]
            }
            Cause::Aim | Cause::Squirt | Cause::Throw | Cause::Line | Cause::Table => [0.0; 2],
        }
    }
}

/// The miss of one side from the rail on, m.
#[cfg(feature = "world")]
pub(super) fn replayed(side: &AttributionSide<'_>, meeting: RailMeeting) -> Option<f64> {
    miss_after(side.table, meeting, &side.values, &rebound(side.table, meeting, &side.values))
}

/// The attribution of `miss_m`, that of the bank as it is. The miss with everything at its reference is
/// played too unless it is known. Also gives the number of impacts that were played: sets that differ only
/// in what follows share theirs.
pub(super) fn attribute(
    miss_m: f64,
    known_remainder_m: Option<f64>,
    (actual, reference): (&AttributionSide<'_>, &AttributionSide<'_>),
    speed_m_s: f64,
    ways: &RailWays<'_>,
) -> Result<(Attribution, u64), NotAttributed> {
    const AFTER: [Cause; 5] =
        [Cause::Roll, Cause::Side, Cause::Restitution, Cause::Carry, Cause::Bend];
    let mut causes: Vec<(Cause, bool)> =
        ways.turns.iter().map(|(cause, differs, _)| (*cause, *differs)).collect();
    let (here, there) = (&actual.values, &reference.values);
    causes.extend(AFTER.map(|cause| (cause, !here.alike(cause, there))));
    if ways.tables {
        causes.push((Cause::Table, true));
    }
    let players: Vec<Cause> =
        causes.iter().filter(|(_, differs)| *differs).map(|(cause, _)| *cause).collect();
    let everybody = (1_usize << players.len()) - 1;
    // Carry and bend change nothing at the rail itself.
    let at_rail = players
        .iter()
        .enumerate()
        .filter(|(_, cause)| !matches!(cause, Cause::Carry | Cause::Bend))
        .fold(0, |bits, (at, _)| bits | 1 << at);
    let mut rebounds: Vec<Option<(RailMeeting, Rebound)>> = vec![None; everybody + 1];
    let mut miss = |set: usize| {
        let lost = || NotAttributed::Lost {
            at_reference: players
                .iter()
                .enumerate()
                .filter(|(at, _)| set >> at & 1 == 0)
                .map(|(_, cause)| *cause)
                .collect(),
        };
        let acts = |cause: &Cause| {
            players.iter().position(|player| player == cause).is_none_or(|at| set >> at & 1 == 1)
        };
        let values = players
            .iter()
            .filter(|cause| !acts(cause))
            .fold(actual.values, |values, cause| values.with(*cause, &reference.values));
        let table = if acts(&Cause::Table) { actual.table } else { reference.table };
        let known = &mut rebounds[set & at_rail];
        let (meeting, rebound) = match *known {
            Some(known) => known,
            None => {
                let turning: Vec<Cause> =
                    ways.turns.iter().map(|(cause, ..)| *cause).filter(acts).collect();
                let meeting = (ways.meeting)(&turning).ok_or_else(lost)?;
                *known.insert((meeting, rebound(table, meeting, &values)))
            }
        };
        miss_after(table, meeting, &values, &rebound).ok_or_else(lost)
    };
    let remainder_m = match known_remainder_m {
        _ if everybody == 0 => miss_m,
        Some(known_m) => known_m,
        None => miss(0)?,
    };
    let shares_m = shapley(players.len(), |set| match set {
        0 => Ok(remainder_m),
        set if set == everybody => Ok(miss_m),
        set => miss(set),
    })?;
    let all: Vec<Cause> = ways.turns.iter().map(|(cause, ..)| *cause).collect();
    let meeting = (ways.meeting)(&all).ok_or(NotAttributed::NoMiss)?;
    let numbers = MissNumbers { meeting, actual, reference, speed_m_s };
    let shares = causes
        .iter()
        .map(|(cause, _)| {
            let turn = ways.turns.iter().find(|(turn, ..)| turn == cause);
            let [actual, reference] = turn.map_or_else(|| numbers.of(*cause), |(.., both)| *both);
            let share_m =
                players.iter().position(|player| player == cause).map_or(0.0, |at| shares_m[at]);
            CauseShare { cause: *cause, actual, reference, share_m }
        })
        .collect();
    let played = rebounds.iter().flatten().count() as u64;
    Ok((Attribution { miss_m, remainder_m, shares }, played))
}

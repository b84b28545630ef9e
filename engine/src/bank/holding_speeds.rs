//! The speeds at which a line holds.

use super::edge::edge;
use super::{Bank, BankVerdict, Launch, NoAnswer, Outcome};
use crate::rail::Line;

/// The speeds among which those at which a line holds are searched unless said otherwise, m/s: from
/// a crawl to about the hardest break (common practice, no source).
pub const SEARCHED_SPEEDS_M_S: (f64, f64) = (0.2, 14.0);

/// Number of speeds looked at, the ends of the range included.
const LOOKS: usize = 116;

/// A stretch of speeds at which a line holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoldingInterval {
    /// The least speed at which it holds, m/s (to 1e-7 relative).
    pub from_m_s: f64,
    /// The greatest, m/s.
    pub to_m_s: f64,
    /// It was seen to break just below; else the search begins there.
    pub breaks_below: bool,
    /// It was seen to break just above; else the search ends there.
    pub breaks_above: bool,
}

/// The speed at which a line has the most room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MostRoom {
    /// The speed, m/s.
    pub speed_m_s: f64,
    /// Room between the ball and the nearer mouth point there, m.
    pub clearance_m: f64,
}

/// Speeds at which a line holds.
#[derive(Debug, Clone, PartialEq)]
pub struct HoldingSpeeds {
    /// Every stretch that was found, ascending; at least one.
    pub intervals: Vec<HoldingInterval>,
    /// Where it has the most room, over all of them.
    pub most_room: MostRoom,
    /// From here on the rail model is less sure of the line, m/s (see [`super::Outcome::flagged`]); `None` where it is
    /// sure up to the end of the range.
    pub less_sure_from_m_s: Option<f64>,
    /// The range that was searched, m/s.
    pub searched_m_s: (f64, f64),
    /// Spacing of the speeds that were looked at, as a ratio: a gap or a stretch narrower than this
    /// can hide.
    pub spacing: f64,
}

impl HoldingSpeeds {
    /// The least speed at which it holds, m/s.
    pub fn least_m_s(&self) -> f64 {
        self.intervals.first().map_or(f64::NAN, |first| first.from_m_s)
    }

    /// The greatest speed at which it holds, m/s.
    pub fn greatest_m_s(&self) -> f64 {
        self.intervals.last().map_or(f64::NAN, |last| last.to_m_s)
    }

    /// True where the rail model is less sure of the line at this speed, m/s.
    pub fn less_sure_at(&self, speed_m_s: f64) -> bool {
        self.less_sure_from_m_s.is_some_and(|from_m_s| speed_m_s >= from_m_s)
    }

    /// Where it breaks above its first stretch, m/s; `None` when that reaches the end of the range.
    pub fn until_m_s(&self) -> Option<f64> {
        self.intervals.first().filter(|first| first.breaks_above).map(|first| first.to_m_s)
    }
}

/// The speeds in `from..=to` m/s at which the line holds.
///
/// The range is looked at in speeds of equal ratio, then each change is closed in on, and so is
/// every speed looked at that has more room than its neighbours.
///
/// # Errors
/// [`NoAnswer::NeverHolds`], or a refused launch.
pub fn holding_speeds(
    bank: &Bank,
    line: Line,
    launch: Launch,
    range_m_s: (f64, f64),
) -> Result<HoldingSpeeds, NoAnswer> {
    let (from, to) = range_m_s;
    let at = |speed_m_s: f64| Launch { speed_m_s, ..launch };
    at(from).validated(bank.geometry().span_m)?;
    at(to).validated(bank.geometry().span_m)?;
    let play = |speed: f64| bank.play_validated(line, at(speed));
    let room_of = |outcome: &Outcome| {
        outcome.clearance_m().filter(|_| outcome.verdict() == BankVerdict::Holds)
    };
    let room = |speed: f64| room_of(&play(speed));
    let holds = |speed: f64| room(speed).is_some();
    let spacing = libm::exp(libm::log(to / from) / (LOOKS - 1) as f64);
    let looks: Vec<SpeedLook> = (0..LOOKS)
        .map(|i| if i + 1 == LOOKS { to } else { from * libm::pow(spacing, i as f64) })
        .map(|speed_m_s| {
            let outcome = play(speed_m_s);
            SpeedLook { speed_m_s, room_m: room_of(&outcome), less_sure: outcome.flagged() }
        })
        .collect();
    let mut intervals = Vec::new();
    let mut first = 0;
    while first < LOOKS {
        if looks[first].room_m.is_none() {
            first += 1;
            continue;
        }
        let end = (first..LOOKS).find(|at| looks[*at].room_m.is_none()).unwrap_or(LOOKS);
        let (breaks_below, breaks_above) = (first > 0, end < LOOKS);
        let edge = |inside: usize, outside: usize| {
            edge(looks[inside].speed_m_s, looks[outside].speed_m_s, holds)
        };
        intervals.push(HoldingInterval {
            from_m_s: if breaks_below { edge(first, first - 1) } else { from },
            to_m_s: if breaks_above { edge(end - 1, end) } else { to },
            breaks_below,
            breaks_above,
        });
        first = end;
    }
    match most_room(&looks, &room) {
        Some(most_room) => Ok(HoldingSpeeds {
            intervals,
            most_room,
            less_sure_from_m_s: less_sure_from(&looks, |speed| play(speed).flagged()),
            searched_m_s: range_m_s,
            spacing,
        }),
        None => Err(NoAnswer::NeverHolds { from_m_s: from, to_m_s: to, looked: LOOKS }),
    }
}

/// A speed that was looked at.
struct SpeedLook {
    speed_m_s: f64,
    /// The room there; `None` where the line breaks.
    room_m: Option<f64>,
    less_sure: bool,
}

/// The least speed of which the model is less sure.
fn less_sure_from(looks: &[SpeedLook], less_sure: impl Fn(f64) -> bool) -> Option<f64> {
    let first = looks.iter().position(|look| look.less_sure)?;
    let unsure_m_s = looks[first].speed_m_s;
    let before = first.checked_sub(1).map(|before| looks[before].speed_m_s);
    Some(before.map_or(unsure_m_s, |sure_m_s| edge(unsure_m_s, sure_m_s, less_sure)))
}

/// The most room beside any look that has at least as much as its neighbours; the first of equals.
fn most_room(looks: &[SpeedLook], room: &impl Fn(f64) -> Option<f64>) -> Option<MostRoom> {
    let at = |place: usize| looks[place].room_m.unwrap_or(f64::NEG_INFINITY);
    let mut best: Option<MostRoom> = None;
    for (place, &SpeedLook { speed_m_s, room_m, .. }) in looks.iter().enumerate() {
        let Some(clearance_m) = room_m else { continue };
        let (below, above) = (place.saturating_sub(1), (place + 1).min(looks.len() - 1));
        if clearance_m < at(below) || clearance_m < at(above) {
            continue;
        }
        let here = MostRoom { speed_m_s, clearance_m };
        let peak = peak(here, (looks[below].speed_m_s, looks[above].speed_m_s), room);
        if best.is_none_or(|best| peak.clearance_m > best.clearance_m) {
            best = Some(peak);
        }
    }
    best
}

/// The most room between two speeds, by golden sections.
fn peak(
    mut best: MostRoom,
    (mut low, mut high): (f64, f64),
    room: &impl Fn(f64) -> Option<f64>,
) -> MostRoom {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let mut look = |speed_m_s: f64| {
        let clearance_m = room(speed_m_s).unwrap_or(f64::NEG_INFINITY);
        if clearance_m > best.clearance_m {
            best = MostRoom { speed_m_s, clearance_m };
        }
        clearance_m
    };
    let (mut a, mut b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut at_a, mut at_b) = (look(a), look(b));
    while high - low > 1e-4 * high {
        if at_a >= at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - GOLDEN * (high - low);
            at_a = look(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + GOLDEN * (high - low);
            at_b = look(b);
        }
    }
    best
}

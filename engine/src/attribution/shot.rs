//! A whole shot in which a ball banks off one rail.

use super::bank::{ruled, stated, turn_between};
use super::way::{AttributionSide, RailMeeting, RailValues, RailWays, attribute, replayed};
use super::{Attribution, Cause, NotAttributed};
use crate::bank::Bank;
use crate::contact::first_between;
use crate::motion::{BallState, ClothMotion, Path};
use crate::rail::{BankGeometry, Line, Rail};
use crate::shot::{CushionTouch, Event, EventKind, Shot};
use crate::vector::{Vec2, Vec3};
use crate::verdict::{Target, arrival};
use crate::world::World;

/// A bank played from the rail must miss as the shot did, to this, m: else more has happened to the
/// ball than the bank knows of.
const SAME_MISS_M: f64 = 1e-9;

/// Facts of a shot beside its events.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShotContext {
    /// Its purpose.
    pub target: Target,
    /// The angle by which squirt turned the struck ball off the cue's line, against the clock, rad;
    /// 0 without a stroke.
    pub squirt_rad: f64,
    /// The line that the ball was meant to take off a rail into the target's pocket (groove reading);
    /// without one the aim is no cause, and the line itself is the one along which it was aimed.
    pub line: Option<(Rail, Line)>,
}

/// The miss of a shot's ball as a sum over its causes: those of a lone ball's bank, and squirt and
/// throw where a cue ball sends it off.
///
/// Squirt is switched off by turning the struck ball back at the tip, its spin as it is, and looking
/// where it would hit; throw by sending the ball off along the line of centres. The slight curve that
/// spin about its travel gives the way to the rail stays in every set.
///
/// # Errors
/// [`NotAttributed`] for a ball that comes off no rail or several, meets more than the cue ball and
/// one cushion, or never comes to the mouth line, by itself or with some causes at their references.
pub fn of_shot(
    world: &World,
    shot: &Shot,
    facts: &ShotContext,
) -> Result<Attribution, NotAttributed> {
    let target = facts.target;
    let arrived = arrival(world, shot, target.ball, target.pocket).ok_or(NotAttributed::NoMiss)?;
    let rail = arrived.last_rail.ok_or(NotAttributed::NotOneRail)?;
    let equipment = world.equipment();
    let bank = Bank::new(equipment, rail, target.pocket, equipment.cushion.rail_model)
        .map_err(|_| NotAttributed::NotOneRail)?;
    let BallHistory { sent_off, hit, at_rail, restitution } = way(shot, target, rail)?;

    let geometry = bank.geometry();
    let mirrored = geometry.pocket.is_side()
        && !geometry.rail.is_end()
        && geometry.from_table(at_rail.position).x < 0.0;
    let own = |state: BallState| in_bank_frame(geometry, mirrored, state);
    let direction = |from: Vec2, to: Vec2| {
        let ends = [from, to].map(|position| own(BallState { position, ..at_rail }).position);
        ends[1] - ends[0]
    };
    let start = own(sent_off);
    let state = own(at_rail);

    // The ways that the ball would be sent with less and less acting on it.
    let (centres, straight) = match hit {
        Some(hit) => {
            let straight = hit_without_squirt(world, shot, target, hit, facts.squirt_rad)?;
            let (cue, object) = both(hit, target.ball);
            let centres = direction(cue.position, object.position);
            (centres, direction(straight, object.position))
        }
        None => {
            let turned = turned_back(sent_off, facts.squirt_rad);
            (start.velocity, own(turned).velocity)
        }
    };
    let mut turns = Vec::new();
    let line = facts
        .line
        .filter(|(of, _)| *of == rail)
        .map(|(_, line)| if mirrored { Line::new(-line.contact, -line.start) } else { line });
    let sense = if state.velocity.x > 0.0 { -1.0 } else { 1.0 };
    let mut turn = |cause, from: Vec2, to: Vec2| {
        let angle = turn_between(from, to);
        let angle = if angle.abs() > 1e-12 { angle } else { 0.0 };
        turns.push((cause, angle));
    };
    if let Some(line) = line {
        turn(Cause::Aim, ruled(&bank, line).way, straight);
    }
    if facts.squirt_rad != 0.0 {
        turn(Cause::Squirt, straight, centres);
    }
    if hit.is_some() {
        turn(Cause::Throw, centres, start.velocity);
    }

    let here = RailMeeting { along_m: state.position.x, way: state.velocity.unit_or_zero() };
    let meeting = |acting: &[Cause]| {
        let back: f64 = turns
            .iter()
            .filter(|(cause, _)| !acting.contains(cause))
            .map(|(_, angle)| *angle)
            .sum();
        if back == 0.0 {
            return Some(here);
        }
        sent(&bank, rotated(start, -back))
    };
    let ways = RailWays {
        turns: turns
            .iter()
            .map(|(cause, angle)| (*cause, *angle != 0.0, [sense * angle + 0.0, 0.0]))
            .collect(),
        meeting: &meeting,
        tables: false,
    };
    let ruled = meeting(&[]).ok_or(NotAttributed::NoMiss)?;
    let actual =
        AttributionSide { table: &bank, values: RailValues::at_rail(&bank, &state, restitution) };
    let reference = AttributionSide { table: &bank, values: stated(&bank, ruled) };
    let replayed = replayed(&actual, here);
    if replayed.is_none_or(|miss_m| (miss_m - arrived.miss_m).abs() > SAME_MISS_M) {
        return Err(NotAttributed::MeetsMore);
    }
    let speed_m_s = state.velocity.norm();
    attribute(arrived.miss_m, None, (&actual, &reference), speed_m_s, &ways).map(|(found, _)| found)
}

/// History of the ball up to its rail. Table frame.
struct BallHistory<'a> {
    sent_off: BallState,
    hit: Option<&'a Event>,
    at_rail: BallState,
    restitution: f64,
}

fn way(shot: &Shot, target: Target, rail: Rail) -> Result<BallHistory<'_>, NotAttributed> {
    let mut sent_off = None;
    let mut hit = None;
    for event in shot.events_of(target.ball) {
        match event.kind {
            EventKind::Start => {
                sent_off = Some(event.after).filter(|state| state.velocity != Vec2::ZERO);
            }
            EventKind::Ball(touch) => {
                let (_, before) = both(event, target.ball);
                let with = if event.ball == target.ball { touch.other } else { event.ball };
                if Some(with) != target.cue || hit.is_some() || before.velocity != Vec2::ZERO {
                    return Err(NotAttributed::MeetsMore);
                }
                hit = Some(event);
                sent_off = Some(event.after_of(target.ball));
            }
            EventKind::Cushion(CushionTouch { rail: met, touch }) => {
                let sent_off = sent_off.ok_or(NotAttributed::MeetsMore)?;
                if met != rail {
                    return Err(NotAttributed::NotOneRail);
                }
                let (at_rail, restitution) = (event.before, touch.restitution);
                return Ok(BallHistory { sent_off, hit, at_rail, restitution });
            }
            EventKind::Jaw { .. } | EventKind::Obstacle { .. } => {
                return Err(NotAttributed::MeetsMore);
            }
            _ => {}
        }
    }
    Err(NotAttributed::NotOneRail)
}

/// Of a contact of two balls the other's and this ball's state before.
fn both(event: &Event, ball: usize) -> (BallState, BallState) {
    match event.kind {
        EventKind::Ball(touch) if event.ball == ball => (touch.other_before, event.before),
        EventKind::Ball(touch) => (event.before, touch.other_before),
        _ => (event.before, event.before),
    }
}

/// Where the cue ball would be when it hits, had squirt not turned it. Table frame.
fn hit_without_squirt(
    world: &World,
    shot: &Shot,
    target: Target,
    hit: &Event,
    squirt_rad: f64,
) -> Result<Vec2, NotAttributed> {
    let (cue, object) = both(hit, target.ball);
    let first = target.cue.and_then(|cue| shot.events_of(cue).next());
    let (true, Some(start)) = (squirt_rad != 0.0, first) else { return Ok(cue.position) };
    let cloth = ClothMotion::new(world.equipment());
    let path = Path::new(turned_back(start.after, squirt_rad), cloth);
    let rests = Path::new(BallState { position: object.position, ..BallState::default() }, cloth);
    let distance_m = (object.position - cue.position).norm();
    first_between(&path, &rests, 0.0, 0.0, 0.0, distance_m, f64::INFINITY)
        .map(|time_s| path.position_at(time_s))
        .ok_or(NotAttributed::NoHit)
}

/// A struck ball with its velocity turned back by squirt; the spin is the stroke's.
fn turned_back(state: BallState, squirt_rad: f64) -> BallState {
    BallState { velocity: turned(state.velocity, -squirt_rad), ..state }
}

fn turned(way: Vec2, angle_rad: f64) -> Vec2 {
    let (sin, cos) = libm::sincos(angle_rad);
    Vec2::new(way.x * cos - way.y * sin, way.x * sin + way.y * cos)
}

/// A ball sent another way from its place, its spin turned with it.
fn rotated(state: BallState, angle_rad: f64) -> BallState {
    let level = turned(Vec2::new(state.spin.x, state.spin.y), angle_rad);
    BallState {
        velocity: turned(state.velocity, angle_rad),
        spin: Vec3::new(level.x, level.y, state.spin.z),
        ..state
    }
}

fn in_bank_frame(geometry: &BankGeometry, mirrored: bool, state: BallState) -> BallState {
    let state = geometry.state_from_table(&state);
    if mirrored { state.mirrored() } else { state }
}

/// Where a ball that is sent off so comes to the rail.
fn sent(bank: &Bank, state: BallState) -> Option<RailMeeting> {
    let span_m = bank.geometry().span_m;
    let at_rail = if state.position.y >= span_m && state.velocity.y > 0.0 {
        state
    } else {
        let path = Path::new(state, bank.cloth());
        path.state_at(path.first_crossing(Vec2::new(0.0, 1.0), span_m, 0.0)?)
    };
    let way = at_rail.velocity.unit_or_zero();
    (way.y > 0.0).then_some(RailMeeting { along_m: at_rail.position.x, way })
}

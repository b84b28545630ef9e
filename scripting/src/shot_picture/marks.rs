//! The shot's events as marks, and spin at its key moments.

use super::subject::{ShotPicture, marked, point};
use crate::picture::{Mark, MarkKind, SpinMark};
use railproof_engine::motion::BallState;
use railproof_engine::rail::Rail;
use railproof_engine::shot::{Event, EventKind, Shot};
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::number_along;
use railproof_engine::world::{Owner, Shape};

/// Slower balls have no direction worth a sign, m/s.
const SLOW_M_S: f64 = 0.02;

pub(super) fn marks(from: &ShotPicture<'_>, shot: &Shot) -> Vec<Mark> {
    let mut marks = Vec::new();
    for event in &shot.events {
        let at = event.before.position;
        let radius_m = from.balls.get(event.ball).map_or(0.0, |(_, radius)| *radius);
        let label = |rail: Rail| number(from, event.ball, rail, at);
        let touch = |nose: Option<Vec2>, label: String| {
            let kind = MarkKind::Rail { nose: point(nose?), radius_m };
            Some(Mark { kind, at: point(at), label })
        };
        marks.extend(match event.kind {
            EventKind::Cushion(it) => {
                touch(touched(from, at, |owner| owner == Owner::Nose(it.rail)), label(it.rail))
            }
            EventKind::Jaw { pocket, side, part, .. } => touch(
                touched(from, at, |owner| owner == Owner::Jaw { pocket, side, part }),
                String::new(),
            ),
            EventKind::Obstacle { index, .. } => {
                touch(touched(from, at, |owner| owner == Owner::Obstacle(index)), String::new())
            }
            EventKind::Ball(it) => {
                let way = (it.other_before.position - at).unit_or_zero();
                let at = point(at + way * radius_m);
                Some(Mark { kind: MarkKind::BallHit, at, label: String::new() })
            }
            _ => None,
        });
    }
    marks
}

/// Where the struck ball or the one that is meant for the pocket touches a rail, as its number.
pub(super) fn number(from: &ShotPicture<'_>, ball: usize, rail: Rail, at: Vec2) -> String {
    let counted = from.target.filter(|(it, _)| *it == ball || from.cue == Some(ball));
    counted
        .map(|(_, pocket)| marked(number_along(from.world.equipment(), rail, pocket, at), pocket))
        .unwrap_or_default()
}

/// The place nearest to a centre on the surfaces of an owner.
pub(super) fn touched(
    from: &ShotPicture<'_>,
    centre: Vec2,
    is_owner: impl Fn(Owner) -> bool,
) -> Option<Vec2> {
    let nearest = |shape: &Shape| match *shape {
        Shape::Straight { from, to, .. } => {
            let run = to - from;
            let share = ((centre - from).dot(run) / run.dot(run)).clamp(0.0, 1.0);
            from + run * share
        }
        Shape::Round { centre: middle, radius_m, .. } => {
            middle + (centre - middle).unit_or_zero() * radius_m
        }
    };
    from.world
        .surfaces()
        .filter(|surface| is_owner(surface.owner))
        .map(|surface| nearest(&surface.shape))
        .min_by(|one, other| (*one - centre).norm().total_cmp(&(*other - centre).norm()))
}

/// Spin of the struck ball and of the one that is meant for the pocket, or of every ball that moves
/// from the start when there are none: at the start, after hits and off rails, ball by ball.
pub(super) fn spins(from: &ShotPicture<'_>, shot: &Shot) -> Vec<Vec<SpinMark>> {
    let mut spins = Vec::new();
    for ball in told(from) {
        let moments = shot.events_of(ball).filter_map(|event| moment(ball, event));
        let radius_m = from.balls[ball].1;
        let name = from.balls[ball].0;
        let spin = |(state, words)| spin(&state, radius_m, format!("{name} {words}"));
        spins.push(moments.filter_map(spin).collect());
    }
    spins
}

/// The balls whose spin is told.
pub(super) fn told(from: &ShotPicture<'_>) -> impl Iterator<Item = usize> {
    let named = from.cue.is_some() || from.target.is_some();
    let (cue, target) = (from.cue, from.target.map(|(ball, _)| ball));
    (0..from.balls.len()).filter(move |ball| !named || cue == Some(*ball) || target == Some(*ball))
}

/// The state after an event that changes spin, and words for it.
fn moment(ball: usize, event: &Event) -> Option<(BallState, &'static str)> {
    Some(match event.kind {
        EventKind::Start => (event.after, "at the start"),
        EventKind::Ball(_) => (event.after_of(ball), "after the hit"),
        EventKind::Cushion(_) => (event.after, "off the rail"),
        EventKind::Obstacle { .. } => (event.after, "off the obstacle"),
        _ => return None,
    })
}

pub(super) fn spin(state: &BallState, radius_m: f64, label: String) -> Option<SpinMark> {
    let speed = state.velocity.norm();
    if speed < SLOW_M_S {
        return None;
    }
    let travel = state.velocity * (1.0 / speed);
    let level = Vec2::new(state.spin.x, state.spin.y);
    // The axis of natural roll is up × travel.
    let along = level.dot(Vec2::new(-travel.y, travel.x));
    Some(SpinMark {
        at: point(state.position),
        radius_m,
        travel: point(travel),
        side: state.spin.z * radius_m / speed + 0.0,
        along: along * radius_m / speed + 0.0,
        label,
    })
}

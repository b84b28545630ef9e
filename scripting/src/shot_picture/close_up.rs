//! The place of a shot that is worth enlarging: balls that meet twice, or a ball between the jaws.

use super::marks::told;
use super::subject::{ShotPaths, ShotPicture, point};
use crate::picture::{Inset, InsetCircle};
use railproof_engine::rail::Pocket;
use railproof_engine::shot::{EventKind, Shot};
use railproof_engine::stepped::shot::{ContactWith, SteppedShot};
use railproof_engine::vector::Vec2;
use railproof_engine::world::Owner;

/// Moments that are shown at most.
const MOST_MOMENTS: usize = 4;
/// The window reaches so far beyond the circles, and is at least as large, in radii.
const BEYOND: f64 = 1.4;
const LEAST: f64 = 3.6;
/// An earlier meeting farther off than this is another place, in radii.
const NEAR: f64 = 7.0;

/// Something that a ball touches.
#[derive(Debug, Clone, Copy, PartialEq)]
enum TouchedThing {
    Ball(usize),
    Jaw(Pocket),
    Rail,
}

/// A touch: the ball and the thing, and the centres of the balls at it.
struct CloseTouch {
    ball: usize,
    with: TouchedThing,
    centres: [Option<(usize, Vec2)>; 2],
}

/// The enlarged place; none where nothing of the kind happens.
pub(super) fn close_up(from: &ShotPicture<'_>) -> Option<Inset> {
    let touches = match from.shot {
        ShotPaths::Event(shot) => of_events(shot),
        ShotPaths::Stepped(shot) => of_contacts(shot),
    };
    met_again(from, &touches).or_else(|| rattled(from, &touches))
}

/// Two balls that meet a second time: a double hit, or a double kiss where one was at a rail meanwhile.
fn met_again(from: &ShotPicture<'_>, touches: &[CloseTouch]) -> Option<Inset> {
    let pair = |touch: &CloseTouch| match touch.with {
        TouchedThing::Ball(other) => Some((touch.ball.min(other), touch.ball.max(other))),
        TouchedThing::Jaw(_) | TouchedThing::Rail => None,
    };
    let counted: Vec<usize> = told(from).collect();
    let is_counted = |(a, b): (usize, usize)| counted.contains(&a) && counted.contains(&b);
    let again = (0..touches.len()).find(|at| {
        let here = pair(&touches[*at]).filter(|balls| is_counted(*balls));
        here.is_some() && touches[..*at].iter().any(|earlier| pair(earlier) == here)
    })?;
    let here = pair(&touches[again])?;
    let first = touches[..again].iter().position(|touch| pair(touch) == Some(here))?;
    let between = &touches[first + 1..again];
    let by_rail = between.iter().any(|touch| {
        touch.with == TouchedThing::Rail && (touch.ball == here.0 || touch.ball == here.1)
    });
    let radius_m = from.balls[here.0].1;
    let apart = |a: &CloseTouch, b: &CloseTouch| match (a.centres[0], b.centres[0]) {
        (Some((_, a)), Some((_, b))) => (a - b).norm(),
        _ => f64::INFINITY,
    };
    let is_near = apart(&touches[first], &touches[again]) < NEAR * radius_m;
    let shown: Vec<&CloseTouch> =
        [&touches[first], &touches[again]].into_iter().skip(usize::from(!is_near)).collect();
    let name = |ball: usize| from.balls[ball].0;
    let (one, other) = (name(here.0), name(here.1));
    let kind = if by_rail { "double kiss" } else { "double hit" };
    let words = if is_near {
        format!("1: {one} and {other} meet. 2: they meet again.")
    } else {
        format!("1: {one} and {other} meet for the second time.")
    };
    Some(around(from, &shown, &format!("Enlarged: the {kind}"), words))
}

/// A ball that touches the jaws of a pocket more than once.
fn rattled(from: &ShotPicture<'_>, touches: &[CloseTouch]) -> Option<Inset> {
    let at_jaws = |ball: usize, pocket: Pocket| {
        touches.iter().filter(move |it| it.ball == ball && it.with == TouchedThing::Jaw(pocket))
    };
    let counted: Vec<usize> = told(from).collect();
    let (ball, pocket) = touches.iter().find_map(|touch| match touch.with {
        TouchedThing::Jaw(pocket) if counted.contains(&touch.ball) => {
            (at_jaws(touch.ball, pocket).count() > 1).then_some((touch.ball, pocket))
        }
        _ => None,
    })?;
    let all = at_jaws(ball, pocket).count();
    let shown: Vec<&CloseTouch> = at_jaws(ball, pocket).take(MOST_MOMENTS).collect();
    let name = from.balls[ball].0;
    let more = if all > shown.len() {
        format!(", the first {} of {all} times", shown.len())
    } else {
        String::new()
    };
    let words = format!("{name} touches a jaw at 1 to {}{more}.", shown.len());
    Some(around(from, &shown, "Enlarged: between the jaws", words))
}

fn around(from: &ShotPicture<'_>, shown: &[&CloseTouch], title: &str, words: String) -> Inset {
    let circles: Vec<InsetCircle> = shown
        .iter()
        .enumerate()
        .flat_map(|(index, touch)| touch.centres.iter().flatten().map(move |it| (index, it)))
        .map(|(index, (ball, at))| InsetCircle {
            at: point(*at),
            radius_m: from.balls[*ball].1,
            ball: *ball,
            moment: index + 1,
        })
        .collect();
    let radius_m = circles.iter().map(|circle| circle.radius_m).fold(0.0, f64::max);
    let ends = |of: fn(&InsetCircle) -> f64| {
        circles.iter().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        })
    };
    let (x, y) = (ends(|circle| circle.at.0), ends(|circle| circle.at.1));
    let half = |(low, high): (f64, f64)| 0.5 * (high - low) + (1.0 + BEYOND) * radius_m;
    let upright = half(y) / Inset::HEIGHT_TO_WIDTH;
    Inset {
        centre: (f64::midpoint(x.0, x.1), f64::midpoint(y.0, y.1)),
        half_m: half(x).max(upright).max(LEAST * radius_m),
        circles,
        title: title.to_owned(),
        words,
    }
}

fn of_events(shot: &Shot) -> Vec<CloseTouch> {
    let touch = |event: &railproof_engine::shot::Event| {
        let own = Some((event.ball, event.before.position));
        let with = match event.kind {
            EventKind::Cushion(_) => TouchedThing::Rail,
            EventKind::Jaw { pocket, .. } => TouchedThing::Jaw(pocket),
            EventKind::Ball(it) => {
                let other = Some((it.other, it.other_before.position));
                return Some(CloseTouch {
                    ball: event.ball,
                    with: TouchedThing::Ball(it.other),
                    centres: [own, other],
                });
            }
            _ => return None,
        };
        Some(CloseTouch { ball: event.ball, with, centres: [own, None] })
    };
    shot.events.iter().filter_map(touch).collect()
}

fn of_contacts(shot: &SteppedShot) -> Vec<CloseTouch> {
    let touch = |contact: &railproof_engine::stepped::shot::SteppedContact| {
        let own = Some((contact.ball, contact.arrival.position));
        let (with, other) = match (contact.with, contact.other) {
            (ContactWith::Ball(other), states) => {
                (TouchedThing::Ball(other), states.map(|[arrival, _]| (other, arrival.position)))
            }
            (ContactWith::Surface(Owner::Nose(_)), _) => (TouchedThing::Rail, None),
            (ContactWith::Surface(Owner::Jaw { pocket, .. }), _) => {
                (TouchedThing::Jaw(pocket), None)
            }
            (ContactWith::Surface(Owner::Obstacle(_)), _) => return None,
        };
        Some(CloseTouch { ball: contact.ball, with, centres: [own, other] })
    };
    shot.contacts.iter().filter_map(touch).collect()
}

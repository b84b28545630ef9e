//! A stepped shot's states as paths, and its contacts as marks.

use super::marks::{number, spin, told, touched};
use super::subject::{ShotPicture, point};
use crate::picture::{Mark, MarkKind, Motion, SpinMark, TrackPath, TrackPiece};
use railproof_engine::stepped::shot::{ContactWith, SteppedContact, SteppedShot};
use railproof_engine::world::Owner;

/// Slower slip than this is roll, m/s.
const ROLLS_BELOW_M_S: f64 = 1e-3;
/// Nearer states than this are one, m; only drawn.
const NEAR_M: f64 = 1e-4;

/// A ball's kept states, joined by straight stretches.
pub(super) fn pieces(
    shot: &SteppedShot,
    ball: usize,
    radius_m: f64,
    most: usize,
) -> Vec<TrackPiece> {
    let mut pieces = Vec::new();
    let mut last = None;
    let end = shot.ends.get(ball).map(|end| end.state);
    let states = shot.path(ball).iter().map(|sample| sample.state).chain(end);
    for state in states {
        let Some(from) = last else {
            last = Some(state.position);
            continue;
        };
        if (state.position - from).norm() < NEAR_M || pieces.len() >= most {
            continue;
        }
        let slides = state.cloth_slip(radius_m).norm() > ROLLS_BELOW_M_S;
        let motion = if slides { Motion::Slide } else { Motion::Roll };
        let path = TrackPath::Line { from: point(from), to: point(state.position) };
        pieces.push(TrackPiece { path, motion });
        last = Some(state.position);
    }
    pieces
}

pub(super) fn marks(from: &ShotPicture<'_>, shot: &SteppedShot) -> Vec<Mark> {
    let mark = |contact: &SteppedContact| {
        let at = contact.arrival.position;
        let radius_m = from.balls.get(contact.ball).map_or(0.0, |(_, radius)| *radius);
        match contact.with {
            ContactWith::Surface(owner) => {
                let nose = point(touched(from, at, |it| it == owner)?);
                let label = match owner {
                    Owner::Nose(rail) => number(from, contact.ball, rail, at),
                    Owner::Jaw { .. } | Owner::Obstacle(_) => String::new(),
                };
                Some(Mark { kind: MarkKind::Rail { nose, radius_m }, at: point(at), label })
            }
            ContactWith::Ball(_) => {
                let [other, _] = contact.other?;
                let way = (other.position - at).unit_or_zero();
                let at = point(at + way * radius_m);
                Some(Mark { kind: MarkKind::BallHit, at, label: String::new() })
            }
        }
    };
    shot.contacts.iter().filter_map(mark).collect()
}

pub(super) fn spins(from: &ShotPicture<'_>, shot: &SteppedShot) -> Vec<Vec<SpinMark>> {
    let mut spins = Vec::new();
    for ball in told(from) {
        let radius_m = from.balls[ball].1;
        let start = shot.state_at(ball, 0.0).map(|state| (state, "at the start"));
        let contacts = shot.contacts.iter().filter(|contact| contact.is_of(ball));
        let after = contacts.map(|contact| match (contact.with, contact.other) {
            (ContactWith::Surface(_), _) => (contact.departure, "off the rail"),
            (ContactWith::Ball(_), Some([_, other])) if contact.ball != ball => {
                (other, "after the hit")
            }
            (ContactWith::Ball(_), _) => (contact.departure, "after the hit"),
        });
        let moments = start.into_iter().chain(after);
        let name = from.balls[ball].0;
        let spin = |(state, words)| spin(&state, radius_m, format!("{name} {words}"));
        spins.push(moments.filter_map(spin).collect());
    }
    spins
}

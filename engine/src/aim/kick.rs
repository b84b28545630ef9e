//! Kicks: the cue ball comes off rails before it meets the object ball.

use super::round::zeros_round;
use super::{CUE, NoAim, OBJECT, Setup};
use crate::equipment::RailModel;
use crate::motion::BallState;
use crate::rail::Rail;
use crate::shot::{EventKind, Shot, ShotError};
use crate::stroke::Stroke;

/// Every aim with which the cue ball comes off exactly these rails and then meets the object ball at the
/// given fullness: `offset` is the distance at which the cue ball's way passes the object ball's centre, as
/// a share of the contact distance, to the left of its way; 0 is full. The rest of the stroke is as given.
///
/// # Errors
/// [`NoAim`] when no aim does it.
pub fn kick(
    setup: &Setup<'_>,
    stroke: &Stroke,
    rails: &[Rail],
    offset: f64,
) -> Result<Vec<Stroke>, NoAim> {
    if setup.world.equipment().cushion.rail_model == RailModel::Compliant {
        return Err(ShotError::Compliant.into());
    }
    let off = |aim_rad: f64| -> Result<Option<f64>, NoAim> {
        let shot = match setup.play(&Stroke { aim_rad, ..*stroke }) {
            Err(error) if error.is_no_room() => return Ok(None),
            shot => shot?,
        };
        Ok(passes_at(setup, &shot, rails).map(|passed| passed - offset))
    };
    let mut found = Vec::new();
    for aim_rad in zeros_round(off)? {
        let stroke = Stroke { aim_rad, ..*stroke };
        if meets_after(&setup.play(&stroke)?, rails) {
            found.push(setup.raised(&stroke)?);
        }
    }
    if found.is_empty() {
        return Err(NoAim::NoArrival {
            why: "no aim comes off just these rails and meets the object ball so",
        });
    }
    Ok(found)
}

/// True when the cue ball comes off just these rails and then meets the object ball.
fn meets_after(shot: &Shot, rails: &[Rail]) -> bool {
    let mut rails = rails.iter();
    for event in shot.events_of(CUE) {
        match event.kind {
            EventKind::Cushion(touch) if rails.next() != Some(&touch.rail) => return false,
            EventKind::Ball(touch) => {
                let other = if event.ball == CUE { touch.other } else { event.ball };
                return other == OBJECT && rails.next().is_none();
            }
            EventKind::Jaw { .. } | EventKind::Obstacle { .. } | EventKind::Drop(_) => {
                return false;
            }
            _ => {}
        }
    }
    false
}

/// The distance at which the cue ball's way, once it has come off just these rails, passes the object
/// ball's centre, as a share of the contact distance; positive when it passes on the left of it. Ways
/// that pass without a touch have one too.
fn passes_at(setup: &Setup<'_>, shot: &Shot, rails: &[Rail]) -> Option<f64> {
    let mut rails = rails.iter();
    let mut wanted = rails.next();
    let mut way: Option<BallState> =
        if wanted.is_none() { shot.events.first().map(|it| it.after) } else { None };
    for event in shot.events_of(CUE) {
        match event.kind {
            EventKind::Cushion(touch) => match wanted {
                Some(rail) if *rail == touch.rail => {
                    wanted = rails.next();
                    way = Some(event.after);
                }
                Some(_) => return None,
                None => break,
            },
            EventKind::Leave if wanted.is_none() => way = Some(event.after),
            EventKind::Ball(touch) if wanted.is_none() => {
                let other = if event.ball == CUE { touch.other } else { event.ball };
                if other != OBJECT {
                    return None;
                }
                let before = if event.ball == CUE { event.before } else { touch.other_before };
                way = Some(before);
                break;
            }
            EventKind::Ball(_) | EventKind::Jaw { .. } | EventKind::Obstacle { .. } => {
                if wanted.is_some() {
                    return None;
                }
                break;
            }
            EventKind::Drop(_) => break,
            _ => {}
        }
    }
    if wanted.is_some() {
        return None;
    }
    let way = way?;
    let travel = way.velocity.unit_or_zero();
    let apart = setup.object.state.position - way.position;
    // Behind the cue ball there is nothing to pass.
    (travel.dot(apart) > 0.0).then(|| -travel.cross(apart) / setup.contact_m())
}

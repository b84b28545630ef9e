//! A ball that its own spin holds against a surface.
//!
//! When a ball slides so that the cloth drives it into a cushion, its bounces grow smaller and
//! denser without end. Below [`HELD_BELOW_M_S`] they are no longer resolved: the centre stays on the
//! boundary, and the surface takes the speed that the cloth gives the ball in each short step by an
//! impact of the same rail model without restitution. That is the limit of the model's own bounces;
//! it is of first order in the step.

use super::touch::{act, gliding, with_speed_into, without_spin_into};
use super::trajectory::{Leg, LegKind, tidy};
use crate::equipment::RailModel;
use crate::impact::CushionContact;
use crate::motion::{BallState, ClothMotion, Path};
use crate::vector::Vec2;
use crate::world::{Boundary, Grown};

/// A ball that comes off a surface more slowly than this, while the cloth drives it back, stays on
/// it, m/s. At a deceleration of 2 m/s² it would have come 2.5 nm off.
pub const HELD_BELOW_M_S: f64 = 1e-4;

/// Longest step of a held ball, s, unless its slide is long.
const STEP_S: f64 = 0.25e-3;
/// A long slide is taken in so many steps.
const STEPS_IN_A_SLIDE: f64 = 1000.0;
/// Longest way along the surface in one step, m.
const STEP_M: f64 = 1e-3;
/// What slip into the surface is left below this is gone, m/s.
const LEAST_SLIP_M_S: f64 = 1e-9;
/// A ball that moves more slowly than this share of its speed into or off a surface moves along it.
const ALONG: f64 = 1e-14;

/// The surface against which the cloth holds a ball that is on it and does not move off it.
pub(super) fn holding(grown: &Grown, path: &Path, state: &BallState) -> Option<Boundary> {
    if path.rolls_from_s() <= 0.0 || grown.surely_free(state.position) {
        return None;
    }
    let drive = path.slide().acceleration;
    let boundary = grown.touched_at(state.position, drive)?;
    let into = boundary.normal_at(state.position);
    let off = into.dot(state.velocity).abs();
    (off <= ALONG * state.velocity.norm()).then_some(boundary)
}

/// One step of a ball held against `boundary` from `time_s`: the leg, or the state in which the
/// surface lets it go at once.
pub(super) fn step(
    boundary: Boundary,
    state: BallState,
    time_s: f64,
    cloth: ClothMotion,
) -> Result<Leg, BallState> {
    let into = boundary.normal_at(state.position);
    let slip = into.dot(state.cloth_slip(cloth.radius_m));
    // Along a surface the slip into it dies ever more slowly and never quite.
    if slip.abs() <= LEAST_SLIP_M_S {
        return Err(tidy(gliding(into, without_spin_into(into, state))));
    }
    let driven = Path::new(state, cloth);
    let slide_s = driven.rolls_from_s();
    let way_s = STEP_M / state.velocity.norm().max(f64::MIN_POSITIVE);
    let step_s = STEP_S.max(slide_s / STEPS_IN_A_SLIDE).min(slide_s).min(way_s);
    if time_s + step_s <= time_s {
        return Err(tidy(gliding(into, without_spin_into(into, state))));
    }
    // The surface takes what drives the ball into it; what is left goes along it.
    let drive = driven.slide().acceleration;
    let along = drive - into * into.dot(drive);
    let path = Path::prescribed(with_speed_into(into, state, 0.0), along, cloth.radius_m);
    let kind = LegKind::Held { boundary, until_s: time_s + step_s };
    Ok(Leg { time_s, path, kind })
}

/// How the ball would move from the beginning of a held step if nothing held it.
pub(super) fn driven(leg: &Leg, cloth: ClothMotion) -> Path {
    Path::new(leg.path.state_at(0.0), cloth)
}

/// The state at the end of a held step that lasted `step_s`.
pub(super) fn after_step(
    model: RailModel,
    contact: &CushionContact,
    boundary: Boundary,
    leg: &Leg,
    cloth: ClothMotion,
    step_s: f64,
) -> BallState {
    let dead = CushionContact {
        restitution: 0.0,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        ..*contact
    };
    let place = boundary.pinned(leg.path.position_at(step_s));
    let into = boundary.normal_at(place);
    let mut state = BallState { position: place, ..driven(leg, cloth).state_at(step_s) };
    if into.dot(state.velocity) > 0.0 {
        state = act(model, &dead, into, state).0;
    }
    tidy(BallState { position: place, ..with_speed_into(into, state, 0.0) })
}

/// The way along a surface that a contact of `contact_time_s` takes a ball, as a motion of its own.
pub(super) fn along_while_touching(
    into: Vec2,
    before: BallState,
    after: BallState,
    radius_m: f64,
) -> Path {
    let mean = (before.velocity + after.velocity) * 0.5;
    let mut along = mean - into * into.dot(mean);
    if into.x != 0.0 && into.y != 0.0 {
        // Rounding must not lead it into the surface.
        along = along - into * (1e-15 * mean.norm());
    }
    let start = BallState { position: before.position, velocity: along, spin: after.spin };
    Path::prescribed(start, Vec2::ZERO, radius_m)
}

//! A ball that its own spin holds against what it touches.
//!
//! When a ball slides so that the cloth drives it into a surface, its bounces grow smaller and denser
//! without end. Below [`HELD_BELOW_M_S`] they are no longer resolved: the ball is *held*. Which of the
//! surfaces that it touches hold it is a small linear complementarity problem ([`pressing`]): each
//! either presses, and then the ball does not move off it, or is about to part, and then it does not
//! press. The plane has room for three answers, and each is a state that lasts a short step ([`step`]):
//!
//! - nothing presses, and the ball is free;
//! - one surface presses: the centre goes along it, around a corner where it is one;
//! - two press: the centre rests where they meet, and only the spin changes.
//!
//! In each step the surfaces take the speed that the cloth gives the ball into them by an impact of
//! their own rail model without restitution. That is the limit of the model's own bounces; it is of
//! first order in the step.
//!
//! The surfaces that a ball touches are found anew after every step ([`TouchedSurfaces`]), so a step never
//! outlives a change of surfaces: it ends where its surface ends and where another one is met.

mod contacts;
mod holders;
mod pressure;
mod step;

pub use holders::HELD_BELOW_M_S;
pub(super) use holders::{Holder, Holds};
pub(super) use step::{after_step, along_while_touching, driven};

use super::ball_kinds::BallKind;
use super::response::{act_dead, with_speed_into};
use super::trajectory::{Leg, LegKind, tidy};
use crate::equipment::RailModel;
use crate::motion::{BallState, Path, Segment};
use crate::vector::Vec2;
use crate::world::{Boundary, CentreBoundaries, World};
use contacts::{ALONG_SEVERAL_M_S, PassedBoundaries, SurfaceContact, TouchedSurfaces};
use pressure::{Press, pressing};

/// A ball that touches several surfaces does not bounce off one that it comes to more slowly than this,
/// m/s.
const SLOW_AMONG_SEVERAL_M_S: f64 = 1e-3;

/// A held ball that is driven into another surface by less than this is not, m/s²: in a step that moves
/// it by less than rounding does.
const LEAST_DRIVE_M_S2: f64 = 1e-9;
/// As [`LEAST_DRIVE_M_S2`], for the seconds of a free way.
const LEAST_FREE_DRIVE_M_S2: f64 = 1e-12;
/// A ball among several surfaces that gains less speed than this into one on all of its slide is not driven
/// into it, m/s: what one surface lets go of with its own rounding, another beside or opposite it would
/// give back without end. It comes to 0.1 nm until the ball rests.
const LEAST_FREE_GAIN_M_S: f64 = 1e-11;
/// A ball that lets go of one surface after another does so at most so many times at once.
const MOST_RELEASES: usize = 8;
/// Between two surfaces a slow ball is stopped by each in turn at most so often; what is left then is
/// taken from its speed alone.
const MOST_TURNS: usize = 32;

/// The motion of a ball on from a state at `time_s`. A ball that is not `patient` has been thrown to and
/// fro between surfaces too often for one moment: they take all its speed into them.
pub(super) fn onward(
    world: &World,
    model: RailModel,
    kind: &BallKind<'_>,
    state: BallState,
    time_s: f64,
    patient: bool,
) -> Leg {
    let slow_m_s = if patient { SLOW_AMONG_SEVERAL_M_S } else { f64::INFINITY };
    let free = |state: BallState| {
        let path = Path::new(state, kind.cloth);
        Leg { time_s, path, kind: LegKind::Free }
    };
    let mut state = state;
    if kind.grown().surely_untouched(state.position) {
        return free(state);
    }
    let touched = TouchedSurfaces::at(kind.grown(), state.position);
    for _ in 0..MOST_RELEASES {
        if touched.several() {
            state = without_slow_approach(world, model, kind, &touched, state, slow_m_s);
        }
        let path = Path::new(state, kind.cloth);
        let press = press_of(&touched, &path, &state);
        let made = match press {
            Press::None => return Leg { time_s, path, kind: LegKind::Free },
            Press::One(one) => step::along(touched[one].boundary, state, time_s, kind.cloth),
            Press::Two(two) => {
                let between = two.map(|(index, takes_m_s2)| {
                    let SurfaceContact { boundary, normal, .. } = touched[index];
                    Holder { owner: boundary.owner, normal, takes_m_s2 }
                });
                step::between(between, state, time_s, kind.cloth)
            }
        };
        match made {
            Ok(leg) => return leg,
            Err(released) => state = released,
        }
    }
    free(state)
}

/// True when the cloth holds a ball in this state against that boundary, which it touches.
pub(super) fn is_held(
    grown: &CentreBoundaries,
    path: &Path,
    state: &BallState,
    by: &Boundary,
) -> bool {
    let touched = TouchedSurfaces::at(grown, state.position);
    let is_it = |index: usize| touched[index].boundary.owner == by.owner;
    match press_of(&touched, path, state) {
        Press::None => false,
        Press::One(one) => is_it(one),
        Press::Two([(one, _), (other, _)]) => is_it(one) || is_it(other),
    }
}

/// The boundaries that a ball does not meet as a leg begins although it touches them: those that hold it,
/// those whose end it goes over, those that it is not driven into, and, where it touches several and is
/// free, those that bend away from under it faster than it is driven after them.
pub(super) fn not_met<'w>(grown: &'w CentreBoundaries, leg: &Leg) -> PassedBoundaries<'w> {
    let Segment { position, velocity, acceleration, duration_s } = *leg.path.first_stretch();
    if grown.surely_untouched(position) {
        return PassedBoundaries::default();
    }
    let touched = TouchedSurfaces::at(grown, position);
    let mut not_met = match leg.kind {
        LegKind::Held { by, .. } => touched.not_met(velocity, acceleration, |contact, drive| {
            !by.includes(contact.boundary, contact.normal) && drive > LEAST_DRIVE_M_S2
        }),
        LegKind::Free | LegKind::Against { .. } => {
            let least_m_s = if touched.several() { LEAST_FREE_GAIN_M_S } else { 0.0 };
            touched.not_met(velocity, acceleration, |_, drive| {
                drive > LEAST_FREE_DRIVE_M_S2 && drive * duration_s > least_m_s
            })
        }
    };
    if leg.kind != LegKind::Free {
        not_met.at_first.clear();
    }
    not_met
}

/// Which of what a ball touches, and neither goes into nor comes off, presses it.
fn press_of(touched: &TouchedSurfaces<'_>, path: &Path, state: &BallState) -> Press {
    if path.rolls_from_s() <= 0.0 {
        return Press::None;
    }
    let drive = path.slide().acceleration;
    let speed2 = state.velocity.dot(state.velocity);
    pressing(touched.resting(state, drive).map(|(index, contact)| {
        // A round surface bends away from under the ball.
        let bends = contact.boundary.curvature_1_m() * speed2;
        (index, contact.normal, contact.normal.dot(drive) - bends)
    }))
}

/// The state of a ball that touches several surfaces, with what speed it has into any of them, where
/// that is below `slow_m_s`, taken by that surface.
fn without_slow_approach(
    world: &World,
    model: RailModel,
    kind: &BallKind<'_>,
    touched: &TouchedSurfaces<'_>,
    state: BallState,
    slow_m_s: f64,
) -> BallState {
    let mut state = state;
    let closing = |state: &BallState, normal: Vec2| normal.dot(state.velocity);
    for _ in 0..MOST_TURNS {
        let mut fastest: Option<(f64, usize)> = None;
        for (index, contact) in touched.iter().enumerate() {
            let speed = closing(&state, contact.normal);
            if speed > 0.0 && speed < slow_m_s && fastest.is_none_or(|(most, _)| speed > most) {
                fastest = Some((speed, index));
            }
        }
        let Some((_, index)) = fastest else { break };
        let contact = &touched[index];
        let answer = kind.answer_of(world, model, contact.boundary.owner);
        state = with_speed_into(contact.normal, act_dead(&answer, contact.normal, state), 0.0);
    }
    let slow_ones = touched.iter().enumerate().filter_map(|(index, contact)| {
        let speed = closing(&state, contact.normal);
        (speed < slow_m_s).then_some((index, contact.normal, speed))
    });
    match pressing(slow_ones) {
        Press::None => {}
        Press::One(one) => state = with_speed_into(touched[one].normal, state, 0.0),
        Press::Two(_) => state.velocity = Vec2::ZERO,
    }
    // What is left of a speed below this is rounding, and so is what is left of a spin.
    if state.velocity.norm() < ALONG_SEVERAL_M_S {
        state.velocity = Vec2::ZERO;
        if state.cloth_slip(kind.cloth.radius_m).norm() < ALONG_SEVERAL_M_S {
            state = state.rolling(kind.cloth.radius_m);
        }
    }
    tidy(state)
}

#[cfg(test)]
mod tests;

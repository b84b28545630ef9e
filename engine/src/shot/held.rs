//! A ball that its own spin holds against a cushion.
//!
//! When a ball slides so that the cloth drives it into the cushion, its bounces grow smaller and
//! denser without end. Below [`HELD_BELOW_M_S`] they are no longer resolved: the centre stays on the
//! groove, and the cushion takes the speed that the cloth gives the ball in each short step by an
//! impact of the same rail model without restitution. That is the limit of the model's own bounces;
//! it is of first order in the step.

use super::cushion::{act, pinned, without_spin_into};
use super::meeting::on_cushion;
use super::trajectory::{Leg, tidy};
use crate::equipment::RailModel;
use crate::impact::CushionContact;
use crate::motion::{BallState, ClothMotion, Path};
use crate::rail::{Outline, Rail};

/// A ball that comes off a cushion more slowly than this, while the cloth drives it back, stays on
/// it, m/s. At a deceleration of 2 m/s² it would have come 2.5 nm off.
pub const HELD_BELOW_M_S: f64 = 1e-4;

/// Longest step of a held ball, s, unless its slide is long.
const STEP_S: f64 = 0.25e-3;
/// A long slide is taken in so many steps.
const STEPS_IN_A_SLIDE: f64 = 1000.0;
/// Longest way along the cushion in one step, m.
const STEP_M: f64 = 1e-3;
/// What slip into the cushion is left below this is gone, m/s.
const LEAST_SLIP_M_S: f64 = 1e-9;

/// The rail against which the cloth holds a ball that is on its groove and does not move off it.
pub(super) fn holding_rail(outline: &Outline, path: &Path, state: &BallState) -> Option<Rail> {
    Rail::ALL.into_iter().find(|rail| {
        let outward = rail.outward();
        outward.dot(state.position) >= outline.groove_offset_m(*rail)
            && outward.dot(state.velocity) == 0.0
            && path.rolls_from_s() > 0.0
            && outward.dot(path.slide().acceleration) > 0.0
            && on_cushion(outline, path, *rail, 0.0)
    })
}

/// What a held ball moves on.
pub(super) struct Holder<'a> {
    pub(super) outline: &'a Outline,
    pub(super) cloth: ClothMotion,
    pub(super) model: RailModel,
    pub(super) contact: CushionContact,
}

impl Holder<'_> {
    /// Follows the ball from `time_s` until the cloth lets go of it, a pocket opens, or `until_s`;
    /// returns that time and the state then.
    pub(super) fn hold(
        &self,
        rail: Rail,
        mut state: BallState,
        mut time_s: f64,
        until_s: f64,
        legs: &mut Vec<Leg>,
    ) -> (f64, BallState) {
        let dead = CushionContact {
            restitution: 0.0,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            ..self.contact
        };
        let radius = self.cloth.radius_m;
        let slide_s = Path::new(state, self.cloth).rolls_from_s();
        let longest_s = STEP_S.max(slide_s / STEPS_IN_A_SLIDE);
        while time_s < until_s {
            // Along a cushion the slip into it dies ever more slowly and never quite.
            let slip = rail.outward().dot(state.cloth_slip(radius));
            if slip.abs() <= LEAST_SLIP_M_S {
                state = tidy(without_spin_into(rail, state));
                break;
            }
            let path = Path::new(state, self.cloth);
            if holding_rail(self.outline, &path, &state) != Some(rail) {
                break;
            }
            let way_s = STEP_M / state.velocity.norm().max(f64::MIN_POSITIVE);
            let step_s = longest_s.min(path.rolls_from_s()).min(way_s).min(until_s - time_s);
            legs.push(Leg { time_s, path, held: Some(rail) });
            let driven = path.state_at(step_s);
            let into = rail.outward().dot(driven.velocity);
            let mut after = pinned(self.outline, rail, driven, into);
            if into > 0.0 {
                after = act(self.model, &dead, rail, after).0;
            }
            state = tidy(pinned(self.outline, rail, after, 0.0));
            let next_s = time_s + step_s;
            if next_s <= time_s {
                break;
            }
            time_s = next_s;
        }
        (time_s, state)
    }
}

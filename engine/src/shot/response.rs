//! A solid surface's action on a ball in the table frame.

use super::Touch;
use crate::equipment::RailModel;
use crate::impact::{Bounce, CushionContact, Rebound, bounce};
use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};

/// A model may leave the ball still moving into the cushion (the nose-only one does where the
/// restitution is below tan²θ). It then acts again at once, at most so many times.
const MOST_AT_ONCE: usize = 64;

/// Unit vector along a surface such that (along, into, up) is right-handed.
fn along(into: Vec2) -> Vec2 {
    Vec2::new(into.y, -into.x)
}

/// The state with the given speed into the surface.
pub(super) fn with_speed_into(into: Vec2, state: BallState, speed_m_s: f64) -> BallState {
    let along = along(into);
    let velocity = along * along.dot(state.velocity) + into * speed_m_s;
    BallState { velocity, ..state }
}

/// The state moving along the surface: it neither goes into it nor, but for rounding, off it. Where the
/// surface stands askew to the axes rounding could lead it in, so there it leaves by more than that.
pub(super) fn gliding(into: Vec2, state: BallState) -> BallState {
    let askew = into.x != 0.0 && into.y != 0.0;
    let away = if askew { 1e-12 * state.velocity.norm() } else { 0.0 };
    with_speed_into(into, state, -away)
}

/// The state without the spin that rolls a ball into the surface.
pub(super) fn without_spin_into(into: Vec2, state: BallState) -> BallState {
    let kept = into * Vec2::new(state.spin.x, state.spin.y).dot(into);
    BallState { spin: Vec3::new(kept.x, kept.y, state.spin.z), ..state }
}

/// The answer of a solid thing to a ball.
#[derive(Debug, Clone, Copy)]
pub(super) struct SurfaceResponse {
    pub(super) model: RailModel,
    pub(super) contact: CushionContact,
    /// Contact time, s.
    pub(super) lasts_s: f64,
}

/// The state after a surface has taken what speed the ball has into it, giving none back.
pub(super) fn act_dead(answer: &SurfaceResponse, into: Vec2, before: BallState) -> BallState {
    let dead = CushionContact {
        restitution: 0.0,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        ..answer.contact
    };
    act(answer.model, &dead, into, before).0
}

/// The state after a surface has acted, and the touch. The ball must move into it.
///
/// The impact's axes are x along the surface, y into it and z up; both are right-handed, so spin
/// turns with the axes like any vector.
pub(super) fn act(
    model: RailModel,
    contact: &CushionContact,
    into: Vec2,
    before: BallState,
) -> (BallState, Touch) {
    let along = along(into);
    let level = Vec2::new(before.spin.x, before.spin.y);
    let mut motion = Bounce {
        velocity: Vec2::new(before.velocity.dot(along), before.velocity.dot(into)),
        spin: Vec3::new(level.dot(along), level.dot(into), before.spin.z),
    };
    // What is left of the speed into the surface below this is rounding.
    let least = 1e-12 * motion.velocity.y;
    let first = once(model, contact, &mut motion);
    let mut touch = Touch {
        restitution: first.restitution,
        outside_checked_speed: first.outside_checked_speed,
        hop: first.hop,
    };
    for _ in 1..MOST_AT_ONCE {
        if motion.velocity.y <= least {
            break;
        }
        touch.hop |= once(model, contact, &mut motion).hop;
    }
    let velocity = along * motion.velocity.x + into * motion.velocity.y.min(0.0);
    let level = along * motion.spin.x + into * motion.spin.y;
    let spin = Vec3::new(level.x, level.y, motion.spin.z);
    (BallState { position: before.position, velocity, spin }, touch)
}

fn once(model: RailModel, contact: &CushionContact, motion: &mut Bounce) -> Rebound {
    let rebound = bounce(model, contact, *motion);
    *motion = Bounce { velocity: rebound.velocity, spin: rebound.spin };
    rebound
}

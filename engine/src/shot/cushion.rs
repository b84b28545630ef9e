//! A cushion's action on a ball in the table frame.

use super::CushionTouch;
use crate::equipment::RailModel;
use crate::impact::{Bounce, CushionContact, Rebound, bounce};
use crate::motion::BallState;
use crate::rail::{Outline, Rail};
use crate::vector::{Vec2, Vec3};

/// A model may leave the ball still moving into the cushion (the nose-only one does where the
/// restitution is below tan²θ). It then acts again at once, at most so many times.
const MOST_AT_ONCE: usize = 64;

/// Unit vector along a rail such that (along, outward, up) is right-handed.
fn along(rail: Rail) -> Vec2 {
    let outward = rail.outward();
    Vec2::new(outward.y, -outward.x)
}

/// The state with its centre exactly on the rail's groove and the given speed into the rail.
pub(super) fn pinned(outline: &Outline, rail: Rail, state: BallState, into_m_s: f64) -> BallState {
    let (outward, along) = (rail.outward(), along(rail));
    let position = along * along.dot(state.position) + outward * outline.groove_offset_m(rail);
    let velocity = along * along.dot(state.velocity) + outward * into_m_s;
    BallState { position, velocity, ..state }
}

/// The state without the spin that rolls a ball into the rail.
pub(super) fn without_spin_into(rail: Rail, state: BallState) -> BallState {
    let outward = rail.outward();
    let kept = outward * Vec2::new(state.spin.x, state.spin.y).dot(outward);
    BallState { spin: Vec3::new(kept.x, kept.y, state.spin.z), ..state }
}

/// The state after the cushion has acted, and what it did. The ball must move into the rail.
///
/// The impact's axes are x along the cushion, y into it and z up; both are right-handed, so spin
/// turns with the axes like any vector.
pub(super) fn act(
    model: RailModel,
    contact: &CushionContact,
    rail: Rail,
    before: BallState,
) -> (BallState, CushionTouch) {
    let (outward, along) = (rail.outward(), along(rail));
    let level = Vec2::new(before.spin.x, before.spin.y);
    let mut motion = Bounce {
        velocity: Vec2::new(before.velocity.dot(along), before.velocity.dot(outward)),
        spin: Vec3::new(level.dot(along), level.dot(outward), before.spin.z),
    };
    // What is left of the speed into the cushion below this is rounding.
    let least = 1e-12 * motion.velocity.y;
    let first = once(model, contact, &mut motion);
    let mut touch = CushionTouch {
        rail,
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
    let velocity = along * motion.velocity.x + outward * motion.velocity.y.min(0.0);
    let level = along * motion.spin.x + outward * motion.spin.y;
    let spin = Vec3::new(level.x, level.y, motion.spin.z);
    (BallState { position: before.position, velocity, spin }, touch)
}

fn once(model: RailModel, contact: &CushionContact, motion: &mut Bounce) -> Rebound {
    let rebound = bounce(model, contact, *motion);
    *motion = Bounce { velocity: rebound.velocity, spin: rebound.spin };
    rebound
}

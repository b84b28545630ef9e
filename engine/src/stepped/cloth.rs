//! The effect of the cloth on the ball during one step.

use crate::motion::{BallState, ClothMotion};
use crate::vector::Vec2;

/// Changes over a step, constant in rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ClothPush {
    /// Change of velocity, m/s.
    pub(super) velocity: Vec2,
    /// Change of spin about the level axes, rad/s.
    pub(super) level_spin: Vec2,
    /// Change of spin about the vertical, rad/s.
    pub(super) spin_z: f64,
}

/// Slip that would be gone in less time than this counts as gone, s.
const SPENT_S: f64 = 1e-9;

/// Time until slip is spent, s; infinite on a cloth without friction.
fn slide_time_s(slip_speed: f64, cloth: &ClothMotion) -> f64 {
    // The slip of a sliding ball falls at (7/2)·μs·g (Coriolis 1835).
    2.0 / 7.0 * slip_speed / cloth.sliding_deceleration_m_s2
}

fn slides(state: &BallState, slip_speed: f64, cloth: &ClothMotion) -> bool {
    slip_speed > 1e-13 * (state.velocity.norm() + slip_speed)
        && slide_time_s(slip_speed, cloth) > SPENT_S
}

/// Time until a free ball's cloth force changes, s: until it rolls, or until it rests.
pub(super) fn steady_time_s(state: &BallState, cloth: &ClothMotion) -> f64 {
    let slip_speed = state.cloth_slip(cloth.radius_m).norm();
    if slides(state, slip_speed, cloth) {
        slide_time_s(slip_speed, cloth)
    } else if cloth.rolling_deceleration_m_s2 > 0.0 {
        state.velocity.norm() / cloth.rolling_deceleration_m_s2
    } else {
        f64::INFINITY
    }
}

/// True when nothing moves the centre any more.
pub(super) fn rests(state: &BallState, cloth: &ClothMotion) -> bool {
    let slip_speed = state.cloth_slip(cloth.radius_m).norm();
    !slides(state, slip_speed, cloth) && steady_time_s(state, cloth) <= SPENT_S
        || state.velocity == Vec2::ZERO && slip_speed == 0.0
}

/// The cloth's push over the next `step_s`. Friction never turns slip round and rolling resistance
/// never turns travel round: what is left of the step after slip is spent is rolled.
pub(super) fn push(state: &BallState, cloth: &ClothMotion, step_s: f64) -> ClothPush {
    let slip = state.cloth_slip(cloth.radius_m);
    let slip_speed = slip.norm();
    let slide_s = if slides(state, slip_speed, cloth) {
        slide_time_s(slip_speed, cloth).min(step_s)
    } else {
        0.0
    };
    let friction = if slide_s < step_s {
        slip * (-2.0 / 7.0)
    } else {
        slip * (-cloth.sliding_deceleration_m_s2 * step_s / slip_speed)
    };
    let rolling = state.velocity + friction;
    let speed = rolling.norm();
    let lost = (cloth.rolling_deceleration_m_s2 * (step_s - slide_s)).min(speed);
    let resistance = if speed > 0.0 { rolling * (-lost / speed) } else { Vec2::ZERO };
    let fade = (cloth.pivot_deceleration_rad_s2 * step_s).min(state.spin.z.abs());
    // Friction at the lowest point turns the ball by (5/2)/R of the speed that it takes; rolling
    // resistance keeps roll.
    let (turn, roll) = (2.5 / cloth.radius_m, 1.0 / cloth.radius_m);
    ClothPush {
        velocity: friction + resistance,
        level_spin: Vec2::new(
            turn * friction.y - roll * resistance.y,
            roll * resistance.x - turn * friction.x,
        ),
        spin_z: if state.spin.z > 0.0 { -fade } else { fade },
    }
}

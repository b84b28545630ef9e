//! The shot by fixed fourth-order steps with events looked for at the ends of steps: the plain way
//! to write it, whose order the events take away.

use crate::shot::{Arrival, Shot};
use railproof_engine::motion::{BallState, ClothMotion};
use railproof_engine::vector::{Vec2, Vec3};

/// Steps the shot; `None` when it has not arrived after 20 s.
pub fn runge_kutta(shot: &Shot, step_s: f64) -> Option<Arrival> {
    let (mut state, mut time_s, mut rolls) = (shot.start, 0.0, false);
    while time_s < 20.0 {
        let radius = shot.cloth.radius_m;
        let slip = state.cloth_slip(radius);
        // Slip falls at (7/2)·μs·g. A step that crossed its end would see friction turn round
        // between its stages and never settle, so roll begins a step early.
        if !rolls && slip.norm() <= 3.5 * shot.cloth.sliding_deceleration_m_s2 * step_s {
            state.velocity = state.velocity - slip * (2.0 / 7.0);
            state = state.rolling(radius);
            rolls = true;
        }
        let from = state;
        state = step(&state, rolls, step_s, &shot.cloth);
        time_s += step_s;
        if state.position.y >= 0.0 && state.velocity.y > 0.0 {
            state = shot.bounced(state);
            rolls = false;
        } else if state.position.y <= -shot.back_m && state.velocity.y < 0.0 {
            let share = (from.position.y + shot.back_m) / (from.position.y - state.position.y);
            return Some(Arrival {
                time_s: time_s - step_s * (1.0 - share),
                x_m: from.position.x + share * (state.position.x - from.position.x),
                velocity: state.velocity,
            });
        }
    }
    None
}

fn rate(state: &BallState, rolls: bool, cloth: &ClothMotion) -> BallState {
    let radius = cloth.radius_m;
    let (acceleration, turn) = if rolls {
        (state.velocity.unit_or_zero() * -cloth.rolling_deceleration_m_s2, -1.0 / radius)
    } else {
        let slip = state.cloth_slip(radius).unit_or_zero();
        (slip * -cloth.sliding_deceleration_m_s2, 2.5 / radius)
    };
    BallState {
        position: state.velocity,
        velocity: acceleration,
        spin: Vec3::new(turn * acceleration.y, -turn * acceleration.x, 0.0),
    }
}

fn moved(state: &BallState, rate: &BallState, by: f64) -> BallState {
    let spin = Vec3::new(
        state.spin.x + by * rate.spin.x,
        state.spin.y + by * rate.spin.y,
        state.spin.z + by * rate.spin.z,
    );
    BallState {
        position: state.position + rate.position * by,
        velocity: state.velocity + rate.velocity * by,
        spin,
    }
}

fn step(state: &BallState, rolls: bool, h: f64, cloth: &ClothMotion) -> BallState {
    let k1 = rate(state, rolls, cloth);
    let k2 = rate(&moved(state, &k1, 0.5 * h), rolls, cloth);
    let k3 = rate(&moved(state, &k2, 0.5 * h), rolls, cloth);
    let k4 = rate(&moved(state, &k3, h), rolls, cloth);
    let mean = |of: fn(&BallState) -> Vec2| {
        (of(&k1) + of(&k2) * 2.0 + of(&k3) * 2.0 + of(&k4)) * (1.0 / 6.0)
    };
    let (position, velocity) = (mean(|k| k.position), mean(|k| k.velocity));
    let spin = mean(|k| Vec2::new(k.spin.x, k.spin.y));
    let average = BallState { position, velocity, spin: Vec3::new(spin.x, spin.y, 0.0) };
    moved(state, &average, h)
}

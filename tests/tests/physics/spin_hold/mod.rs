//! Balls that their spin holds against what they touch: one surface, two at once, other balls.

mod between_balls;
mod layouts;
mod round_a_corner;
mod wedges;

use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Ending, Shot, ShotBall, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Meeting, World};
use railproof_tests::shipped_equipment;

/// The distance past a surface at which rounding may leave a centre, m.
const ROUNDING_M: f64 = 1e-9;

fn nine_foot(model: RailModel) -> Equipment {
    let mut equipment = shipped_equipment("nine-foot");
    equipment.cushion.rail_model = model;
    equipment
}

fn played(world: &World, states: &[BallState]) -> Shot {
    let balls: Vec<ShotBall> =
        states.iter().map(|it| ShotBall::of(world.equipment(), *it)).collect();
    play(world, &balls, None).unwrap_or_else(|error| panic!("{error}"))
}

/// A spin that makes the cloth drive a resting ball that way, with that speed of its lowest point.
fn driven_towards(way: Vec2, slip_m_s: f64, radius_m: f64) -> Vec3 {
    let way = way.unit_or_zero() * (slip_m_s / radius_m);
    Vec3::new(-way.y, way.x, 0.0)
}

/// Every ball comes to rest or drops, time only grows, and nothing is ever inside anything.
fn sound(world: &World, shot: &Shot) {
    let past_m = |place: Vec2| match world.grown().obstructed(place) {
        Some((past_m, Meeting::Touch(_))) => past_m,
        _ => 0.0,
    };
    let mut last_s = 0.0;
    for event in &shot.events {
        assert!(event.time_s >= last_s, "{event:?}");
        last_s = event.time_s;
        assert!(past_m(event.before.position) <= ROUNDING_M, "{event:?}");
        assert!(past_m(event.after.position) <= ROUNDING_M, "{event:?}");
    }
    for (ball, end) in shot.ends.iter().enumerate() {
        assert!(matches!(end.ending, Ending::AtRest | Ending::Dropped(_)), "{end:?}");
        assert!(past_m(end.state.position) <= ROUNDING_M, "{end:?}");
        for step in 0..=1000 {
            let time_s = end.time_s * f64::from(step) / 1000.0;
            let state = shot.state_at(ball, time_s).expect("it is in the shot");
            assert!(past_m(state.position) <= ROUNDING_M, "at {time_s} s: {state:?}");
        }
    }
}

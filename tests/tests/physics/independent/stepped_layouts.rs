//! Layouts that both engines play.

use super::table::equipment;
use railproof_engine::equipment::{BallContact, Cloth, Equipment};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{self, Shot, ShotBall};
use railproof_engine::stepped::shot::{SteppedSettings, SteppedShot, play as step};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::World;

/// A table whose cloth does nothing.
pub fn without_cloth() -> Equipment {
    let mut equipment = equipment();
    equipment.cloth =
        Cloth { sliding_friction: 0.0, rolling_resistance: 0.0, pivot_deceleration_rad_s2: 0.0 };
    equipment
}

/// A table on which nothing is lost: no friction, full restitution.
pub fn lossless() -> Equipment {
    let mut equipment = without_cloth();
    equipment.cushion.restitution = 1.0;
    equipment.cushion.nose_friction = 0.0;
    equipment.ball_contact = BallContact::constant(1.0, 0.0);
    equipment
}

pub fn world(equipment: &Equipment) -> World {
    World::new(equipment, &[]).expect("a table without obstacles")
}

pub fn ball(world: &World, place: (f64, f64), velocity: (f64, f64), spin: Vec3) -> ShotBall {
    let state = BallState {
        position: Vec2::new(place.0, place.1),
        velocity: Vec2::new(velocity.0, velocity.1),
        spin,
    };
    ShotBall::of(world.equipment(), state)
}

pub fn by_events(world: &World, balls: &[ShotBall], until_s: Option<f64>) -> Shot {
    shot::play(world, balls, until_s).expect("the event engine plays it")
}

pub fn by_steps(
    world: &World,
    balls: &[ShotBall],
    until_s: Option<f64>,
    settings: &SteppedSettings,
) -> SteppedShot {
    step(world, balls, until_s, settings).expect("the stepped engine plays it")
}

/// Largest distance between the balls' places in two lists of states, m.
pub fn apart_m(one: &[BallState], other: &[BallState]) -> f64 {
    let distance = |(a, b): (&BallState, &BallState)| (a.position - b.position).norm();
    one.iter().zip(other).map(distance).fold(0.0, f64::max)
}

pub fn last_states(ends: &[shot::End]) -> Vec<BallState> {
    ends.iter().map(|end| end.state).collect()
}

//! The whole table: pockets with jaws, several balls, the cue ball and its stroke, and the questions
//! that can be asked of them. Derived checks and checks of one part against another; what has a
//! source, what is common practice, and what holds for every input stand with their kinds.

mod aims;
mod clusters;
mod kisses;
mod obstacles;
mod pockets;
mod reasons;
mod refusals;
mod routes;
mod shots;
mod verdicts;
mod world;

use railproof_engine::equipment::{BallContact, Equipment, RailModel};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Shot, ShotBall, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::World;
use railproof_tests::shipped_equipment;

/// The nine-foot profile by a rail model, its contacts taking no time.
fn impulsive(model: RailModel) -> Equipment {
    let mut equipment = shipped_equipment("nine-foot");
    equipment.cushion.rail_model = model;
    equipment.cushion.contact_time_s = 0.0;
    equipment.table.jaws.contact_time_s = 0.0;
    equipment
}

/// Balls that give back all and do not grip.
const SMOOTH: BallContact = BallContact::constant(1.0, 0.0);

fn table(equipment: &Equipment) -> World {
    World::new(equipment, &[]).expect("the profile makes a table")
}

fn at_rest(x: f64, y: f64) -> BallState {
    BallState { position: Vec2::new(x, y), ..BallState::default() }
}

fn moving(x: f64, y: f64, vx: f64, vy: f64) -> BallState {
    BallState { position: Vec2::new(x, y), velocity: Vec2::new(vx, vy), spin: Vec3::ZERO }
}

fn played(world: &World, states: &[BallState]) -> Shot {
    let balls: Vec<ShotBall> =
        states.iter().map(|state| ShotBall::of(world.equipment(), *state)).collect();
    play(world, &balls, None).unwrap_or_else(|error| panic!("{error}"))
}

fn kinds_of(shot: &Shot, ball: usize) -> Vec<&'static str> {
    shot.events.iter().filter(|event| event.ball == ball).map(|event| event.kind.name()).collect()
}

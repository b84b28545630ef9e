//! Shots of several balls, whatever the layout.

use crate::strategies::{cases, nine_foot};
use proptest::prelude::*;
use railproof_engine::equipment::Equipment;
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Ending, LEAST_PARTING_M_S, Shot, ShotBall, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Obstacle, World};

/// The equipment that shots are drawn from.
fn equipment() -> impl Strategy<Value = Equipment> {
    (nine_foot(&[0.0, 0.005, 0.01]), 0.7..1.0_f64).prop_map(|(mut equipment, restitution)| {
        equipment.ball_contact.restitution = restitution;
        equipment
    })
}

fn state() -> impl Strategy<Value = BallState> {
    let place = (-1.24..1.24f64, -0.6..0.6f64);
    let velocity =
        prop_oneof![Just((0.0, 0.0)), (-5.0..5.0f64, -5.0..5.0f64), (-0.3..0.3f64, -0.3..0.3f64),];
    let spin =
        prop_oneof![Just((0.0, 0.0, 0.0)), (-150.0..150.0f64, -150.0..150.0f64, -150.0..150.0f64),];
    (place, velocity, spin).prop_map(|((x, y), (vx, vy), (wx, wy, wz))| BallState {
        position: Vec2::new(x, y),
        velocity: Vec2::new(vx, vy),
        spin: Vec3::new(wx, wy, wz),
    })
}

/// The balls of a draw that can lie together on this table, at least one.
fn apart(equipment: &Equipment, world: &World, drawn: &[BallState]) -> Vec<BallState> {
    let mut kept: Vec<BallState> = Vec::new();
    for state in drawn {
        let clear = |other: &BallState| {
            (other.position - state.position).norm() > equipment.ball.diameter_m
        };
        if world.grown().obstructed(state.position).is_none() && kept.iter().all(clear) {
            kept.push(*state);
        }
    }
    kept
}

fn played(world: &World, states: &[BallState]) -> Shot {
    let balls: Vec<ShotBall> =
        states.iter().map(|it| ShotBall::of(world.equipment(), *it)).collect();
    play(world, &balls, None).unwrap_or_else(|error| panic!("{error}"))
}

fn on_table(shot: &Shot, ball: usize, time_s: f64) -> bool {
    !matches!(shot.ends[ball].ending, Ending::Dropped(_)) || time_s < shot.ends[ball].time_s
}

fn mirrored(state: &BallState, x: f64, y: f64) -> BallState {
    BallState {
        position: Vec2::new(x * state.position.x, y * state.position.y),
        velocity: Vec2::new(x * state.velocity.x, y * state.velocity.y),
        spin: Vec3::new(y * state.spin.x, x * state.spin.y, x * y * state.spin.z),
    }
}

/// The bits that two shots must share; −0 and 0 are one.
fn bits(state: &BallState) -> [u64; 7] {
    let BallState { position, velocity, spin } = state;
    [position.x, position.y, velocity.x, velocity.y, spin.x, spin.y, spin.z]
        .map(|number| (number + 0.0).to_bits())
}

proptest! {
    #![proptest_config(cases(20))]

    #[test]
    fn balls_never_overlap_or_cross_a_surface_and_every_shot_ends(
        equipment in equipment(),
        drawn in prop::collection::vec(state(), 1..8),
        with_box: bool,
    ) {
        let obstacle = Obstacle::rectangle("box", Vec2::new(0.1, 0.05), 0.25, 0.15, 0.3);
        let obstacles = if with_box { vec![obstacle] } else { Vec::new() };
        let world = World::new(&equipment, &obstacles).unwrap();
        let states = apart(&equipment, &world, &drawn);
        prop_assume!(!states.is_empty());
        let shot = played(&world, &states);
        for end in &shot.ends {
            prop_assert!(matches!(end.ending, Ending::AtRest | Ending::Dropped(_)), "{:?}", end);
        }
        let diameter = equipment.ball.diameter_m;
        for step in 0..400 {
            let time = shot.duration_s() * f64::from(step) / 400.0;
            let places: Vec<Vec2> =
                (0..states.len()).map(|ball| shot.state_at(ball, time).unwrap().position).collect();
            for one in 0..states.len() {
                if !on_table(&shot, one, time) {
                    continue;
                }
                if let Some((past, what)) = world.grown().obstructed(places[one]) {
                    prop_assert!(past <= 1e-9, "ball {} is {} past {:?} at {}", one, past, what, time);
                }
                for other in 0..one {
                    if on_table(&shot, other, time) {
                        let gap = (places[one] - places[other]).norm() - diameter;
                        prop_assert!(gap >= -1e-9, "{} and {}: {} at {}", one, other, gap, time);
                    }
                }
            }
        }
    }

    #[test]
    fn the_order_of_the_balls_changes_nothing(
        equipment in equipment(),
        drawn in prop::collection::vec(state(), 2..7),
        shift in 1..6usize,
    ) {
        let world = World::new(&equipment, &[]).unwrap();
        let states = apart(&equipment, &world, &drawn);
        prop_assume!(states.len() > 1);
        let count = states.len();
        let order: Vec<usize> = (0..count).map(|index| (index + shift) % count).collect();
        let turned: Vec<BallState> = order.iter().rev().map(|index| states[*index]).collect();
        let (one, other) = (played(&world, &states), played(&world, &turned));
        for (place, index) in order.iter().rev().enumerate() {
            prop_assert_eq!(bits(&one.ends[*index].state), bits(&other.ends[place].state));
            prop_assert_eq!(one.ends[*index].time_s.to_bits(), other.ends[place].time_s.to_bits());
        }
        prop_assert_eq!(one.events.len(), other.events.len());
    }

    #[test]
    fn mirrored_tables_mirror_results_to_the_bit(
        equipment in equipment(),
        drawn in prop::collection::vec(state(), 1..6),
        flip_x: bool, flip_y: bool,
    ) {
        let (x, y) = (if flip_x { -1.0 } else { 1.0 }, if flip_y { -1.0 } else { 1.0 });
        let world = World::new(&equipment, &[]).unwrap();
        let states = apart(&equipment, &world, &drawn);
        prop_assume!(!states.is_empty());
        let image: Vec<BallState> = states.iter().map(|it| mirrored(it, x, y)).collect();
        let (one, other) = (played(&world, &states), played(&world, &image));
        prop_assert_eq!(one.events.len(), other.events.len());
        for (a, b) in one.ends.iter().zip(&other.ends) {
            prop_assert_eq!(bits(&mirrored(&a.state, x, y)), bits(&b.state));
            prop_assert_eq!(a.time_s.to_bits(), b.time_s.to_bits());
        }
        for (a, b) in one.events.iter().zip(&other.events) {
            prop_assert_eq!(a.kind.name(), b.kind.name());
            prop_assert_eq!(bits(&mirrored(&a.after, x, y)), bits(&b.after));
        }
    }

    #[test]
    fn a_ball_that_nothing_meets_changes_nothing(
        equipment in equipment(),
        drawn in prop::collection::vec(state(), 1..4),
        spare in state(),
    ) {
        let world = World::new(&equipment, &[]).unwrap();
        let states = apart(&equipment, &world, &drawn);
        let spare = BallState { velocity: Vec2::ZERO, spin: Vec3::ZERO, ..spare };
        let mut all = states.clone();
        all.push(spare);
        prop_assume!(!states.is_empty() && apart(&equipment, &world, &all).len() == all.len());
        let (alone, with) = (played(&world, &states), played(&world, &all));
        let last = states.len();
        if with.events_of(last).count() > 1 {
            return Ok(());
        }
        for (a, b) in alone.ends.iter().zip(&with.ends) {
            prop_assert_eq!(bits(&a.state), bits(&b.state));
        }
    }

    #[test]
    fn momentum_is_kept_in_every_hit_and_energy_never_grows(
        equipment in equipment(),
        drawn in prop::collection::vec(state(), 2..7),
    ) {
        use railproof_engine::shot::EventKind;
        let world = World::new(&equipment, &[]).unwrap();
        let states = apart(&equipment, &world, &drawn);
        prop_assume!(states.len() > 1);
        let shot = played(&world, &states);
        let radius = equipment.ball.radius_m();
        let energy = |state: &BallState| state.energy_per_mass(radius);
        for event in &shot.events {
            match event.kind {
                EventKind::Ball(touch) => {
                    let before = event.before.velocity + touch.other_before.velocity;
                    let after = event.after.velocity + touch.other_after.velocity;
                    let size = event.before.velocity.norm() + touch.other_before.velocity.norm();
                    prop_assert!((before - after).norm() <= 1e-13 * size + 1e-15);
                    let (was, is) = (
                        energy(&event.before) + energy(&touch.other_before),
                        energy(&event.after) + energy(&touch.other_after),
                    );
                    // A pair that is pressed together is kept bouncing.
                    let added = 0.25 * LEAST_PARTING_M_S * LEAST_PARTING_M_S;
                    prop_assert!(is <= was * (1.0 + 1e-12) + added, "{} to {}", was, is);
                }
                _ => {
                    let (was, is) = (energy(&event.before), energy(&event.after));
                    prop_assert!(is <= was * (1.0 + 1e-9) + 1e-15, "{}: {} to {}", event.kind.name(), was, is);
                }
            }
        }
    }
}

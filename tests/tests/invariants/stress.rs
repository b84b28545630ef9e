//! Very many random valid inputs to the solvers: every one ends, in numbers, and none is given up. How many is set by
//! `RAILPROOF_STRESS`; thorough runs take a million.

use crate::strategies::{any_bank, impact, impulse_model, launch, line, motion_in, placed};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use railproof_engine::impact::{Body, Bounce, ball_ball, bounce, nose_and_cloth_traced};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{ShotBall, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::World;
use railproof_tests::{is_thorough, shipped_equipment};
use rayon::prelude::*;
use std::sync::atomic::{AtomicU32, Ordering};

const THOROUGH: u64 = 1_000_000;
const QUICK: u64 = 20_000;
/// Inputs that one thread draws at a time, from a sequence of their own.
const CHUNK: u64 = 500;
/// The integrated impact gives up a step's error after this many steps, and the whole after twice as many
/// (`MANY_STEPS` in `nose_and_cloth/pace.rs`).
const MANY_STEPS: u32 = 100_000;
/// A shot of several balls costs as much as so many impacts.
const IMPACTS_A_SHOT: u64 = 400;

fn inputs() -> u64 {
    match std::env::var("RAILPROOF_STRESS") {
        Ok(text) => text.parse().unwrap_or_else(|error| panic!("RAILPROOF_STRESS={text}: {error}")),
        Err(_) if is_thorough() => THOROUGH,
        Err(_) => QUICK,
    }
}

/// Draws so many inputs, the same on any number of threads, and tries each.
fn each<S: Strategy>(count: u64, strategy: impl Fn() -> S + Sync, check: impl Fn(S::Value) + Sync) {
    (0..count.div_ceil(CHUNK)).into_par_iter().for_each(|chunk| {
        let mut seed = [0; 32];
        seed[..8].copy_from_slice(&chunk.to_le_bytes());
        let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &seed);
        let mut runner = TestRunner::new_with_rng(Config::default(), rng);
        let strategy = strategy();
        for _ in 0..CHUNK.min(count - chunk * CHUNK) {
            let tree = strategy.new_tree(&mut runner).expect("no draw is turned down");
            check(tree.current());
        }
    });
}

fn numbers(velocity: Vec2, spin: Vec3) -> [f64; 5] {
    [velocity.x, velocity.y, spin.x, spin.y, spin.z]
}

fn finite(all: &[f64]) -> bool {
    all.iter().all(|number| number.is_finite())
}

#[test]
fn every_impact_ends_in_numbers() {
    let most = AtomicU32::new(0);
    each(inputs(), impact, |(contact, before)| {
        let (after, trace) = nose_and_cloth_traced(&contact, before);
        assert!(finite(&numbers(after.velocity, after.spin)), "{contact:?} {before:?}");
        assert!(trace.steps < MANY_STEPS, "{} steps: {contact:?} {before:?}", trace.steps);
        most.fetch_max(trace.steps, Ordering::Relaxed);
    });
    eprintln!("{} impacts, {} steps at most", inputs(), most.into_inner());
    each(
        inputs() / 10,
        || (impact(), impulse_model()),
        |((contact, before), model)| {
            let after = bounce(model, &contact, before);
            assert!(
                finite(&numbers(after.velocity, after.spin)),
                "{model:?} {contact:?} {before:?}"
            );
        },
    );
}

#[test]
fn every_hit_of_two_balls_ends_in_numbers() {
    let radius_m = 0.028_575;
    let balls = || (motion_in(radius_m), motion_in(radius_m), 0.0..1.0_f64, 0..4_usize);
    each(inputs(), balls, |(one, other, restitution, law)| {
        let mut contact = shipped_contact();
        contact.restitution = restitution;
        contact.friction_law =
            *railproof_engine::equipment::FrictionLaw::ALL.iter().cycle().nth(law).expect("some");
        let body = Body { mass_kg: 0.165, radius_m };
        let state = |it: Bounce| (it.velocity, it.spin);
        let before = [state(one), state(other)];
        let hit = ball_ball(&contact, Vec2::new(0.0, 1.0), [body, body], before);
        for (velocity, spin) in hit.after {
            assert!(finite(&numbers(velocity, spin)), "{contact:?} {before:?}");
        }
    });
}

fn shipped_contact() -> railproof_engine::equipment::BallContact {
    railproof_engine::equipment::BallContact::USUAL
}

#[test]
fn every_bank_ends_in_numbers() {
    each(
        inputs() / 4,
        || (any_bank(), launch(), line()),
        |(bank, drawn, line)| {
            let launch = placed(&bank, drawn);
            let outcome =
                bank.play(line, launch).unwrap_or_else(|error| panic!("{launch:?}: {error}"));
            let told = [outcome.miss_m(), outcome.clearance_m()];
            assert!(told.into_iter().flatten().all(f64::is_finite), "{line:?} {launch:?}");
        },
    );
}

#[test]
fn every_shot_ends() {
    let equipment = shipped_equipment("nine-foot");
    let world = World::new(&equipment, &[]).expect("a table");
    let state = || {
        let place = (-1.2..1.2_f64, -0.58..0.58_f64);
        let velocity = prop_oneof![Just((0.0, 0.0)), (-7.0..7.0_f64, -7.0..7.0_f64)];
        let spin = (-200.0..200.0_f64, -200.0..200.0_f64, -200.0..200.0_f64);
        let spin = prop_oneof![Just((0.0, 0.0, 0.0)), spin];
        (place, velocity, spin).prop_map(|(place, velocity, spin)| BallState {
            position: Vec2::new(place.0, place.1),
            velocity: Vec2::new(velocity.0, velocity.1),
            spin: Vec3::new(spin.0, spin.1, spin.2),
        })
    };
    let shots = (inputs() / IMPACTS_A_SHOT).max(50);
    each(
        shots,
        || prop::collection::vec(state(), 1..10),
        |drawn| {
            let mut balls: Vec<ShotBall> = Vec::new();
            for state in drawn {
                let apart = |other: &ShotBall| {
                    (other.state.position - state.position).norm() > equipment.ball.diameter_m
                };
                if world.grown().obstructed(state.position).is_none() && balls.iter().all(apart) {
                    balls.push(ShotBall::of(&equipment, state));
                }
            }
            if balls.is_empty() {
                return;
            }
            let shot =
                play(&world, &balls, None).unwrap_or_else(|error| panic!("{error}: {balls:?}"));
            assert!(!shot.gave_up(), "{balls:?}");
            for ball in 0..balls.len() {
                let Some(end) = shot.state_at(ball, shot.duration_s()) else { continue };
                let place = [end.position.x, end.position.y, shot.duration_s()];
                assert!(finite(&place) && finite(&numbers(end.velocity, end.spin)), "{balls:?}");
            }
        },
    );
}

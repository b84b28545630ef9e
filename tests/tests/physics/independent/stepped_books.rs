//! Books of a stepped shot: momentum and energy that it may not make or lose.

use super::stepped_layouts::{ball, by_steps, lossless, without_cloth, world};
use super::table::{MASS_KG, RADIUS_M, equipment};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Ending, ShotBall, ShotError};
use railproof_engine::stepped::shot::{SteppedError, SteppedSettings, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Obstacle, World};

/// A ball into a loose group, far from the rails.
fn group(world: &World) -> Vec<ShotBall> {
    let mut balls = vec![ball(world, (-0.4, 0.01), (3.0, 0.0), Vec3::new(4.0, 20.0, -30.0))];
    for (row, aside) in [(0, 0.0), (1, -1.0), (1, 1.0), (2, 0.0), (2, -2.0), (2, 2.0)] {
        let place = (f64::from(row) * 0.0501, aside * 0.029);
        balls.push(ball(world, place, (0.0, 0.0), Vec3::ZERO));
    }
    balls
}

fn states_at(shot: &railproof_engine::stepped::shot::SteppedShot, time_s: f64) -> Vec<BallState> {
    (0..shot.ends.len()).map(|index| shot.state_at(index, time_s).expect("a ball")).collect()
}

fn momentum(states: &[BallState]) -> Vec2 {
    states.iter().fold(Vec2::ZERO, |sum, state| sum + state.velocity * MASS_KG)
}

/// About the table's centre, in the plane.
fn turning(states: &[BallState]) -> f64 {
    let own = 0.4 * MASS_KG * RADIUS_M * RADIUS_M;
    states
        .iter()
        .map(|state| MASS_KG * state.position.cross(state.velocity) + own * state.spin.z)
        .sum()
}

fn energy(states: &[BallState]) -> f64 {
    states.iter().map(|state| MASS_KG * state.energy_per_mass(RADIUS_M)).sum()
}

#[test]
fn balls_among_themselves_keep_momentum() {
    let world = world(&without_cloth());
    let balls = group(&world);
    let shot = by_steps(&world, &balls, Some(0.25), &SteppedSettings::default());
    let met = shot.contacts.iter().filter(|contact| contact.other.is_some()).count();
    assert!(met >= 6 && met == shot.contacts.len(), "{met} of {}", shot.contacts.len());
    let (before, after) = (states_at(&shot, 0.0), states_at(&shot, 0.25));
    let lost = momentum(&after) - momentum(&before);
    assert!(lost.norm() < 1e-14, "{lost:?}");
    // Friction acts on both balls at one point, half-way into the overlap.
    let (before, after) = (turning(&before), turning(&after));
    assert!((after - before).abs() < 1e-14, "{before} to {after}");
}

#[test]
fn energy_never_grows() {
    for (name, equipment) in
        [("cloth", equipment()), ("no cloth", without_cloth()), ("lossless", lossless())]
    {
        let world = world(&equipment);
        let mut balls = group(&world);
        balls.push(ball(&world, (0.9, 0.2), (-0.5, 2.5), Vec3::new(0.0, 0.0, 50.0)));
        let shot = by_steps(&world, &balls, Some(1.0), &SteppedSettings::default());
        // Between contacts a spring holds some of it: look where none acts.
        let mut last = energy(&states_at(&shot, 0.0));
        let first = last;
        let mut grown: f64 = 0.0;
        for step in 1..=1000 {
            let time_s = 1e-3 * f64::from(step);
            let acts = shot.contacts.iter().any(|contact| {
                contact.began_s <= time_s && contact.ended_s.is_none_or(|end_s| end_s >= time_s)
            });
            if !acts {
                let now = energy(&states_at(&shot, time_s));
                grown = grown.max((now - last) / first);
                last = now;
            }
        }
        // Measured: at most 2.4e-6 of the first energy.
        assert!(grown < 1e-5, "{name}: grown by {grown}");
        let kept = last / first;
        match name {
            "lossless" => assert!((kept - 1.0).abs() < 1e-4, "{name}: {kept}"),
            _ => assert!((0.05..0.9).contains(&kept), "{name}: {kept}"),
        }
    }
}

/// Numbers from 0 to 1 that look random and are the same each time (Knuth's MMIX constants).
fn numbers(seed: u64) -> impl FnMut() -> f64 {
    let mut state = seed;
    move || {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    }
}

#[test]
fn any_shot_ends_with_its_balls_on_the_table_or_in_a_pocket() {
    let mut equipment = equipment();
    let posts = [
        Obstacle::rectangle("post", Vec2::new(0.3, 0.1), 0.08, 0.05, 0.7),
        Obstacle::rectangle("board", Vec2::new(-0.6, -0.3), 0.3, 0.01, -0.2),
    ];
    let (mut pocketed, mut stopped, mut met) = (0, 0, 0);
    for seed in 0..120 {
        let mut number = numbers(seed);
        equipment.cushion.contact_time_s = 0.5e-3 + 0.015 * number();
        equipment.cushion.restitution = 0.3 + 0.7 * number();
        let posts: &[Obstacle] = if seed % 2 == 0 { &[] } else { &posts };
        let world = World::new(&equipment, posts).expect("a table");
        let mut balls: Vec<ShotBall> = Vec::new();
        while balls.len() < 5 {
            let place = (2.4 * number() - 1.2, 1.2 * number() - 0.6);
            // One moves fast, one slowly, the others rest.
            let speed = [8.0, 0.5, 0.0, 0.0, 0.0][balls.len()];
            let velocity = (speed * (number() - 0.5), speed * (number() - 0.5));
            let mut turn = || speed * 70.0 * (number() - 0.5);
            let spin = Vec3::new(turn(), turn(), turn());
            balls.push(ball(&world, place, velocity, spin));
            if play(&world, &balls, Some(0.0), &SteppedSettings::default()).is_err() {
                balls.pop();
            }
        }
        let settings = SteppedSettings { contact_steps: 64, ..SteppedSettings::default() };
        let shot = by_steps(&world, &balls, None, &settings);
        met += shot.contacts.len();
        let mut rest = Vec::new();
        for (start, end) in balls.iter().zip(&shot.ends) {
            match end.ending {
                Ending::Dropped(_) => pocketed += 1,
                Ending::AtRest => {
                    stopped += 1;
                    rest.push(ShotBall { state: end.state, ..*start });
                }
                other => panic!("{seed}: {other:?}"),
            }
        }
        // Where they stopped they can begin another shot, but for what a spring has not pushed out.
        match play(&world, &rest, Some(0.0), &settings) {
            Ok(_) => {}
            Err(SteppedError::Layout(ShotError::Inside { past_m, .. })) => {
                assert!(past_m < 2e-5, "{seed}: {past_m} m");
            }
            Err(SteppedError::Layout(ShotError::Overlap { deep_m, .. })) => {
                assert!(deep_m < 1e-7, "{seed}: {deep_m} m");
            }
            Err(error) => panic!("{seed}: {error}"),
        }
    }
    assert!(pocketed > 10 && stopped > 400 && met > 300, "{pocketed}, {stopped}, {met}");
}

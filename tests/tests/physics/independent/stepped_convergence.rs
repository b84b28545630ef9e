//! The event engine against the stepped one as the stepped contacts grow shorter and their steps
//! finer. What is left of their difference falls in proportion: that is the order of the stepped
//! engine, and shows that both go to the same limit. Cloth without friction, planar cushions, so that
//! both engines are meant to agree in that limit.

use super::stepped_layouts::{
    apart_m, ball, by_events, by_steps, last_states, without_cloth, world,
};
use railproof_engine::equipment::Equipment;
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Ending, Event, EventKind, ShotBall};
use railproof_engine::stepped::shot::{ContactWith, SteppedSettings};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Obstacle, Owner, World};

/// Contacts so much shorter and finer in their steps with each halving.
fn halved(times: u32, cushion_contact_s: f64) -> (SteppedSettings, Equipment) {
    let share = 0.5_f64.powi(times.cast_signed());
    let mut equipment = without_cloth();
    equipment.cushion.contact_time_s = cushion_contact_s * share;
    equipment.table.jaws.contact_time_s = cushion_contact_s * share;
    let settings = SteppedSettings {
        ball_contact_time_s: 0.4e-3 * share,
        contact_steps: 100 << times,
        ..SteppedSettings::default()
    };
    (settings, equipment)
}

/// The limit: cushions that take no time.
fn limit(balls: impl Fn(&World) -> Vec<ShotBall>, until_s: f64) -> Vec<BallState> {
    let mut equipment = without_cloth();
    equipment.cushion.contact_time_s = 0.0;
    equipment.table.jaws.contact_time_s = 0.0;
    let world = world(&equipment);
    last_states(&by_events(&world, &balls(&world), Some(until_s)).ends)
}

/// Asserts that the difference from the limit halves each time.
fn assert_halves(
    name: &str,
    balls: impl Fn(&World) -> Vec<ShotBall>,
    until_s: f64,
    cushion_contact_s: f64,
    at_last_m: f64,
) {
    let exact = limit(&balls, until_s);
    let errors: Vec<f64> = (0..4)
        .map(|times| {
            let (settings, equipment) = halved(times, cushion_contact_s);
            let world = world(&equipment);
            let shot = by_steps(&world, &balls(&world), Some(until_s), &settings);
            apart_m(&exact, &last_states(&shot.ends))
        })
        .collect();
    for pair in errors.windows(2) {
        let ratio = pair[0] / pair[1];
        assert!((1.8..2.2).contains(&ratio), "{name}: {errors:?}");
    }
    assert!(errors[3] < at_last_m, "{name}: {errors:?}");
}

#[test]
fn two_balls_without_a_rail() {
    // Full, half and thin, with and without side, follow and draw; a ball that moves too.
    let cases = [
        ("full, stun", 0.0, Vec3::ZERO, (0.0, 0.0)),
        ("full, follow", 0.0, Vec3::new(0.0, 70.0, 0.0), (0.0, 0.0)),
        ("half, outside", 0.03, Vec3::new(0.0, 0.0, 40.0), (0.0, 0.0)),
        ("half, all spins", 0.03, Vec3::new(10.0, 30.0, 25.0), (0.0, 0.0)),
        ("half, draw", 0.03, Vec3::new(0.0, -60.0, -30.0), (0.0, 0.0)),
        ("thin", 0.05, Vec3::new(0.0, 20.0, -50.0), (0.0, 0.0)),
        ("both move", 0.03, Vec3::new(0.0, 20.0, -50.0), (-0.4, 0.05)),
    ];
    for (name, aside_m, spin, other) in cases {
        let balls = |world: &World| {
            vec![
                ball(world, (-0.4, 0.0), (2.0, 0.0), spin),
                ball(world, (0.0, aside_m), other, Vec3::new(3.0, -2.0, 5.0)),
            ]
        };
        // Measured at the last: 0.06 to 0.32 mm after 0.2 s at 2 m/s.
        assert_halves(name, balls, 0.4, 0.01, 0.5e-3);
    }
}

#[test]
fn one_ball_and_rails() {
    for (velocity, spin) in [
        ((1.5, 1.9), Vec3::new(5.0, 4.0, 30.0)),
        ((-2.5, 1.2), Vec3::new(0.0, 0.0, -60.0)),
        ((0.4, -3.0), Vec3::ZERO),
    ] {
        let balls = |world: &World| vec![ball(world, (0.3, 0.1), velocity, spin)];
        assert_halves("one ball", balls, 1.2, 4e-3, 3e-3);
    }
}

#[test]
fn two_balls_and_rails() {
    let balls = |world: &World| {
        vec![
            ball(world, (-0.4, 0.0), (1.5, 1.9), Vec3::new(10.0, 30.0, 25.0)),
            ball(world, (0.0, 0.45), (0.0, 0.0), Vec3::ZERO),
        ]
    };
    assert_halves("two balls and rails", balls, 1.0, 8e-3, 3e-3);
}

#[test]
fn through_the_jaws_of_a_pocket() {
    // Past the side pocket into a corner: some fall clean, some off a jaw, some rattle out.
    let (mut fell, mut stayed, mut touched, mut halving) = (0, 0, 0, 0);
    for aside in 0..12 {
        let aside_m = 0.52 + 0.0075 * f64::from(aside);
        let start =
            |world: &World| ball(world, (0.9, aside_m), (1.5, 0.25), Vec3::new(0.0, 0.0, 10.0));
        let mut equipment = without_cloth();
        equipment.cushion.contact_time_s = 0.0;
        equipment.table.jaws.contact_time_s = 0.0;
        let hard = world(&equipment);
        let exact = by_events(&hard, &[start(&hard)], Some(0.6));
        let is_jaw = |it: &&Event| matches!(it.kind, EventKind::Jaw { .. });
        touched += exact.events.iter().filter(is_jaw).count();
        match exact.ends[0].ending {
            Ending::Dropped(_) => fell += 1,
            _ => stayed += 1,
        }
        let errors: Vec<f64> = (0..4)
            .map(|times| {
                let (settings, equipment) = halved(times, 4e-3);
                let world = world(&equipment);
                let shot = by_steps(&world, &[start(&world)], Some(0.6), &settings);
                assert_eq!(shot.ends[0].ending, exact.ends[0].ending, "{aside_m} m");
                (exact.ends[0].state.position - shot.ends[0].state.position).norm()
            })
            .collect();
        assert!(errors[3] < errors[0] || errors[0] < 1e-9, "{aside_m} m: {errors:?}");
        // A ball that falls while a facing still pushes it need not halve.
        if errors[0] < 1e-9 || (1.8..2.2).contains(&(errors[2] / errors[3])) {
            halving += 1;
        }
    }
    assert!(fell > 3 && stayed > 3 && touched > 10, "{fell} fell, {stayed} stayed, {touched}");
    assert!(halving >= 10, "{halving} of 12");
}

#[test]
fn an_obstacle() {
    let post = Obstacle::rectangle("post", Vec2::new(0.2, 0.0), 0.1, 0.06, 0.4);
    let start = |world: &World, aside_m: f64| {
        ball(world, (-0.4, aside_m), (2.0, 0.1), Vec3::new(0.0, 0.0, 20.0))
    };
    for aside_m in [-0.1, -0.06, -0.02, 0.0, 0.02] {
        let play = |times: u32| {
            let (settings, equipment) = halved(times, 4e-3);
            let world = World::new(&equipment, std::slice::from_ref(&post)).expect("a post");
            let balls = [start(&world, aside_m)];
            let exact = by_events(&world, &balls, Some(0.5));
            let met = |it: &Event| matches!(it.kind, EventKind::Obstacle { .. });
            assert!(exact.events.iter().any(met), "{aside_m} m misses");
            let shot = by_steps(&world, &balls, Some(0.5), &settings);
            let touched = ContactWith::Surface(Owner::Obstacle(0));
            assert!(shot.contacts.iter().any(|it| it.with == touched), "{aside_m} m misses");
            apart_m(&last_states(&exact.ends), &last_states(&shot.ends))
        };
        let errors = [play(0), play(1), play(2)];
        for pair in errors.windows(2) {
            assert!((1.8..2.2).contains(&(pair[0] / pair[1])), "{aside_m} m: {errors:?}");
        }
    }
}

//! Where nothing is lost, a shot played on from its end with every velocity turned round comes back to
//! where it began. This needs no reference: any error of a contact's time or place shows.

use super::stepped_layouts::{apart_m, ball, by_events, by_steps, last_states, lossless, world};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{EventKind, ShotBall};
use railproof_engine::stepped::shot::SteppedSettings;
use railproof_engine::vector::Vec3;
use railproof_engine::world::World;

/// Two, three and four balls that meet each other and rails, and a time at which no contact lasts.
fn layouts(world: &World) -> Vec<(Vec<ShotBall>, f64)> {
    let still = |x: f64, y: f64| ball(world, (x, y), (0.0, 0.0), Vec3::ZERO);
    vec![
        (vec![ball(world, (-0.4, 0.0), (1.5, 1.9), Vec3::ZERO), still(0.0, 0.45)], 0.8),
        (
            vec![
                ball(world, (-0.7, -0.1), (2.2, 0.3), Vec3::new(1.0, 2.0, 3.0)),
                still(0.0, 0.02),
                still(0.3, 0.1),
            ],
            0.95,
        ),
        (
            vec![
                ball(world, (-0.7, -0.1), (2.2, 0.3), Vec3::ZERO),
                ball(world, (0.2, 0.3), (-0.5, -0.4), Vec3::ZERO),
                still(0.5, 0.04),
                ball(world, (0.8, 0.1), (-0.6, 0.9), Vec3::ZERO),
            ],
            1.05,
        ),
    ]
}

fn turned_round(balls: &[ShotBall], states: &[BallState]) -> Vec<ShotBall> {
    balls
        .iter()
        .zip(states)
        .map(|(ball, state)| ShotBall {
            state: BallState { velocity: -state.velocity, ..*state },
            ..*ball
        })
        .collect()
}

fn starts(balls: &[ShotBall]) -> Vec<BallState> {
    balls.iter().map(|ball| ball.state).collect()
}

#[test]
fn the_event_engine_comes_back_to_the_start() {
    for contact_time_s in [0.0, 0.01] {
        let mut equipment = lossless();
        equipment.cushion.contact_time_s = contact_time_s;
        let world = world(&equipment);
        for (balls, until_s) in layouts(&world) {
            let there = by_events(&world, &balls, Some(until_s));
            let count = |wanted: fn(&EventKind) -> bool| {
                there.events.iter().filter(|event| wanted(&event.kind)).count()
            };
            let met = count(|kind| matches!(kind, EventKind::Ball(_)));
            let banked = count(|kind| matches!(kind, EventKind::Cushion(_)));
            assert!(met >= 1 && banked >= 1, "{met} met, {banked} banked");
            let back = turned_round(&balls, &last_states(&there.ends));
            let back = by_events(&world, &back, Some(until_s));
            let off_m = apart_m(&starts(&balls), &last_states(&back.ends));
            assert!(off_m < 1e-9, "{contact_time_s} s, {} balls: {off_m} m", balls.len());
        }
    }
}

#[test]
fn the_stepped_engine_comes_back_within_its_own_error() {
    let world = world(&lossless());
    for (balls, until_s) in layouts(&world) {
        let off = |contact_steps: u32| {
            let settings = SteppedSettings { contact_steps, ..SteppedSettings::default() };
            let there = by_steps(&world, &balls, Some(until_s), &settings);
            let back = turned_round(&balls, &last_states(&there.ends));
            let back = by_steps(&world, &back, Some(until_s), &settings);
            apart_m(&starts(&balls), &last_states(&back.ends))
        };
        let (coarse, fine) = (off(200), off(800));
        // Measured: at most 5e-5 and 3e-6 m. A spring without damper is stepped by a rule that is its
        // own reversal; what is left is where the steps begin.
        assert!(fine < 1e-5, "{} balls: {fine} m", balls.len());
        assert!(fine < coarse / 3.0, "{} balls: {coarse} to {fine} m", balls.len());
    }
}

//! A ball between two parallel walls.

use crate::motion::BallState;
use crate::rail::testing::nine_foot;
use crate::shot::{Ending, PieceKind, Shot, ShotBall, play};
use crate::units::DEGREE_RAD;
use crate::vector::{Vec2, Vec3};
use crate::world::{Obstacle, World};

fn ball(world: &World, state: BallState) -> Shot {
    play(world, &[ShotBall::of(world.equipment(), state)], None).expect("the ball has room")
}

/// Two walls with their middles there and opposite, turned.
fn slot(middle: Vec2, turned_deg: f64) -> World {
    let walls = [middle, -middle].map(|at| Obstacle {
        restitution: 0.5,
        friction: 0.2,
        ..Obstacle::rectangle("wall", at, 0.6, 0.04, turned_deg * DEGREE_RAD)
    });
    World::new(&nine_foot(), &walls).expect("they have room")
}

/// Half a nanometre of play and less: what one wall lets go of rounding sends to the other. Some balls rest in
/// the slot, others run out between its ends.
#[test]
fn a_ball_in_a_slot_is_played_to_its_end() {
    let radius_m = nine_foot().ball.radius_m();
    for turned_deg in [20.0, 30.0, 45.0] {
        for play_m in [0.0, 1e-12, 1e-10, 5e-10] {
            let (sin, cos) = libm::sincos(turned_deg * DEGREE_RAD);
            let along = Vec2::new(cos, sin);
            let across = Vec2::new(-sin, cos);
            let world = slot(across * (0.02 + radius_m + 0.5 * play_m), turned_deg);
            for (speed, spin) in [
                (-0.004, Vec3::new(-91.3, 93.6, 121.2)),
                (0.005, Vec3::new(-34.2, 171.2, 11.1)),
                (0.1, Vec3::new(93.4, 25.1, 60.7)),
            ] {
                let velocity = along * speed + across * 0.002;
                let shot = ball(&world, BallState { position: along * -0.1, velocity, spin });
                let end = shot.ends[0];
                assert_ne!(end.ending, Ending::GivenUp, "{turned_deg}, {play_m}, {speed}");
                assert!(shot.events.len() < 200, "{}", shot.events.len());
                if along.dot(end.state.position).abs() < 0.25 {
                    assert!(across.dot(end.state.position).abs() < 2e-9, "{end:?}");
                }
            }
        }
    }
}

/// Without pivot friction a ball that has run its way spins on for ever; its way is known all the same.
#[test]
fn a_ball_that_spins_for_ever_has_gone_its_way() {
    let state = BallState {
        position: Vec2::ZERO,
        velocity: Vec2::new(0.5, 0.0),
        spin: Vec3::new(0.0, 0.0, 5.0),
    };
    let usual = ball(&World::new(&nine_foot(), &[]).expect("it is a table"), state);
    let mut equipment = nine_foot();
    equipment.cloth.pivot_deceleration_rad_s2 = 0.0;
    let shot = ball(&World::new(&equipment, &[]).expect("it is a table"), state);
    let end = shot.ends[0];
    assert_eq!(end.ending, Ending::Unending);
    assert_eq!(end.state.position, usual.ends[0].state.position);
    assert_eq!((end.state.velocity, end.state.spin), (Vec2::ZERO, state.spin));
    assert_eq!(shot.pieces(0), usual.pieces(0));
    assert_eq!(shot.pieces(0).last().map(|it| it.kind), Some(PieceKind::Roll));
}

//! A held ball that goes around the corner of a box, or parts from it.

use super::{nine_foot, played, sound};
use railproof_engine::equipment::RailModel;
use railproof_engine::motion::BallState;
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Obstacle, World};

/// A smooth box, and a ball that its spin presses onto the box's near side while it goes along that to
/// the corner.
fn around(speed_m_s: f64, press_m_s: f64) -> (World, BallState) {
    let mut equipment = nine_foot(RailModel::Planar);
    equipment.cloth.rolling_resistance = 0.0;
    let radius = equipment.ball.radius_m();
    let mut obstacle = Obstacle::rectangle("box", Vec2::new(0.0, 0.2), 0.2, 0.2, 0.0);
    obstacle.friction = 0.0;
    let world = World::new(&equipment, &[obstacle]).expect("there is room");
    let start = BallState {
        position: Vec2::new(0.08, 0.1 - radius),
        velocity: Vec2::new(speed_m_s, 0.0),
        // Rolls along the side, and is driven into it.
        spin: Vec3::new(-press_m_s / radius, speed_m_s / radius, 0.0),
    };
    (world, start)
}

/// The acceleration that presses a ball around a corner is at most μs·g; around a corner of radius R that
/// carries v² ≤ μs·g·R (derived: the sphere's centre goes round at R).
#[test]
fn a_slow_ball_goes_around_and_a_fast_one_parts() {
    let corner = Vec2::new(0.1, 0.1);
    for (share, goes_around) in [(0.5, true), (1.5, false)] {
        let (world, _) = around(0.1, 3.0);
        let equipment = world.equipment();
        let radius = equipment.ball.radius_m();
        let limit = (equipment.sliding_deceleration_m_s2() * radius).sqrt();
        let (world, start) = around(share * limit, 3.0);
        let shot = played(&world, &[start]);
        sound(&world, &shot);
        // A quarter of a radius of way past the corner's beginning.
        let until_s = (0.02 + 0.25 * radius) / (share * limit);
        let place = shot.state_at(0, until_s).expect("it is in the shot").position;
        let off_m = (place - corner).norm() - radius;
        if goes_around {
            assert!(off_m.abs() < 1e-9, "{off_m} m off the corner");
        } else {
            assert!(off_m > 1e-5, "{off_m} m off the corner");
        }
    }
}

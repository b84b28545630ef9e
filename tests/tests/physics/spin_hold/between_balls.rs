//! A ball that its spin presses onto balls that lie still.

use super::{driven_towards, nine_foot, played, sound};
use railproof_engine::equipment::RailModel;
use railproof_engine::motion::BallState;
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::World;

fn lying(place: Vec2) -> BallState {
    BallState { position: place, velocity: Vec2::ZERO, spin: Vec3::ZERO }
}

#[test]
fn a_ball_between_two_frozen_balls_comes_to_rest() {
    for model in [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar] {
        let equipment = nine_foot(model);
        let world = World::new(&equipment, &[]).expect("it is a table");
        let diameter = equipment.ball.diameter_m;
        let radius = equipment.ball.radius_m();
        let groove = 0.5 * equipment.table.width_m - equipment.groove_m();
        // In the open; frozen to the left rail with the line of balls along it; and square to it.
        let lines = [
            (Vec2::new(0.3, 0.1), Vec2::new(1.0, 0.0)),
            (Vec2::new(0.5, groove), Vec2::new(1.0, 0.0)),
            (Vec2::new(0.5, groove - diameter), Vec2::new(0.0, 1.0)),
        ];
        for (middle, line) in lines {
            for way in [line, line * -1.0, Vec2::new(0.6, 0.8), Vec2::new(-0.8, 0.6)] {
                for side in [0.0, 80.0] {
                    let spun = driven_towards(way, 3.0, radius);
                    let spin = Vec3::new(spun.x, spun.y, side);
                    let states = [
                        BallState { spin, ..lying(middle) },
                        lying(middle + line * diameter),
                        lying(middle - line * diameter),
                    ];
                    sound(&world, &played(&world, &states));
                }
            }
        }
    }
}

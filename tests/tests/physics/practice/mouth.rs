//! The width of a pocket's mouth for a ball that comes straight at it. Common practice, no source: a
//! corner takes less of a hard shot than of a soft one, never more.

use railproof_engine::equipment::Equipment;
use railproof_engine::motion::BallState;
use railproof_engine::rail::Pocket;
use railproof_engine::shot::{Ending, Event, ShotBall, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::World;
use railproof_tests::{nine_foot_with_cushion, shipped_cushions, shipped_equipment};

/// The foot-right corner's effective width, mm: how much of the offsets across its axis a rolling ball
/// that comes along it at a speed, half a metre out, drops from.
fn effective_mm(equipment: &Equipment, speed_m_s: f64, tilt_deg: f64) -> f64 {
    let world = World::new(equipment, &[]).expect("the profile makes a world");
    let pocket =
        world.pockets().iter().find(|it| it.pocket == Pocket::FootRight).expect("it is there");
    let line = pocket.drop.normal;
    let (sin, cos) = tilt_deg.to_radians().sin_cos();
    let way = Vec2::new(line.x * cos - line.y * sin, line.x * sin + line.y * cos);
    let across = Vec2::new(-way.y, way.x);
    let half = Vec2::new(0.5 * equipment.table.length_m, -0.5 * equipment.table.width_m);
    let middle = half - line * (0.5 * equipment.table.corner_mouth_m);
    let step_mm = 0.25;
    let dropped = (-400..=400).filter(|at| {
        let from = middle - way * 0.5 + across * (1e-3 * step_mm * f64::from(*at));
        let radius = equipment.ball.radius_m();
        let spin = Vec3::new(-way.y, way.x, 0.0) * (speed_m_s / radius);
        let state = BallState { position: from, velocity: way * speed_m_s, spin };
        let ball = ShotBall { state, ball: equipment.ball };
        let shot = play(&world, &[ball], Some(1.0)).expect("it can be played");
        // A ball that comes back from another rail is none of the mouth's.
        let stays = |event: &Event| (event.before.position - middle).norm() < 0.6;
        shot.ends[0].ending == Ending::Dropped(Pocket::FootRight) && shot.events.iter().all(stays)
    });
    step_mm * dropped.count() as f64
}

/// Robust, to the two steps of a quarter of a millimetre by which the cushion whose restitution falls
/// fastest is wider at 7 m/s; the profile's own is 68.25 mm at every speed straight in.
#[test]
fn a_corner_is_no_wider_for_a_hard_shot_than_for_a_soft_one() {
    let own = shipped_equipment("nine-foot");
    let others = shipped_cushions().map(nine_foot_with_cushion);
    for equipment in std::iter::once(own).chain(others) {
        for tilt_deg in [0.0, 10.0] {
            let widths = [2.0, 3.0, 4.0, 5.0, 6.0, 7.0]
                .map(|speed_m_s| effective_mm(&equipment, speed_m_s, tilt_deg));
            let widest = widths.into_iter().fold(0.0, f64::max);
            assert!(widest <= widths[0] + 0.5, "{}, {tilt_deg}°: {widths:?}", equipment.name);
            assert!(
                (60.0..70.0).contains(&widths[0]),
                "{}, {tilt_deg}°: {widths:?}",
                equipment.name
            );
        }
    }
}

/// Jaws that hold a ball as long as the rails let it slide on into the pocket, the further the harder it
/// is hit: 70.25 mm at 2 m/s and 75.25 mm at 7 m/s.
#[test]
fn jaws_that_held_as_long_as_rails_would_widen_it() {
    let mut equipment = shipped_equipment("nine-foot");
    equipment.table.jaws.contact_time_s = equipment.cushion.contact_time_s;
    let [soft, hard] = [2.0, 7.0].map(|speed_m_s| effective_mm(&equipment, speed_m_s, 0.0));
    assert!(hard - soft > 4.0, "{soft} and {hard} mm");
}

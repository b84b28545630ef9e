//! Things laid on the table.

use super::{moving, table};
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::Pocket;
use railproof_engine::shot::{EventKind, ShotBall, play};
use railproof_engine::vector::Vec2;
use railproof_engine::world::{Obstacle, World, WorldError};
use railproof_tests::shipped_equipment;

fn with(equipment: &Equipment, obstacles: &[Obstacle]) -> Result<World, WorldError> {
    World::new(equipment, obstacles)
}

#[test]
fn a_ball_bounces_off_a_box_at_its_radius() {
    let equipment = shipped_equipment("nine-foot");
    let world = with(&equipment, &[Obstacle::rectangle("box", Vec2::new(0.4, 0.0), 0.2, 0.3, 0.0)])
        .unwrap();
    let shot =
        play(&world, &[ShotBall::of(&equipment, moving(-0.2, 0.05, 2.0, 0.0))], None).unwrap();
    let hit = shot.events.iter().find(|event| event.kind.name() == "obstacle").unwrap();
    let EventKind::Obstacle { index: 0, touch } = hit.kind else { panic!() };
    assert!((hit.before.position.x - (0.3 - 0.028_575)).abs() < 1e-12);
    assert!((hit.after.velocity.x + touch.restitution * hit.before.velocity.x).abs() < 1e-12);
}

#[test]
fn a_ball_bounces_off_a_corner_of_a_box_too() {
    let equipment = shipped_equipment("nine-foot");
    let world = with(&equipment, &[Obstacle::rectangle("box", Vec2::new(0.4, 0.0), 0.2, 0.2, 0.0)])
        .unwrap();
    // Onto the corner at (0.3, 0.1), 10 mm above it.
    let shot =
        play(&world, &[ShotBall::of(&equipment, moving(0.0, 0.11, 2.0, 0.0))], None).unwrap();
    let hit = shot.events.iter().find(|event| event.kind.name() == "obstacle").unwrap();
    let apart = (hit.before.position - Vec2::new(0.3, 0.1)).norm();
    assert!((apart - 0.028_575).abs() < 1e-12, "{apart}");
    assert!(hit.after.velocity.y > 0.1);
}

#[test]
fn what_can_not_be_laid_is_refused_with_its_reason() {
    let equipment = shipped_equipment("nine-foot");
    let corner = Vec2::new(1.24, 0.6);
    let refused =
        with(&equipment, &[Obstacle::rectangle("tray", corner, 0.1, 0.1, 0.3)]).unwrap_err();
    assert_eq!(
        refused,
        WorldError::OverPocket { name: "tray".to_owned(), pocket: Pocket::FootLeft }
    );
    let far = with(&equipment, &[Obstacle::rectangle("tray", Vec2::new(3.0, 0.0), 0.1, 0.1, 0.0)]);
    assert!(matches!(far, Err(WorldError::Obstacle { .. })), "{far:?}");
    let arrow = Obstacle {
        corners: vec![
            Vec2::new(0.0, 0.0),
            Vec2::new(0.2, 0.1),
            Vec2::new(0.0, 0.2),
            Vec2::new(0.1, 0.1),
        ],
        ..Obstacle::rectangle("arrow", Vec2::ZERO, 0.1, 0.1, 0.0)
    };
    let notched = with(&equipment, &[arrow]).unwrap_err().to_string();
    assert!(notched.contains("convex"), "{notched}");
    let many: Vec<_> =
        (0..65).map(|_| Obstacle::rectangle("box", Vec2::ZERO, 0.1, 0.1, 0.0)).collect();
    assert!(matches!(with(&equipment, &many), Err(WorldError::TooManyObstacles { count: 65, .. })));
}

#[test]
fn an_empty_table_has_no_obstacles() {
    assert!(table(&shipped_equipment("nine-foot")).obstacles().is_empty());
}

//! Jaws, shelves and drop lines.

use super::{moving, played, table};
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::Pocket;
use railproof_engine::shot::{Ending, EventKind};
use railproof_engine::world::{JawPart, World, WorldError};
use railproof_tests::shipped_equipment;

#[test]
fn a_ball_falls_where_its_centre_crosses_the_drop_line_behind_the_shelf() {
    let equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    let shot = played(&world, &[moving(0.0, 0.0, 0.0, 2.0)]);
    assert_eq!(shot.ends[0].ending, Ending::Dropped(Pocket::SideLeft));
    let drop = shot.events.last().unwrap();
    assert_eq!(drop.kind, EventKind::Drop(Pocket::SideLeft));
    let line = 0.635 + equipment.table.jaws.side_shelf_m;
    assert!((drop.before.position.y - line).abs() < 1e-12);
    assert_eq!(shot.state_at(0, 1e9).unwrap(), drop.after);
}

#[test]
fn sharp_points_are_met_at_the_grooves_distance() {
    let mut equipment = shipped_equipment("nine-foot");
    equipment.table.jaws.side_radius_m = 0.0;
    let world = table(&equipment);
    let point = world.outline().mouth_points(Pocket::SideLeft)[1];
    let shot = played(&world, &[moving(point.x - 0.01, 0.0, 0.0, 2.0)]);
    let hit = shot.events.iter().find(|event| event.kind.name() == "jaw").unwrap();
    assert!(matches!(hit.kind, EventKind::Jaw { part: JawPart::Point, .. }));
    let apart = (hit.before.position - point).norm();
    assert!((apart - equipment.groove_m()).abs() < 1e-12, "{apart}");
}

#[test]
fn rounder_points_and_tighter_angles_take_less() {
    // How many of a fan of shots at the side pocket drop.
    let dropped = |change: &dyn Fn(&mut Equipment)| {
        let mut equipment = shipped_equipment("nine-foot");
        change(&mut equipment);
        let world = table(&equipment);
        (0..200)
            .filter(|step| {
                let x = -0.08 + 0.0008 * f64::from(*step);
                let shot = played(&world, &[moving(x, 0.0, 0.0, 1.5)]);
                matches!(shot.ends[0].ending, Ending::Dropped(Pocket::SideLeft))
            })
            .count()
    };
    let usual = dropped(&|_| {});
    let wide = dropped(&|equipment| equipment.table.side_mouth_m += 0.01);
    let narrow = dropped(&|equipment| equipment.table.side_mouth_m -= 0.01);
    assert!(narrow < usual && usual < wide, "{narrow} {usual} {wide}");
}

#[test]
fn jaws_that_can_not_be_are_refused() {
    let refused = |change: &dyn Fn(&mut Equipment)| {
        let mut equipment = shipped_equipment("nine-foot");
        change(&mut equipment);
        World::new(&equipment, &[]).unwrap_err()
    };
    let round = refused(&|it| {
        it.table.jaws.side_radius_m = 0.06;
        it.table.jaws.side_shelf_m = 0.0;
        it.table.jaws.side_angle_rad = 91_f64.to_radians();
    });
    assert!(matches!(round, WorldError::JawRadius { .. }), "{round}");
    let tight = refused(&|it| {
        it.table.side_mouth_m = 0.07;
        it.table.jaws.side_shelf_m = 0.06;
    });
    assert!(
        matches!(tight, WorldError::Throat { pocket: Pocket::SideLeft | Pocket::SideRight, .. })
            || matches!(tight, WorldError::Throat { .. }),
        "{tight}"
    );
    assert!(tight.to_string().contains("too tight"));
}

//! The world's geometry against the standards' dimensions, and its ways of answering one question
//! against each other.

use super::table;
use proptest::prelude::*;
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Meeting, Obstacle, Owner, Shape, World};
use railproof_tests::shipped_equipment;

fn box_on_the_table() -> Obstacle {
    Obstacle::rectangle("box", Vec2::new(0.2, -0.1), 0.3, 0.2, 0.4)
}

/// Every boundary and drop line asked in turn: the brute force that the grooves' shortcut replaces.
fn first_of_all(world: &World, path: &Path) -> Option<f64> {
    let touches = world.grown().boundaries().filter_map(|it| it.first_contact(path));
    let drops = world.pockets().iter().filter_map(|it| {
        let time = path.first_crossing(it.drop.normal, it.drop.offset_m, 0.0)?;
        // The line ends at its facings; drawn on, a side pocket's runs behind the corners.
        let along = path.position_at(time) - it.drop.middle;
        (along.norm() <= it.drop.half_width_m).then_some(time)
    });
    touches.chain(drops).min_by(f64::total_cmp)
}

/// A straight way without end.
fn straight(from: Vec2, velocity: Vec2) -> Path {
    let start = BallState { position: from, velocity, spin: Vec3::ZERO };
    Path::prescribed(start, Vec2::ZERO, 0.028_575)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn the_grooves_shortcut_finds_what_asking_every_boundary_finds(
        x in -1.2..1.2f64, y in -0.6..0.6f64,
        vx in -6.0..6.0f64, vy in -6.0..6.0f64,
        wx in -100.0..100.0f64, wy in -100.0..100.0f64,
        with_box: bool,
    ) {
        let obstacles = if with_box { vec![box_on_the_table()] } else { Vec::new() };
        let equipment = shipped_equipment("nine-foot");
        let world = World::new(&equipment, &obstacles).unwrap();
        let place = Vec2::new(x, y);
        prop_assume!(world.grown().obstructed(place).is_none());
        let state =
            BallState { position: place, velocity: Vec2::new(vx, vy), spin: Vec3::new(wx, wy, 0.0) };
        let path = Path::new(state, ClothMotion::new(&equipment));
        let (quick, all) = (world.grown().first_met(&path), first_of_all(&world, &path));
        // Both within the ball's way, and at the same instant.
        let rests = path.centre_rests_from_s();
        let all = all.filter(|time| *time <= rests);
        match (quick, all) {
            (Some((a, _)), Some(b)) => prop_assert!((a - b).abs() <= 1e-12 * (1.0 + b), "{a} {b}"),
            (None, None) => {}
            other => prop_assert!(false, "{other:?}"),
        }
    }

    #[test]
    fn a_ray_in_the_grown_colliders_meets_what_the_closed_forms_meet(
        x in -1.2..1.2f64, y in -0.6..0.6f64, angle in 0.0..core::f64::consts::TAU, with_box: bool,
    ) {
        let obstacles = if with_box { vec![box_on_the_table()] } else { Vec::new() };
        let equipment = shipped_equipment("nine-foot");
        let world = World::new(&equipment, &obstacles).unwrap();
        let place = Vec2::new(x, y);
        prop_assume!(world.grown().obstructed(place).is_none());
        let solid = world.solid_for(equipment.groove_m(), equipment.ball.radius_m());
        let direction = Vec2::new(angle.cos(), angle.sin());
        let touched = world.grown().boundaries()
            .filter_map(|it| it.first_contact(&straight(place, direction)).map(|s| (it.owner, s)))
            .min_by(|a, b| a.1.total_cmp(&b.1));
        let cast = solid.cast(place, direction, 10.0);
        match (touched, cast) {
            (Some((_, a)), Some((_, b))) => {
                // Rounded polygons are solved by iteration, to about 1e-7 m.
                let most = if with_box { 1e-6 } else { 1e-9 };
                prop_assert!((a - b).abs() < most, "{a} {b}");
            }
            // Straight through a pocket's mouth, and onto the end of a facing behind the drop line.
            (None, None) => {}
            (None, Some((Owner::Jaw { pocket, .. }, distance))) => {
                let drop = world.pocket(pocket).drop;
                let there = place + direction * distance;
                prop_assert!(drop.normal.dot(there) > drop.offset_m, "{there:?}");
            }
            other => prop_assert!(false, "{other:?}"),
        }
        // What a box query leaves out is not met.
        let reach = place + direction * 0.4;
        let low = Vec2::new(place.x.min(reach.x), place.y.min(reach.y));
        let high = Vec2::new(place.x.max(reach.x), place.y.max(reach.y));
        if let Some((owner, distance)) = touched
            && distance <= 0.4
        {
            prop_assert!(solid.near(low, high).contains(&owner), "{owner:?} is left out");
        }
    }

    #[test]
    fn placements_agree_with_the_colliders(x in -1.3..1.3f64, y in -0.66..0.66f64) {
        let equipment = shipped_equipment("nine-foot");
        let world = World::new(&equipment, &[box_on_the_table()]).unwrap();
        let place = Vec2::new(x, y);
        let on_table = x.abs() < 1.27 && y.abs() < 0.635;
        prop_assume!(on_table);
        let overlaps = world.solid_for(equipment.groove_m(), equipment.ball.radius_m())
            .overlapped_by(place, 1e-9);
        let (obstructed, free) = (world.grown().obstructed(place), overlaps.is_empty());
        if let Some((past, Meeting::Touch(_))) = obstructed {
            prop_assert!(!free || past < 2e-9, "{past} inside, and no collider there");
        }
        if obstructed.is_none() {
            prop_assert!(free, "{overlaps:?}");
        }
    }
}

#[test]
fn the_mouths_are_as_wide_as_the_standard_says_and_the_facings_stand_at_its_angles() {
    // World Pool-Billiard Association, equipment specifications: mouths 4.5 to 4.625 in and 5 to
    // 5.125 in from point to point, cut angles 142° and 104°, both ±1°.
    let world = table(&shipped_equipment("nine-foot"));
    for pocket in world.pockets() {
        let [a, b] = world.outline().mouth_points(pocket.pocket);
        // The side's mouth stands at the upper end; a distance taken back to inches rounds in the sixteenth
        // digit.
        let mouth_in = ((a - b).norm() / 0.0254 * 1e12).round() / 1e12;
        let (mouth, angle) =
            if pocket.pocket.is_side() { (5.0..=5.125, 104.0) } else { (4.5..=4.625, 142.0) };
        assert!(mouth.contains(&mouth_in), "{} {mouth_in}", pocket.pocket.name());
        for facing in [pocket.jaws[1], pocket.jaws[3]] {
            let Shape::Straight { into, .. } = facing.shape else { panic!("a facing is straight") };
            let rail = match facing.owner {
                Owner::Jaw { side, .. } => jaw_rail(pocket.pocket, side),
                _ => panic!("a facing belongs to a jaw"),
            };
            // Between nose and facing, inside the rubber: their normals turn by what is missing.
            let turn = into.dot(rail.outward()).acos().to_degrees();
            assert!((180.0 - turn - angle).abs() <= 1.0, "{} {turn}", pocket.pocket.name());
        }
    }
}

fn jaw_rail(pocket: Pocket, side: railproof_engine::world::JawSide) -> Rail {
    let (sign_x, sign_y) = pocket.signs();
    let on_long = pocket.is_side() || side == railproof_engine::world::JawSide::First;
    match (on_long, sign_x > 0.0, sign_y > 0.0) {
        (true, _, true) => Rail::Left,
        (true, _, false) => Rail::Right,
        (false, true, _) => Rail::Foot,
        (false, false, _) => Rail::Head,
    }
}

#[test]
fn noses_points_and_facings_join_without_a_gap_and_without_a_kink() {
    let world = table(&shipped_equipment("nine-foot"));
    let ends: Vec<Vec2> = world
        .surfaces()
        .filter(|it| matches!(it.owner, Owner::Nose(_)))
        .flat_map(|it| it.shape.ends())
        .collect();
    for pocket in world.pockets() {
        for jaw in [&pocket.jaws[..2], &pocket.jaws[2..]] {
            let [nose_end, facing_end] = jaw[0].shape.ends();
            assert!(ends.iter().any(|end| (*end - nose_end).norm() < 1e-12));
            assert!((jaw[1].shape.ends()[0] - facing_end).norm() < 1e-12);
            // The facing leads on in the direction in which the point's arc ends.
            let (Shape::Round { to, .. }, Shape::Straight { into, .. }) =
                (jaw[0].shape, jaw[1].shape)
            else {
                panic!("a jaw is a point and a facing")
            };
            assert!((to + into).norm() < 1e-12);
        }
    }
}

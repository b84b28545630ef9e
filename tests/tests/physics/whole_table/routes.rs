//! More banks: other rails and pockets, two and three rails, kicks.

use super::table;
use railproof_engine::aim::{CUE, OBJECT, Route, SendOff, Setup, kick, route_start};
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::shot::EventKind;
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::{PocketVerdict, Target, number_along, numbers, verdict};
use railproof_tests::shipped_equipment;

const ROLLING: SendOff = SendOff { speed_m_s: 4.0, roll: 1.0, side: 0.0 };

#[test]
fn ways_round_one_to_three_rails_drop_where_they_should() {
    let equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    let from = Vec2::new(0.2, -0.25);
    for (rails, pocket) in [
        (vec![Rail::Left], Pocket::FootRight),
        (vec![Rail::Left], Pocket::SideRight),
        (vec![Rail::Foot], Pocket::HeadLeft),
        (vec![Rail::Foot], Pocket::SideLeft),
        (vec![Rail::Left, Rail::Right], Pocket::FootLeft),
        (vec![Rail::Foot, Rail::Left], Pocket::HeadRight),
        (vec![Rail::Left, Rail::Foot, Rail::Right], Pocket::SideLeft),
    ] {
        let route = Route { rails: rails.clone(), pocket };
        let found = route_start(&world, from, ROLLING, &route)
            .unwrap_or_else(|error| panic!("{rails:?} {pocket:?}: {error}"));
        for start in &found {
            let touched: Vec<Rail> = start.touches.iter().map(|touch| touch.rail).collect();
            assert_eq!(touched[..rails.len()], rails[..], "{pocket:?}");
            let judged = verdict(&world, &start.shot, Target { ball: 0, pocket, cue: None });
            let arrival = judged.arrival.unwrap();
            assert!(arrival.miss_m.abs() < 1e-6, "{rails:?} {pocket:?} {}", arrival.miss_m);
            // Through the middle and with room: it drops.
            if arrival.clearance_long_m > 0.01 {
                assert!(judged.is_made(), "{rails:?} {pocket:?} {judged:?}");
            }
        }
    }
}

#[test]
fn numbers_count_from_the_target_pocket_and_run_past_the_rails_ends() {
    let equipment = shipped_equipment("nine-foot");
    let at = |rail, pocket, x: f64, y: f64| number_along(&equipment, rail, pocket, Vec2::new(x, y));
    // Eight diamonds along a long rail, four along an end rail, 12.5 in each.
    let diamond = 12.5 * 0.0254;
    assert!((at(Rail::Left, Pocket::FootRight, 1.27 - 2.0 * diamond, 0.6) - 2.0).abs() < 1e-12);
    assert!((at(Rail::Left, Pocket::HeadRight, -1.27 + 3.0 * diamond, 0.6) - 3.0).abs() < 1e-12);
    assert!((at(Rail::Foot, Pocket::HeadRight, 1.2, -0.635 + diamond) - 1.0).abs() < 1e-12);
    assert!((at(Rail::Left, Pocket::SideRight, -diamond, 0.6) - 1.0).abs() < 1e-12);
    assert!(at(Rail::Left, Pocket::FootRight, 1.27 + diamond, 0.6) < -0.99);
}

#[test]
fn a_kick_comes_off_its_rails_and_meets_the_ball_as_asked() {
    let world = table(&shipped_equipment("nine-foot"));
    let setup =
        Setup::new(&world, Vec2::new(-0.6, -0.3), Vec2::new(0.35, -0.35), Pocket::FootRight);
    let stroke = Stroke { height_offset: 0.2, ..Stroke::centre(4.0, 0.0) };
    for (rails, offset) in [
        (vec![Rail::Left], 0.0),
        (vec![Rail::Left], 0.5),
        (vec![Rail::Right], -0.3),
        (vec![Rail::Left, Rail::Foot], 0.0),
    ] {
        for found in kick(&setup, &stroke, &rails, offset)
            .unwrap_or_else(|no| panic!("{rails:?} {offset}: {no}"))
        {
            let shot = setup.play(&found).unwrap();
            let until = shot.events.iter().position(|event| event.kind.name() == "ball").unwrap();
            let touched: Vec<Rail> = shot.events[..until]
                .iter()
                .filter_map(|event| match event.kind {
                    EventKind::Cushion(touch) if event.ball == CUE => Some(touch.rail),
                    _ => None,
                })
                .collect();
            assert_eq!(touched, rails);
            let hit = &shot.events[until];
            let EventKind::Ball(touch) = hit.kind else { panic!() };
            assert_eq!((hit.ball, touch.other), (CUE, OBJECT));
            let apart = touch.other_before.position - hit.before.position;
            let passes = -hit.before.velocity.unit_or_zero().cross(apart) / setup.contact_m();
            assert!((passes - offset).abs() < 1e-6, "{rails:?}: {passes}");
        }
    }
}

#[test]
fn a_ball_that_can_not_get_there_is_told_so() {
    let world = table(&shipped_equipment("nine-foot"));
    let slow = SendOff { speed_m_s: 0.2, ..ROLLING };
    let route = Route { rails: vec![Rail::Head, Rail::Foot], pocket: Pocket::HeadLeft };
    let refused = route_start(&world, Vec2::new(0.1, 0.0), slow, &route).unwrap_err().to_string();
    assert!(refused.contains("no direction"), "{refused}");
    let shot = super::played(&world, &[super::moving(0.1, 0.0, 0.2, 0.0)]);
    let judged = verdict(&world, &shot, Target { ball: 0, pocket: Pocket::HeadLeft, cue: None });
    assert_eq!(judged.pocket, PocketVerdict::NotReached);
    assert!(numbers(world.equipment(), &shot, 0, Pocket::HeadLeft).is_empty());
}

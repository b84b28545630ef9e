//! Verdicts on shots whose outcome is plain.

use super::{at_rest, moving, played, table};
use railproof_engine::rail::Pocket;
use railproof_engine::shot::EventKind;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::{Miss, PocketVerdict, Target, arrival, closest, verdict};
use railproof_engine::world::World;
use railproof_tests::shipped_equipment;

fn judged(
    world: &World,
    states: &[railproof_engine::motion::BallState],
    target: Target,
) -> PocketVerdict {
    verdict(world, &played(world, states), target).pocket
}

fn at(pocket: Pocket) -> Target {
    Target { ball: 0, pocket, cue: None }
}

#[test]
fn straight_into_a_corner_drops_clean_and_a_touch_of_the_jaw_is_noticed() {
    let world = table(&shipped_equipment("nine-foot"));
    let [a, b] = world.outline().mouth_points(Pocket::FootRight);
    let middle = (a + b) * 0.5;
    let way = Vec2::new(1.0, -1.0) * 0.5_f64.sqrt();
    let across = Vec2::new(way.y, -way.x);
    let sent = |off_m: f64, speed: f64| {
        let from = middle - way * 0.5 + across * off_m;
        moving(from.x, from.y, way.x * speed, way.y * speed)
    };
    assert_eq!(judged(&world, &[sent(0.0, 2.0)], at(Pocket::FootRight)), PocketVerdict::Clean);
    let touched = judged(&world, &[sent(0.032, 1.5)], at(Pocket::FootRight));
    assert!(matches!(touched, PocketVerdict::OffJaw | PocketVerdict::RattledOut), "{touched:?}");
    let shot = played(&world, &[sent(0.032, 1.5)]);
    assert!(shot.events.iter().any(|event| event.kind.name() == "jaw"));
    // Wide of both points: the side, seen along its way.
    let right = judged(&world, &[sent(0.09, 2.0)], at(Pocket::FootRight));
    let left = judged(&world, &[sent(-0.09, 2.0)], at(Pocket::FootRight));
    assert_eq!(
        (left, right),
        (PocketVerdict::Missed(Miss::Left), PocketVerdict::Missed(Miss::Right))
    );
    assert_eq!(
        judged(&world, &[sent(0.0, 2.0)], at(Pocket::HeadLeft)),
        PocketVerdict::OtherPocket(Pocket::FootRight)
    );
    assert_eq!(judged(&world, &[sent(0.0, 0.2)], at(Pocket::FootRight)), PocketVerdict::NotReached);
}

#[test]
fn near_a_jaw_some_balls_drop_off_it_and_some_rattle_out() {
    let world = table(&shipped_equipment("nine-foot"));
    let [a, b] = world.outline().mouth_points(Pocket::FootRight);
    let middle = (a + b) * 0.5;
    let (mut rattled, mut dropped) = (0, 0);
    for step in 0..120 {
        let from = Vec2::new(0.3, -0.1);
        let aim = middle + (b - a) * (f64::from(step) / 120.0 - 0.5);
        let way = (aim - from).unit_or_zero();
        for speed in [1.2, 5.0] {
            let start = moving(from.x, from.y, way.x * speed, way.y * speed);
            match judged(&world, &[start], at(Pocket::FootRight)) {
                PocketVerdict::RattledOut => rattled += 1,
                PocketVerdict::OffJaw => dropped += 1,
                _ => {}
            }
        }
    }
    assert!(rattled > 0 && dropped > 0, "{rattled} rattled, {dropped} dropped");
}

#[test]
fn the_cue_ball_in_a_pocket_is_a_scratch_whatever_else_dropped() {
    let world = table(&shipped_equipment("nine-foot"));
    // Both balls in line with the corner: the cue ball follows the object ball in.
    let [a, b] = world.outline().mouth_points(Pocket::FootRight);
    let middle = (a + b) * 0.5;
    let way = Vec2::new(1.0, -1.0) * 0.5_f64.sqrt();
    let object = middle - way * 0.12;
    let cue = middle - way * 0.4;
    let mut struck = moving(cue.x, cue.y, way.x * 3.0, way.y * 3.0);
    struck = struck.rolling(0.028_575);
    let target = Target { ball: 1, pocket: Pocket::FootRight, cue: Some(0) };
    assert_eq!(
        judged(&world, &[struck, at_rest(object.x, object.y)], target),
        PocketVerdict::Scratched
    );
}

#[test]
fn long_and_short_are_told_from_the_last_rail() {
    use railproof_engine::bank::{Bank, Launch};
    use railproof_engine::rail::{Line, Rail};
    let equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    for (rail, pocket) in [
        (Rail::Left, Pocket::FootRight),
        (Rail::Foot, Pocket::HeadLeft),
        (Rail::Right, Pocket::SideLeft),
    ] {
        let bank = Bank::new(&equipment, rail, pocket, equipment.cushion.rail_model).unwrap();
        for (more, expected) in [(0.5, Miss::Long), (-0.6, Miss::Short)] {
            let exact =
                railproof_engine::bank::exact_start(&bank, 2.0, Launch::frozen_stun(5.0)).unwrap();
            let outcome =
                bank.play(Line::new(2.0, exact + more), Launch::frozen_stun(5.0)).unwrap();
            let geometry = bank.geometry();
            let mut start = outcome.launch;
            start.position = geometry.to_table(start.position);
            start.velocity = geometry.direction_to_table(start.velocity);
            start.spin = geometry.spin_to_table(start.spin);
            let got = judged(&world, &[start], at(pocket));
            assert_eq!(got, PocketVerdict::Missed(expected), "{rail:?} {pocket:?} {more}");
        }
    }
}

#[test]
fn the_nearest_approach_is_where_dense_looking_finds_it() {
    let world = table(&shipped_equipment("nine-foot"));
    let shot = played(
        &world,
        &[moving(-0.6, -0.3, 2.0, 1.1), moving(0.5, 0.4, -1.5, -1.4), at_rest(0.9, 0.1)],
    );
    for (one, other) in [(0, 1), (0, 2), (1, 2)] {
        let found = closest(&shot, one, other, 0.0, f64::INFINITY).unwrap();
        let dense = (0..200_000)
            .map(|step| shot.duration_s() * f64::from(step) / 200_000.0)
            .map(|time| {
                (shot.state_at(one, time).unwrap().position
                    - shot.state_at(other, time).unwrap().position)
                    .norm()
            })
            .fold(f64::INFINITY, f64::min);
        assert!(found.distance_m <= dense + 1e-12, "{} {dense}", found.distance_m);
        assert!(found.distance_m > dense - 1e-6, "{} {dense}", found.distance_m);
        let there = |ball| shot.state_at(ball, found.time_s).unwrap().position;
        assert!(((there(one) - there(other)).norm() - found.distance_m).abs() < 1e-9);
    }
    assert!(arrival(&world, &shot, 7, Pocket::FootLeft).is_none());
    assert!(
        shot.events
            .iter()
            .all(|event| event.kind != EventKind::Drop(Pocket::FootLeft) || event.ball < 3)
    );
}

//! Whole shots: the lone ball's shortcut, lasting contacts, ball on ball, pieces and times.

use super::{SMOOTH, at_rest, impulsive, kinds_of, moving, played, table};
use railproof_engine::bank::{Bank, BankEnding, Launch};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::shot::{Ending, EventKind, PieceKind, ShotBall, play};
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::arrival;
use railproof_tests::shipped_equipment;

const MODELS: [RailModel; 3] = [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar];

#[test]
fn the_straight_rail_shortcut_gives_the_full_worlds_bank() {
    let mut compared = 0;
    for model in MODELS {
        let mut equipment = shipped_equipment("nine-foot");
        equipment.cushion.rail_model = model;
        let world = table(&equipment);
        for (rail, pocket) in [
            (Rail::Left, Pocket::FootRight),
            (Rail::Right, Pocket::HeadLeft),
            (Rail::Foot, Pocket::HeadRight),
            (Rail::Left, Pocket::SideRight),
        ] {
            let bank = Bank::new(&equipment, rail, pocket, model).unwrap();
            for contact in [1.0, 1.7, 2.5] {
                for launch in [
                    Launch::frozen_stun(4.0),
                    Launch { off_rail_m: 0.3, roll: 0.5, side: 0.2, ..Launch::frozen_stun(5.0) },
                ] {
                    let line = Line::new(contact, 2.2 * contact);
                    let outcome = bank.play(line, launch).unwrap();
                    let Some(shortcut) = outcome.arrival else { continue };
                    let geometry = bank.geometry();
                    // A ball that comes off another rail far from the pocket is no bank any more; the
                    // shortcut goes on as if the rail were not there.
                    let off = |place: Vec2| (place - geometry.mouth.midpoint).norm();
                    if matches!(outcome.ending, BankEnding::OtherRail(_, place) if off(place) > 0.5)
                    {
                        continue;
                    }
                    compared += 1;
                    let mut start = outcome.launch;
                    start.position = geometry.to_table(start.position);
                    start.velocity = geometry.direction_to_table(start.velocity);
                    start.spin = geometry.spin_to_table(start.spin);
                    let shot = played(&world, &[start]);
                    let full = arrival(&world, &shot, 0, pocket).expect("it arrives there too");
                    let place = geometry.to_table(shortcut.state.position);
                    assert!(
                        (full.state.position - place).norm() < 1e-9,
                        "{model:?} {rail:?} {line:?}"
                    );
                    assert!(
                        (full.miss_m - shortcut.miss_m).abs() < 1e-9,
                        "{model:?} {rail:?} {line:?}"
                    );
                    assert!((full.clearance_long_m - shortcut.clearance_long_m).abs() < 1e-9);
                }
            }
        }
    }
    assert!(compared >= 60, "only {compared} of 72 were compared");
}

#[test]
fn a_contact_lasts_as_long_as_the_cushion_says_and_carries_the_ball_along() {
    let lasting = |contact_time_s: f64| {
        let mut equipment = shipped_equipment("nine-foot");
        equipment.cushion.contact_time_s = contact_time_s;
        played(&table(&equipment), &[moving(-0.3, 0.0, 1.5, 2.0)])
    };
    let (impulse, held) = (lasting(0.0), lasting(0.01));
    let touch = |shot: &railproof_engine::shot::Shot| {
        *shot.events.iter().find(|event| event.kind.name() == "cushion").unwrap()
    };
    let (a, b) = (touch(&impulse), touch(&held));
    assert_eq!(
        (a.time_s, a.before, a.after.velocity, a.after.spin),
        (b.time_s, b.before, b.after.velocity, b.after.spin)
    );
    let leave = held.events.iter().find(|event| event.kind == EventKind::Leave).unwrap();
    assert!((leave.time_s - b.time_s - 0.01).abs() < 1e-12);
    let along = 0.5 * (b.before.velocity.x + b.after.velocity.x) * 0.01;
    assert!((leave.before.position.x - b.before.position.x - along).abs() < 1e-12);
    assert_eq!(leave.before.position.y, b.before.position.y);
    assert!(kinds_of(&impulse, 0).iter().all(|kind| *kind != "leave"));
}

#[test]
fn a_smooth_full_hit_of_equal_balls_exchanges_their_velocities() {
    let mut equipment = impulsive(RailModel::Planar);
    equipment.ball_contact = SMOOTH;
    let world = table(&equipment);
    let shot = played(&world, &[moving(-0.5, 0.0, 2.0, 0.0), at_rest(0.0, 0.0)]);
    let hit = shot.events.iter().find(|event| event.kind.name() == "ball").unwrap();
    let EventKind::Ball(touch) = hit.kind else { panic!() };
    assert!(hit.after.velocity.norm() < 1e-15);
    assert!((touch.other_after.velocity - hit.before.velocity).norm() < 1e-15);
    // The roll it had gathered drives it on: follow.
    assert!(shot.ends[0].state.position.x > hit.before.position.x + 0.01);
}

#[test]
fn a_struck_ball_may_be_struck_again_after_it_has_stopped() {
    let world = table(&shipped_equipment("nine-foot"));
    let shot = played(
        &world,
        &[moving(-0.9, 0.0, 0.5, 0.0), at_rest(-0.6, 0.0), moving(0.9, 0.0, -1.6, 0.0)],
    );
    let kinds = kinds_of(&shot, 1);
    let first_stop = kinds.iter().position(|kind| *kind == "stop");
    assert!(first_stop.is_some(), "{kinds:?}");
    let hits = shot.events.iter().filter(|event| event.kind.name() == "ball").count();
    assert!(hits >= 2, "{hits}");
    assert!(shot.ends.iter().all(|end| matches!(end.ending, Ending::AtRest | Ending::Dropped(_))));
}

#[test]
fn pieces_join_and_give_the_states_places() {
    let world = table(&shipped_equipment("nine-foot"));
    let shot = played(&world, &[moving(0.0, -0.2, 0.8, 2.0), at_rest(0.2, 0.3)]);
    for ball in 0..2 {
        let pieces = shot.pieces(ball);
        assert!(pieces.len() > 2);
        for pair in pieces.windows(2) {
            let end = pair[0].time_s + pair[0].motion.duration_s;
            assert!(pair[1].time_s >= end - 1e-12);
            assert!((pair[0].curve()[2] - pair[1].curve()[0]).norm() < 1e-12);
        }
        for piece in &pieces {
            let middle = 0.5 * piece.motion.duration_s;
            let state = shot.state_at(ball, piece.time_s + middle).unwrap();
            assert!((state.position - piece.motion.position_at(middle)).norm() < 1e-12);
            // The Bézier curve is the motion: at half its parameter it is (a + 2c + b)/4.
            let [a, c, b] = piece.curve();
            let bezier = (a + c * 2.0 + b) * 0.25;
            assert!((bezier - piece.motion.position_at(middle)).norm() < 1e-12);
        }
        assert!(pieces.iter().any(|piece| piece.kind == PieceKind::Roll));
    }
    assert!(shot.pieces(1).iter().any(|piece| piece.kind == PieceKind::Held));
    assert!(shot.state_at(2, 0.0).is_none() && shot.pieces(2).is_empty());
}

#[test]
fn a_spinning_ball_pivots_after_its_centre_has_stopped() {
    let world = table(&shipped_equipment("nine-foot"));
    let mut start = moving(0.0, 0.0, 0.1, 0.0);
    start.spin.z = 200.0;
    let shot = played(&world, &[start]);
    assert_eq!(kinds_of(&shot, 0), ["start", "roll", "pivot", "stop"]);
    let pivot_s = shot.events[2].time_s;
    assert_eq!(shot.events[2].before.velocity, Vec2::ZERO);
    assert!(shot.events[2].before.spin.z > 0.0 && shot.ends[0].time_s > pivot_s);
}

#[test]
fn balls_of_unlike_mass_and_size_play_together() {
    let equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    let mut heavy = ShotBall::of(&equipment, moving(-0.5, 0.0, 2.0, 0.0));
    heavy.ball.mass_kg *= 1.2;
    let mut small = ShotBall::of(&equipment, at_rest(0.0, 0.0));
    small.ball.diameter_m *= 0.96;
    let shot = play(&world, &[heavy, small], None).unwrap();
    let hit = shot.events.iter().find(|event| event.kind.name() == "ball").unwrap();
    let EventKind::Ball(touch) = hit.kind else { panic!() };
    let (m, n) = (heavy.ball.mass_kg, small.ball.mass_kg);
    let before = hit.before.velocity.x * m;
    let after = hit.after.velocity.x * m + touch.other_after.velocity.x * n;
    assert!((before - after).abs() < 1e-14);
    // They touch off the horizontal: the product of the diameters counts.
    let apart = (hit.before.position - touch.other_before.position).norm();
    let expected = (heavy.ball.diameter_m * small.ball.diameter_m).sqrt();
    assert!((apart - expected).abs() < 1e-12);
    // A heavier ball goes on after a full hit.
    assert!(hit.after.velocity.x > 0.0);
}

#[test]
fn the_end_can_be_asked_for_before_the_balls_stop() {
    let world = table(&shipped_equipment("nine-foot"));
    let start = ShotBall::of(world.equipment(), moving(0.0, 0.0, 1.0, 0.5));
    let whole = play(&world, &[start], None).unwrap();
    let cut = play(&world, &[start], Some(0.7)).unwrap();
    assert_eq!(cut.ends[0].ending, Ending::TimeOver);
    assert_eq!(cut.ends[0].state, whole.state_at(0, 0.7).unwrap());
    assert_eq!(cut.ends[0].time_s, 0.7);
}

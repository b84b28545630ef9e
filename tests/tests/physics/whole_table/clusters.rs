//! Degenerate starts: frozen balls, balls in a line, exact corner hits, grazes. Each ends with a defined
//! outcome, and momentum and energy are what they must be.

use super::{SMOOTH, at_rest, impulsive, moving, played, table};
use railproof_engine::equipment::RailModel;
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Ending, EventKind, Shot};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_tests::shipped_equipment;

const D: f64 = 0.057_15;

fn ends_well(shot: &Shot) {
    for end in &shot.ends {
        assert!(matches!(end.ending, Ending::AtRest | Ending::Dropped(_)), "{end:?}");
        assert!(end.state.is_finite());
    }
}

#[test]
fn three_balls_frozen_in_a_line_pass_the_blow_on() {
    // Equal smooth balls that give back all: only the last one leaves.
    let mut equipment = impulsive(RailModel::Planar);
    equipment.ball_contact = SMOOTH;
    equipment.cloth.sliding_friction = 0.0;
    equipment.cloth.rolling_resistance = 0.01;
    let world = table(&equipment);
    let shot = played(
        &world,
        &[moving(-0.4, 0.0, 1.0, 0.0), at_rest(0.0, 0.0), at_rest(D, 0.0), at_rest(2.0 * D, 0.0)],
    );
    let hits: Vec<_> =
        shot.events.iter().filter(|event| event.kind.name() == "ball").take(3).collect();
    let last = hits[2];
    let EventKind::Ball(touch) = last.kind else { panic!() };
    assert!((touch.other_after.velocity.x - 1.0).abs() < 1e-12);
    assert!(last.after.velocity.norm() < 1e-12);
    assert_eq!(hits[0].time_s, hits[2].time_s);
}

#[test]
fn two_balls_struck_at_once_leave_alike_and_the_striker_comes_back() {
    // One smooth ball onto two that touch each other: the textbook's symmetric three-ball problem.
    // With e = 1 momentum and energy give (2√3/5)·v for each of the two at ±30°, and −v/5 for the
    // striker (derived).
    let mut equipment = impulsive(RailModel::Planar);
    equipment.ball_contact = SMOOTH;
    equipment.cloth.sliding_friction = 0.0;
    let world = table(&equipment);
    let half = 0.5 * D;
    let shot =
        played(&world, &[moving(-0.3, 0.0, 1.0, 0.0), at_rest(0.0, half), at_rest(0.0, -half)]);
    let at_hit = shot.events.iter().find(|event| event.kind.name() == "ball").unwrap().time_s;
    let after = |ball: usize| {
        shot.events
            .iter()
            .filter(|event| event.time_s <= at_hit + 1e-9)
            .fold(BallState::default(), |last, event| match event.kind {
                _ if event.ball == ball => event.after,
                EventKind::Ball(touch) if touch.other == ball => touch.other_after,
                _ => last,
            })
            .velocity
    };
    let each = 2.0 * 3.0_f64.sqrt() / 5.0;
    assert!((after(0) - Vec2::new(-0.2, 0.0)).norm() < 1e-9, "{:?}", after(0));
    assert!((after(1).norm() - each).abs() < 1e-9, "{:?}", after(1));
    assert_eq!(after(1).x, after(2).x);
    assert_eq!(after(1).y, -after(2).y);
}

#[test]
fn a_full_rack_breaks_without_overlap_or_made_energy() {
    let equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    let mut balls = vec![moving(-0.6, 0.013, 9.0, 0.0)];
    for row in 0..5_u32 {
        for place in 0..=row {
            let x = 0.635 + f64::from(row) * D * 0.75_f64.sqrt();
            let y = (f64::from(place) - 0.5 * f64::from(row)) * D;
            balls.push(at_rest(x, y));
        }
    }
    let shot = played(&world, &balls);
    ends_well(&shot);
    let radius = 0.5 * D;
    let energy = |time: f64| -> f64 {
        (0..16)
            .filter(|ball| !gone(&shot, *ball, time))
            .map(|ball| shot.state_at(ball, time).unwrap().energy_per_mass(radius))
            .sum()
    };
    let begin = energy(0.0);
    for step in 0..4000 {
        let time = shot.duration_s() * f64::from(step) / 4000.0;
        assert!(energy(time) <= begin * (1.0 + 1e-12));
        for a in 0..16 {
            for b in 0..a {
                if !gone(&shot, a, time) && !gone(&shot, b, time) {
                    let apart = shot.state_at(a, time).unwrap().position
                        - shot.state_at(b, time).unwrap().position;
                    assert!(apart.norm() > D - 1e-9, "{a} and {b} at {time}");
                }
            }
        }
    }
}

fn gone(shot: &Shot, ball: usize, time: f64) -> bool {
    matches!(shot.ends[ball].ending, Ending::Dropped(_)) && time >= shot.ends[ball].time_s
}

#[test]
fn follow_that_presses_a_ball_on_a_frozen_one_ends() {
    // The cue ball stands frozen behind two frozen balls against the rail and only spins.
    for model in [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar] {
        for contact_time_s in [0.0, 0.01] {
            let mut equipment = impulsive(model);
            equipment.cushion.contact_time_s = contact_time_s;
            let world = table(&equipment);
            let groove = 1.27 - equipment.groove_m();
            let mut spinner = at_rest(groove - 2.0 * D, 0.1);
            spinner.spin = Vec3::new(0.0, 300.0, 20.0);
            let shot = played(&world, &[spinner, at_rest(groove - D, 0.1), at_rest(groove, 0.1)]);
            ends_well(&shot);
            for step in 0..2000 {
                let time = shot.duration_s() * f64::from(step) / 2000.0;
                let place = |ball| shot.state_at(ball, time).unwrap().position;
                assert!((place(0) - place(1)).norm() > D - 1e-9);
                assert!((place(1) - place(2)).norm() > D - 1e-9);
                assert!(place(2).x <= groove + 1e-9);
            }
        }
    }
}

#[test]
fn a_frozen_object_ball_struck_into_its_rail_comes_off_it() {
    for contact_time_s in [0.0, 0.01] {
        let mut equipment = shipped_equipment("nine-foot");
        equipment.cushion.contact_time_s = contact_time_s;
        let world = table(&equipment);
        let groove = 0.635 - equipment.groove_m();
        // Square, and askew.
        for x in [0.0, 0.02, 0.05] {
            let shot =
                played(&world, &[moving(0.3 - x, groove - 0.4, 0.0, 3.0), at_rest(0.3, groove)]);
            ends_well(&shot);
            assert!(
                shot.events.iter().any(|event| event.ball == 1 && event.kind.name() == "cushion")
            );
        }
    }
}

#[test]
fn exact_corner_hits_and_grazes_have_an_outcome() {
    let equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    let (groove_x, groove_y) = (1.27 - equipment.groove_m(), 0.635 - equipment.groove_m());
    // Dead into a corner's middle along its axis; onto a jaw's point; along the groove past a mouth;
    // into the angle of a point and a nose.
    let point = world.outline().mouth_points(railproof_engine::rail::Pocket::SideLeft)[0];
    let starts = [
        moving(groove_x - 0.5, groove_y - 0.5, 2.0, 2.0),
        moving(point.x, 0.0, 0.0, 2.0),
        moving(-0.5, groove_y, 2.0, 0.0),
        moving(point.x - 0.3, groove_y, 3.0, 1e-9),
        moving(0.0, groove_y, 0.0, 1e-12),
        moving(0.0, 0.0, 0.0, 2.0),
    ];
    for start in starts {
        ends_well(&played(&world, &[start]));
    }
    // A ball that passes another at exactly a diameter does not move it.
    let shot = played(&world, &[moving(-0.5, D, 1.0, 0.0), at_rest(0.0, 0.0)]);
    ends_well(&shot);
    assert_eq!(shot.ends[1].state.position, Vec2::ZERO);
}

//! Balls frozen to each other and to a rail, where contacts overlap: what the stepped engine is for.

use super::stepped_layouts::{ball, by_events, by_steps, lossless, world};
use super::table::{RADIUS_M, equipment};
use railproof_engine::rail::Rail;
use railproof_engine::shot::{EventKind, ShotBall};
use railproof_engine::stepped::shot::{ContactWith, SteppedContact, SteppedSettings, SteppedShot};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Owner, World};

const DIAMETER_M: f64 = 2.0 * RADIUS_M;

/// Speeds of three balls in a line after the first has met the other two, frozen together, at speed 1:
/// two equal linear springs, solved in closed form (derived; that such springs, unlike a sequence of
/// impacts, throw the first ball back is shown by Herrmann & Schmälzle 1981, American Journal of
/// Physics 49:761, cited from memory).
///
/// With k/m = 1, u and w the compressions of the two springs, u'' = −2u + w and w'' = u − 2w, so u + w
/// swings at 1 and u − w at √3. The first spring opens first; then the second swings at √2 until it
/// opens.
fn three_in_a_line() -> [f64; 3] {
    let root = 3.0_f64.sqrt();
    let first = |t: f64| 0.5 * (t.sin() + (root * t).sin() / root);
    let second = |t: f64| 0.5 * (t.sin() - (root * t).sin() / root);
    let (mut closed, mut open) = (1.0_f64, 3.0_f64);
    for _ in 0..100 {
        let middle = 0.5 * (closed + open);
        if first(middle) > 0.0 { closed = middle } else { open = middle }
    }
    let t = closed;
    let (fast, slow) = (t.cos(), (root * t).cos());
    let (first_rate, second_rate) = (0.5 * (fast + slow), 0.5 * (fast - slow));
    // v₀ − v₁ and v₁ − v₂, and their sum is 1.
    let v0 = (1.0 + 2.0 * first_rate + second_rate) / 3.0;
    let parting = (second_rate * second_rate + 2.0 * second(t) * second(t)).sqrt();
    let pair = 0.5 * (1.0 - v0);
    [v0, pair - 0.5 * parting, pair + 0.5 * parting]
}

#[test]
fn three_frozen_in_a_line_are_two_springs_in_a_row() {
    let wanted = three_in_a_line();
    assert!((wanted.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    assert!((wanted.iter().map(|v| v * v).sum::<f64>() - 1.0).abs() < 1e-12, "{wanted:?}");
    let world = world(&lossless());
    let error = |contact_steps: u32| {
        let balls = [
            ball(&world, (-0.4, 0.0), (1.0, 0.0), Vec3::ZERO),
            ball(&world, (0.0, 0.0), (0.0, 0.0), Vec3::ZERO),
            ball(&world, (DIAMETER_M, 0.0), (0.0, 0.0), Vec3::ZERO),
        ];
        let settings = SteppedSettings { contact_steps, ..SteppedSettings::default() };
        let shot = by_steps(&world, &balls, Some(0.5), &settings);
        let off = |(end, wanted): (&railproof_engine::shot::End, &f64)| {
            (end.state.velocity.x - wanted).abs()
        };
        shot.ends.iter().zip(&wanted).map(off).fold(0.0, f64::max)
    };
    let (coarse, fine) = (error(200), error(400));
    // Measured: 5.7e-5 and 1.7e-5, with speeds −0.130, 0.150 and 0.980.
    assert!(fine < 1e-4 && fine < 0.6 * coarse, "{coarse} to {fine}, {wanted:?}");
}

#[test]
fn a_frozen_pair_hit_in_line_throws_the_cue_ball_back_only_where_contacts_overlap() {
    let world = world(&equipment());
    let balls = [
        ball(&world, (-0.5, 0.0), (3.0, 0.0), Vec3::ZERO),
        ball(&world, (0.0, 0.0), (0.0, 0.0), Vec3::ZERO),
        ball(&world, (DIAMETER_M, 0.0), (0.0, 0.0), Vec3::ZERO),
    ];
    let events = by_events(&world, &balls, Some(0.2));
    let steps = by_steps(&world, &balls, Some(0.2), &SteppedSettings::default());
    let [one, two]: [Vec<f64>; 2] =
        [&events.ends, &steps.ends].map(|ends| ends.iter().map(|it| it.state.velocity.x).collect());
    // By events the blow goes through as a sequence, 0.079, 0.080, 2.448 m/s a little later (the first
    // two roll along together, so either may be the quicker); by steps the three share it, −0.213,
    // 0.385, 2.435 m/s.
    assert!(one[0] > 0.0 && (one[0] - one[1]).abs() < 5e-3 && one[1] < 0.1 * one[2], "{one:?}");
    assert!(two[0] < 0.0 && two[1] > one[1] && two[1] < 0.3 * two[2], "{two:?}");
    assert!((one[2] / two[2] - 1.0).abs() < 0.02, "{one:?} and {two:?}");
    // The second contact begins while the first lasts and outlasts it.
    let [first, second] = [0, 1].map(|at| steps.contacts[at]);
    let ends = [first, second].map(|it| it.ended_s.expect("they part"));
    assert!(first.began_s < second.began_s && second.began_s < ends[0] && ends[0] < ends[1]);
    for contact in [first, second] {
        let lasted_s = contact.duration_s().expect("they part");
        assert!((0.25e-3..0.5e-3).contains(&lasted_s), "{lasted_s} s, each alone lasts 0.25 ms");
    }
}

#[test]
fn a_frozen_pair_hit_from_the_side_goes_the_same_ways_in_both() {
    let world = world(&equipment());
    let balls = [
        ball(&world, (-0.5, 0.0), (3.0, 0.0), Vec3::ZERO),
        ball(&world, (0.0, 0.0), (0.0, 0.0), Vec3::ZERO),
        ball(&world, (DIAMETER_M * 0.75_f64.sqrt(), 0.5 * DIAMETER_M), (0.0, 0.0), Vec3::ZERO),
    ];
    let events = by_events(&world, &balls, Some(0.2));
    let steps = by_steps(&world, &balls, Some(0.2), &SteppedSettings::default());
    // By events (0.168, 0.000), (0.597, −0.931), (1.882, 0.958) m/s, by steps (−0.113, −0.078),
    // (0.837, −0.748), (1.907, 0.854).
    for ends in [&events.ends, &steps.ends] {
        let [cue, near, far] = [0, 1, 2].map(|ball| ends[ball].state.velocity);
        assert!(far.norm() > near.norm() && near.norm() > cue.norm(), "{ends:?}");
        assert!(far.y > 0.5 && near.y < -0.5 && near.x > 0.3, "{ends:?}");
        // The far ball leaves along the line of centres but for throw: at 30°.
        let degrees = direction_degrees(far);
        assert!((24.0..30.0).contains(&degrees), "{degrees}°");
    }
    // Sharing the blow throws the cue ball back.
    assert!(events.ends[0].state.velocity.x > 0.0 && steps.ends[0].state.velocity.x < 0.0);
}

fn direction_degrees(velocity: Vec2) -> f64 {
    velocity.y.atan2(velocity.x).to_degrees()
}

/// A cue ball sent full at a ball frozen to the left rail, `degrees` off the rail's normal.
fn at_a_frozen_ball(world: &World, degrees: f64) -> [ShotBall; 2] {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let frozen = Vec2::new(0.2, world.grown().groove_offset_m(Rail::Left));
    let cue = frozen - Vec2::new(sin, cos) * (DIAMETER_M + 0.15);
    [
        ball(world, (cue.x, cue.y), (3.0 * sin, 3.0 * cos), Vec3::ZERO),
        ball(world, (frozen.x, frozen.y), (0.0, 0.0), Vec3::ZERO),
    ]
}

fn kisses(shot: &SteppedShot) -> usize {
    shot.contacts.iter().filter(|contact| contact.other.is_some()).count()
}

#[test]
fn a_ball_frozen_to_the_rail_escapes_the_second_kiss_only_on_long_lines() {
    let angles = [2.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0];
    let mut first_clear = Vec::new();
    for contact_time_s in [0.5e-3, 3e-3, 10e-3] {
        let mut equipment = equipment();
        equipment.cushion.contact_time_s = contact_time_s;
        let world = world(&equipment);
        let mut clear = Vec::new();
        for degrees in angles {
            let balls = at_a_frozen_ball(&world, degrees);
            let steps = by_steps(&world, &balls, Some(0.3), &SteppedSettings::default());
            let events = by_events(&world, &balls, Some(0.3));
            let met = |kind: &EventKind| matches!(kind, EventKind::Ball(_));
            let by_events = events.events.iter().filter(|event| met(&event.kind)).count();
            assert_eq!(kisses(&steps), by_events, "{degrees}°, {contact_time_s} s");
            let rail = steps.contacts.iter().find(|it| {
                it.with == ContactWith::Surface(Owner::Nose(Rail::Left)) && it.ball == 1
            });
            let held_s = rail.and_then(SteppedContact::duration_s).expect("the rail lets it go");
            if kisses(&steps) == 1 {
                clear.push(degrees);
                // Alone with the rail but for the blow that sent it there.
                let longer = (held_s - contact_time_s) / 0.25e-3;
                assert!((0.0..0.7).contains(&longer), "{degrees}°: {held_s} s");
            } else if degrees <= 5.0 && contact_time_s > 1e-3 {
                // The cue ball holds it against the rail.
                assert!(held_s > 1.3 * contact_time_s, "{degrees}°: {held_s} s");
            }
        }
        // Once a line is long enough all longer ones are.
        assert_eq!(clear, angles[angles.len() - clear.len()..], "{contact_time_s} s");
        first_clear.push(clear[0]);
    }
    // The longer the rail holds it, the further along it leaves: 45°, 40° and 35°.
    assert!(first_clear.windows(2).all(|pair| pair[0] > pair[1]), "{first_clear:?}");
}

//! The stepped engine against closed forms, and its own books.

use super::*;
use crate::equipment::{Ball, Cloth, Cushion, Equipment, RailModel};
use crate::motion::{ClothMotion, Path};
use crate::rail::Rail;
use crate::rail::testing::nine_foot;
use crate::shot::{Ending, ShotBall};
use crate::vector::{Vec2, Vec3};
use crate::world::{Owner, World};

const RADIUS: f64 = 0.028_575;

fn equipment() -> Equipment {
    let nine_foot = nine_foot();
    let cushion = Cushion {
        rail_model: RailModel::Planar,
        restitution: 0.85,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        nose_friction: 0.2,
        ..nine_foot.cushion
    };
    Equipment { cushion, ..nine_foot }
}

fn bare() -> Equipment {
    let mut equipment = equipment();
    equipment.cloth =
        Cloth { sliding_friction: 0.0, rolling_resistance: 0.0, pivot_deceleration_rad_s2: 0.0 };
    equipment
}

fn ball(equipment: &Equipment, x: f64, y: f64, velocity: Vec2, spin: Vec3) -> ShotBall {
    ShotBall::of(equipment, BallState { position: Vec2::new(x, y), velocity, spin })
}

#[test]
fn a_lone_ball_away_from_everything_follows_the_closed_form() {
    let equipment = equipment();
    let world = World::new(&equipment, &[]).unwrap();
    let start = ball(&equipment, -0.6, 0.1, Vec2::new(0.8, 0.1), Vec3::new(20.0, -30.0, 15.0));
    let path = Path::new(start.state, ClothMotion::new(&equipment));
    let shot = play(&world, &[start], None, &SteppedSettings::default()).unwrap();
    assert_eq!(shot.ends[0].ending, Ending::AtRest);
    assert!((shot.ends[0].time_s - path.rests_from_s()).abs() < 1e-8);
    for step in 0..100 {
        let time_s = f64::from(step) * 0.05;
        let off = shot.state_at(0, time_s).unwrap().position - path.state_at(time_s).position;
        assert!(off.norm() < 1e-10, "{} m at {time_s} s", off.norm());
    }
    assert!(shot.contacts.is_empty());
}

/// A square bank's contact with so many steps in its time.
fn square_bank(steps: u32) -> SteppedContact {
    let equipment = bare();
    let world = World::new(&equipment, &[]).unwrap();
    let start = ball(&equipment, 0.4, 0.0, Vec2::new(0.0, 2.0), Vec3::ZERO);
    let settings = SteppedSettings { contact_steps: steps, ..SteppedSettings::default() };
    let shot = play(&world, &[start], Some(0.5), &settings).unwrap();
    assert_eq!(shot.contacts.len(), 1, "{:#?}", shot.contacts);
    shot.contacts[0]
}

#[test]
fn a_cushion_is_of_second_order() {
    let errors = |steps| {
        let hit = square_bank(steps);
        assert_eq!(hit.with, ContactWith::Surface(Owner::Nose(Rail::Left)));
        let late_s = (hit.duration_s().unwrap() - 0.01).abs();
        (late_s, (-hit.departure.velocity.y - 0.85 * 2.0).abs())
    };
    let (coarse, fine) = (errors(100), errors(200));
    for (coarse, fine) in [(coarse.0, fine.0), (coarse.1, fine.1)] {
        assert!((3.5..5.0).contains(&(coarse / fine)), "{coarse} to {fine}");
    }
    assert!(fine.0 < 2e-7 && fine.1 < 5e-6, "{fine:?}");
}

#[test]
fn two_balls_are_of_first_order() {
    let equipment = bare();
    let world = World::new(&equipment, &[]).unwrap();
    let balls = [
        ball(&equipment, -0.4, 0.0, Vec2::new(2.0, 0.0), Vec3::ZERO),
        ball(&equipment, 0.0, 0.0, Vec2::ZERO, Vec3::ZERO),
    ];
    let errors = |contact_steps| {
        let settings = SteppedSettings { contact_steps, ..SteppedSettings::default() };
        let shot = play(&world, &balls, Some(0.5), &settings).unwrap();
        let hit = shot.contacts[0];
        let late_s = (hit.duration_s().unwrap() - 0.25e-3).abs();
        (late_s, (hit.other.unwrap()[1].velocity.x - 0.97 * 2.0).abs())
    };
    let (coarse, fine) = (errors(100), errors(200));
    for (coarse, fine) in [(coarse.0, fine.0), (coarse.1, fine.1)] {
        assert!((1.8..2.2).contains(&(coarse / fine)), "{coarse} to {fine}");
    }
    assert!(fine.0 < 2e-6 && fine.1 < 4e-4, "{fine:?}");
}

#[test]
fn balls_of_unlike_sizes_meet_where_they_touch_on_one_cloth() {
    let equipment = bare();
    let world = World::new(&equipment, &[]).unwrap();
    let large = Ball { diameter_m: 0.060, mass_kg: 0.19 };
    let mut first = ball(&equipment, -0.4, 0.0, Vec2::new(2.0, 0.0), Vec3::ZERO);
    first.ball = large;
    let second = ball(&equipment, 0.0, 0.0, Vec2::ZERO, Vec3::ZERO);
    let shot = play(&world, &[first, second], Some(0.5), &SteppedSettings::default()).unwrap();
    let hit = shot.contacts[0];
    let apart = hit.other.unwrap()[0].position - hit.arrival.position;
    assert!((apart.norm() - (0.060 * 2.0 * RADIUS).sqrt()).abs() < 1e-9, "{apart:?}");
    // Both balls' speeds along x from momentum and restitution.
    let share = 0.19 / (0.19 + 0.163);
    let away = 0.94 * 2.0;
    let [slow, fast] = [0, 1].map(|ball| shot.ends[ball].state.velocity.x);
    assert!((fast - (2.0 * share + away * (1.0 - 0.163 / (0.19 + 0.163)))).abs() < 2e-3, "{fast}");
    assert!((0.19 * slow + 0.163 * fast - 0.19 * 2.0).abs() < 1e-12, "{slow}, {fast}");
}

#[test]
fn a_rack_breaks_and_comes_to_rest_the_same_way_each_time() {
    let equipment = equipment();
    let world = World::new(&equipment, &[]).unwrap();
    let mut balls = vec![ball(&equipment, -0.635, 0.01, Vec2::new(6.0, 0.0), Vec3::ZERO)];
    let pitch = 2.0 * RADIUS * (1.0 + 1e-12);
    for row in 0..5 {
        for place in 0..=row {
            let x = 0.635 + f64::from(row) * 0.75_f64.sqrt() * pitch;
            let y = (f64::from(place) - 0.5 * f64::from(row)) * pitch;
            balls.push(ball(&equipment, x, y, Vec2::ZERO, Vec3::ZERO));
        }
    }
    let settings = SteppedSettings { contact_steps: 32, ..SteppedSettings::default() };
    let shot = play(&world, &balls, None, &settings).unwrap();
    let over = |ending: Ending| matches!(ending, Ending::AtRest | Ending::Dropped(_));
    assert!(shot.ends.iter().all(|end| over(end.ending)), "{:?}", shot.ends);
    assert!(shot.contacts.len() > 30, "{}", shot.contacts.len());
    for (index, start) in balls.iter().enumerate() {
        assert!(shot.path(index).len() <= MOST_SAMPLES);
        assert!(shot.path(index).windows(2).all(|pair| pair[0].time_s < pair[1].time_s));
        assert_eq!(shot.state_at(index, 0.0), Some(start.state));
        assert_eq!(shot.state_at(index, 1e9), Some(shot.ends[index].state));
    }
    assert_eq!(shot.state_at(balls.len(), 0.0), None);
    assert_eq!(play(&world, &balls, None, &settings).unwrap(), shot);
}

#[test]
fn what_cannot_be_stepped_is_refused_with_the_reason() {
    let mut equipment = equipment();
    equipment.cushion.contact_time_s = 0.4e-3;
    let start = ball(&equipment, 0.0, 0.0, Vec2::new(1.0, 0.0), Vec3::ZERO);
    let refused = |equipment: &Equipment, balls: &[ShotBall], settings: SteppedSettings| {
        let world = World::new(equipment, &[]).unwrap();
        play(&world, balls, None, &settings).unwrap_err()
    };
    let short = refused(&equipment, &[start], SteppedSettings::default());
    assert_eq!(short, SteppedError::ContactTime { what: "cushion holds", contact_time_s: 0.4e-3 });
    assert!(short.to_string().contains("0.0005 s"), "{short}");
    equipment.cushion.contact_time_s = 0.01;
    for ball_contact_time_s in [0.0, 0.1, f64::NAN] {
        let settings = SteppedSettings { ball_contact_time_s, ..SteppedSettings::default() };
        let error = refused(&equipment, &[start], settings);
        assert!(matches!(error, SteppedError::Setting { name: "ball_contact_time_s", .. }));
    }
    let twice = refused(&equipment, &[start, start], SteppedSettings::default());
    assert!(matches!(twice, SteppedError::Layout(ShotError::Overlap { .. })), "{twice:?}");
    // Any rail model is accepted: none is used.
    equipment.cushion.rail_model = RailModel::Compliant;
    let world = World::new(&equipment, &[]).unwrap();
    assert!(play(&world, &[start], Some(0.1), &SteppedSettings::default()).is_ok());
}

#[test]
fn what_nothing_slows_ends_at_the_time_limit() {
    let equipment = bare();
    let world = World::new(&equipment, &[]).unwrap();
    let settings = SteppedSettings { time_limit_s: 0.25, ..SteppedSettings::default() };
    let moving = ball(&equipment, 0.0, 0.0, Vec2::new(1.0, 0.0), Vec3::ZERO);
    let shot = play(&world, &[moving], None, &settings).unwrap();
    assert_eq!((shot.ends[0].ending, shot.ends[0].time_s), (Ending::TimeOver, 0.25));
    let spinning = ball(&equipment, 0.0, 0.0, Vec2::ZERO, Vec3::new(0.0, 0.0, 9.0));
    let shot = play(&world, &[spinning], None, &settings).unwrap();
    assert!(matches!(shot.ends[0].ending, Ending::TimeOver | Ending::Unending));
}

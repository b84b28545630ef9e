//! The stepped engine against closed forms, and its own books.

use super::*;
use crate::equipment::{Ball, BallContact, Cloth, Cue, Cushion, Equipment, Jaws, RailModel, Table};
use crate::motion::{ClothMotion, Path};
use crate::rail::Rail;
use crate::shot::{Ending, ShotBall};
use crate::vector::{Vec2, Vec3};
use crate::world::{Owner, World};

const RADIUS: f64 = 0.028_575;

fn equipment() -> Equipment {
    Equipment {
        name: "test".to_owned(),
        table: Table {
            length_m: 2.54,
            width_m: 1.27,
            sight_setback_m: 0.093_662_5,
            corner_mouth_m: 0.115_887_5,
            side_mouth_m: 0.128_587_5,
            jaws: Jaws::USUAL,
        },
        ball: Ball { diameter_m: 2.0 * RADIUS, mass_kg: 0.163 },
        cloth: Cloth {
            sliding_friction: 0.2,
            rolling_resistance: 0.0128,
            pivot_deceleration_rad_s2: 10.0,
        },
        cushion: Cushion {
            model: RailModel::Planar,
            nose_height_m: 0.635 * 2.0 * RADIUS,
            restitution: 0.85,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            friction: 0.2,
            cloth_friction: None,
            checked_speed_m_s: 2.5,
            contact_time_s: 0.01,
        },
        ball_contact: BallContact::USUAL,
        cue: Cue::USUAL,
        gravity_m_s2: 9.80665,
    }
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
    assert_eq!(shot.ends[0].ending, Ending::Stopped);
    assert!((shot.ends[0].time_s - path.rests_from_s()).abs() < 1e-8);
    for step in 0..100 {
        let time_s = f64::from(step) * 0.05;
        let off = shot.state_at(0, time_s).unwrap().position - path.state_at(time_s).position;
        assert!(off.norm() < 1e-10, "{} m at {time_s} s", off.norm());
    }
    assert!(shot.contacts.is_empty());
}

#[test]
fn a_square_bank_lasts_the_contact_time_and_gives_back_the_restitution() {
    let equipment = bare();
    let world = World::new(&equipment, &[]).unwrap();
    let start = ball(&equipment, 0.4, 0.0, Vec2::new(0.0, 2.0), Vec3::ZERO);
    for steps in [100, 200, 400] {
        let settings = SteppedSettings { contact_steps: steps, ..SteppedSettings::default() };
        let shot = play(&world, &[start], Some(0.5), &settings).unwrap();
        assert_eq!(shot.contacts.len(), 1, "{:#?}", shot.contacts);
        let hit = shot.contacts[0];
        assert_eq!(hit.with, ContactWith::Surface(Owner::Nose(Rail::Left)));
        println!(
            "{steps}: {:e} {:e} {}",
            hit.duration_s().unwrap() - 0.01,
            -hit.departure.velocity.y - 0.85 * 2.0,
            shot.steps
        );
    }
}

#[test]
fn two_balls_square() {
    let equipment = bare();
    let world = World::new(&equipment, &[]).unwrap();
    let start = ball(&equipment, -0.4, 0.0, Vec2::new(2.0, 0.0), Vec3::ZERO);
    let other = ball(&equipment, 0.0, 0.0, Vec2::ZERO, Vec3::ZERO);
    for steps in [100, 200, 400] {
        let settings = SteppedSettings { contact_steps: steps, ..SteppedSettings::default() };
        let shot = play(&world, &[start, other], Some(0.5), &settings).unwrap();
        assert_eq!(shot.contacts.len(), 1, "{:#?}", shot.contacts);
        let hit = shot.contacts[0];
        println!(
            "{steps}: {:e} {:e} {}",
            hit.duration_s().unwrap() - 0.25e-3,
            hit.other.unwrap()[1].velocity.x - 0.97 * 2.0,
            shot.steps
        );
    }
}

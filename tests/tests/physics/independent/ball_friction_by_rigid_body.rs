//! Two balls on rapier2d with its own rigid contact, against the closed form: how the solver's
//! friction has to be asked for.
//!
//! As at a wall, the solver's pass for restitution comes after friction, whose cap is then the
//! impulse that only stops the approach: μ·m·|vn|/2 for two equal balls. Coulomb's law needs
//! (1 + e) times as much.

use super::table::{MASS_KG, RADIUS_M};
use railproof_engine::equipment::BallContact;
use railproof_engine::impact::{Body, ball_ball};
use railproof_engine::vector::{Vec2, Vec3};
use rapier2d::prelude::*;

const RESTITUTION: f64 = 0.94;

struct Hit {
    /// Of each ball.
    velocity: [Vec2; 2],
    spin_z: [f64; 2],
}

/// A ball at `velocity` with side into one at rest beyond it along x, half a step short of touching.
fn by_rigid_body(velocity: Vec2, spin_z: f64, passed_friction: f64, step_s: f64) -> Hit {
    let mut world = PhysicsWorld::new();
    world.gravity = Vector::ZERO;
    world.integration_parameters.dt = step_s;
    world.integration_parameters.normalized_prediction_distance = 0.0;
    let inertia = 0.4 * MASS_KG * RADIUS_M * RADIUS_M;
    // Straight ahead of its path, so that the line of centres is x at the touch.
    let along = 2.0 * RADIUS_M + 0.5 * velocity.x * step_s;
    let starts = [
        (Vector::new(-along, -0.5 * velocity.y * step_s), velocity, spin_z),
        (Vector::ZERO, Vec2::ZERO, 0.0),
    ];
    let bodies = starts.map(|(place, velocity, spin)| {
        let body = RigidBodyBuilder::dynamic()
            .translation(place)
            .linvel(Vector::new(velocity.x, velocity.y))
            .angvel(spin)
            .additional_mass_properties(MassProperties::new(Vector::ZERO, MASS_KG, inertia))
            .can_sleep(false);
        let body = world.insert_body(body);
        let surface = ColliderBuilder::ball(RADIUS_M)
            .density(0.0)
            .friction(passed_friction)
            .restitution(RESTITUTION);
        world.insert_collider(surface, Some(body));
        body
    });
    for _ in 0..4 {
        world.step();
        if world.bodies[bodies[1]].linvel().x > 0.0 {
            let velocity = bodies.map(|body| {
                let velocity = world.bodies[body].linvel();
                Vec2::new(velocity.x, velocity.y)
            });
            return Hit { velocity, spin_z: bodies.map(|body| world.bodies[body].angvel()) };
        }
    }
    panic!("the balls never met: {velocity:?}");
}

fn closed_form(velocity: Vec2, spin_z: f64, friction: f64) -> Hit {
    let contact = BallContact::constant(RESTITUTION, friction);
    let body = Body { radius_m: RADIUS_M, mass_kg: MASS_KG };
    let before = [(velocity, Vec3::new(0.0, 0.0, spin_z)), (Vec2::ZERO, Vec3::ZERO)];
    let hit = ball_ball(&contact, Vec2::new(1.0, 0.0), [body; 2], before);
    Hit { velocity: hit.after.map(|it| it.0), spin_z: hit.after.map(|it| it.1.z) }
}

/// Speed along and across, side and friction such that the balls slip all through.
fn slipping() -> Vec<(Vec2, f64, f64)> {
    let mut cases = Vec::new();
    for across in [-1.5, 0.6, 2.0] {
        for side in [-0.5, 0.0, 0.4] {
            for friction in [0.02, 0.06, 0.11] {
                let velocity = Vec2::new(2.0, across);
                let slip: f64 = across + side;
                let most = friction * (1.0 + RESTITUTION) * velocity.x;
                if most < 0.9 * (2.0 / 7.0) * slip.abs() {
                    cases.push((velocity, side / RADIUS_M, friction));
                }
            }
        }
    }
    cases
}

#[test]
fn throw_agrees_with_the_closed_form_when_the_cap_is_made_up_for() {
    let cases = slipping();
    assert!(cases.len() > 12, "{} slip", cases.len());
    for (velocity, spin_z, friction) in cases {
        let ours = closed_form(velocity, spin_z, friction);
        let passed = friction * (1.0 + RESTITUTION);
        let off = |step_s: f64| {
            let theirs = by_rigid_body(velocity, spin_z, passed, step_s);
            let apart = (0..2).map(|ball| {
                let turn = RADIUS_M * (ours.spin_z[ball] - theirs.spin_z[ball]).abs();
                (ours.velocity[ball] - theirs.velocity[ball]).norm() + turn
            });
            apart.fold(0.0, f64::max)
        };
        // The line of centres and the lever arm are a step old.
        let (coarse, fine) = (off(1e-5), off(5e-6));
        assert!(fine < 1e-3, "{velocity:?}, {spin_z}: {fine}");
        assert!((1.8..2.2).contains(&(coarse / fine)), "{velocity:?}, {spin_z}: {coarse}, {fine}");
    }
}

/// If this fails after an upgrade, the solver no longer leaves the rebound out of the cap on friction.
#[test]
fn the_solvers_own_cap_between_balls_leaves_out_the_rebound() {
    for (velocity, spin_z, friction) in slipping() {
        let theirs = by_rigid_body(velocity, spin_z, friction, 1e-6);
        let slip = velocity.y + RADIUS_M * spin_z;
        let stop_only = 0.5 * friction * velocity.x * slip.signum();
        let thrown = theirs.velocity[1].y;
        assert!((thrown - stop_only).abs() < 1e-4, "{velocity:?}: {thrown} and {stop_only}");
        let coulomb = closed_form(velocity, spin_z, friction).velocity[1].y;
        let missing = RESTITUTION * stop_only.abs();
        assert!(((coulomb - thrown).abs() - missing).abs() < 1e-4, "{velocity:?}");
        assert!(missing > 1e-3, "{velocity:?}: too close to tell apart");
    }
}

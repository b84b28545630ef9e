//! The planar closed form against rapier2d, whose rigid contact knows nothing of it.
//!
//! Set up so that the solver can be right: all mass on the body (a collider's own density would add
//! to it), inertia (2/5)·m·R² of a sphere and not of a disc, and no contact margin (a margin makes
//! contact before the surfaces meet, and splits or loses the restitution). The solver applies
//! restitution in a pass of its own after friction, so it caps friction by μ times the impulse that
//! only stops the ball, μ·m·|vn|; Coulomb's law needs μ·m·(1 + e)·|vn|, so μ·(1 + e) is passed.
//! The remaining error is of first order in the step: the lever arm of friction ends half-way into the
//! overlap.

use super::table::{MASS_KG, RADIUS_M};
use railproof_engine::impact::{Bounce, CushionContact, planar};
use railproof_engine::vector::{Vec2, Vec3};
use rapier2d::prelude::*;

/// Velocity and spin about z after one impact; y is into the cushion.
#[derive(Debug, Clone, Copy)]
struct Planar {
    velocity: Vec2,
    spin_z: f64,
}

/// Steps a ball that begins half a step short of touching the line y = 0 until it has bounced.
fn by_rigid_body(before: Planar, restitution: f64, passed_friction: f64, step_s: f64) -> Planar {
    let mut world = PhysicsWorld::new();
    world.gravity = Vector::ZERO;
    world.integration_parameters.dt = step_s;
    world.integration_parameters.normalized_prediction_distance = 0.0;
    let (v, short_m) = (before.velocity, 0.5 * before.velocity.y * step_s);
    let inertia = 0.4 * MASS_KG * RADIUS_M * RADIUS_M;
    let body = RigidBodyBuilder::dynamic()
        .translation(Vector::new(0.0, -RADIUS_M - short_m))
        .linvel(Vector::new(v.x, v.y))
        .angvel(before.spin_z)
        .additional_mass_properties(MassProperties::new(Vector::ZERO, MASS_KG, inertia))
        .can_sleep(false);
    let ball = world.insert_body(body);
    let material = |builder: ColliderBuilder| {
        builder.density(0.0).friction(passed_friction).restitution(restitution)
    };
    world.insert_collider(material(ColliderBuilder::ball(RADIUS_M)), Some(ball));
    let wall = ColliderBuilder::new(SharedShape::halfspace(Vector::new(0.0, -1.0)));
    world.insert_collider(material(wall), None);
    for _ in 0..4 {
        world.step();
        let body = &world.bodies[ball];
        if body.linvel().y <= 0.0 {
            return Planar {
                velocity: Vec2::new(body.linvel().x, body.linvel().y),
                spin_z: body.angvel(),
            };
        }
    }
    panic!("the ball never bounced: {before:?}");
}

struct Case {
    name: String,
    before: Planar,
    restitution: f64,
    friction: f64,
}

impl Case {
    fn slip(&self) -> f64 {
        self.before.velocity.x - RADIUS_M * self.before.spin_z
    }

    /// Friction's impulse while slipping over the impulse that would stop slip.
    fn grip(&self) -> f64 {
        let normal = (1.0 + self.restitution) * self.before.velocity.y;
        self.friction * normal / (2.0 / 7.0 * self.slip().abs())
    }

    fn closed_form(&self) -> Planar {
        let contact = CushionContact {
            radius_m: RADIUS_M,
            sin_theta: 0.0,
            cos_theta: 1.0,
            nose_friction: self.friction,
            impact_cloth_friction: 0.0,
            restitution: self.restitution,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            checked_speed_m_s: 50.0,
        };
        let spin = Vec3::new(0.0, 0.0, self.before.spin_z);
        let after = planar(&contact, Bounce { velocity: self.before.velocity, spin });
        Planar { velocity: after.velocity, spin_z: after.spin.z }
    }

    fn stepped(&self, step_s: f64) -> Planar {
        let passed = self.friction * (1.0 + self.restitution);
        by_rigid_body(self.before, self.restitution, passed, step_s)
    }
}

/// Incidence from the normal, restitution, friction and side, at 2 m/s.
fn cases() -> Vec<Case> {
    let mut cases = Vec::new();
    for degrees in [-75.0_f64, -40.0, 10.0, 30.0, 45.0, 60.0, 80.0] {
        for restitution in [0.4, 0.85, 1.0] {
            for friction in [0.05, 0.15, 0.4] {
                for side in [-1.5, 0.0, 0.8] {
                    let (sin, cos) = degrees.to_radians().sin_cos();
                    let velocity = Vec2::new(2.0 * sin, 2.0 * cos);
                    cases.push(Case {
                        name: format!("{degrees}°, e {restitution}, μ {friction}, side {side}"),
                        before: Planar { velocity, spin_z: side / RADIUS_M },
                        restitution,
                        friction,
                    });
                }
            }
        }
    }
    cases
}

#[test]
fn speeds_agree_to_rounding_where_the_ball_slips_throughout() {
    let mut slipping = 0;
    for case in cases() {
        let (ours, theirs) = (case.closed_form(), case.stepped(1e-4));
        let normal = ours.velocity.y - theirs.velocity.y;
        assert!(normal.abs() < 1e-12, "{}: vn off by {normal}", case.name);
        if case.grip() < 0.95 {
            slipping += 1;
            let along = ours.velocity.x - theirs.velocity.x;
            assert!(along.abs() < 1e-12, "{}: vt off by {along}", case.name);
        }
    }
    assert!(slipping > 60, "{slipping} of the table slip");
}

#[test]
fn spin_and_sticking_speed_converge_in_proportion_to_the_step() {
    let (mut sticking, mut spinning) = (0, 0);
    for case in cases() {
        // Close to the limit between slip and stick a step can fall on either side of it.
        if (0.95..1.05).contains(&case.grip()) {
            continue;
        }
        let ours = case.closed_form();
        let errors = |step_s: f64| {
            let theirs = case.stepped(step_s);
            let spin = RADIUS_M * (theirs.spin_z - ours.spin_z);
            (theirs.velocity.x - ours.velocity.x, spin)
        };
        let (coarse, fine) = (errors(1e-4), errors(5e-5));
        let ratio_is_two = |coarse: f64, fine: f64, what: &str| {
            let ratio = coarse / fine;
            assert!((1.95..2.05).contains(&ratio), "{}: {what} {coarse} to {fine}", case.name);
        };
        spinning += 1;
        ratio_is_two(coarse.1, fine.1, "spin");
        // The lever arm is short by a quarter of vn·step, so the spin by that share of its change.
        assert!(fine.1.abs() < 3e-3, "{}: spin off by {}", case.name, fine.1);
        if case.grip() > 1.05 {
            sticking += 1;
            ratio_is_two(coarse.0, fine.0, "vt");
            assert!(fine.0.abs() < 3e-3, "{}: vt off by {}", case.name, fine.0);
        }
    }
    assert!(sticking > 60 && spinning > 150, "{sticking} stick of {spinning}");
}

/// If this fails after an upgrade, the solver no longer caps friction by μ·m·|vn|, and the factor
/// (1 + e) in these tests is wrong.
#[test]
fn the_solvers_own_friction_cap_leaves_out_the_rebound() {
    let mut seen = 0;
    for case in cases().into_iter().filter(|case| case.grip() < 0.95) {
        seen += 1;
        let theirs = by_rigid_body(case.before, case.restitution, case.friction, 1e-4);
        let stop_only = case.friction * case.before.velocity.y * case.slip().signum();
        let expected = case.before.velocity.x - stop_only;
        assert!((theirs.velocity.x - expected).abs() < 1e-12, "{}", case.name);
        let coulomb = case.closed_form().velocity.x;
        let missing = case.restitution * stop_only.abs();
        assert!(((theirs.velocity.x - coulomb).abs() - missing).abs() < 1e-12, "{}", case.name);
        assert!(missing > 1e-3, "{}: too close to tell apart", case.name);
    }
    assert!(seen > 60, "{seen} of the table slip");
}

//! The shot stepped on rapier2d as one would set it up: a ball, a wall, and the cloth's friction as
//! a force on every step.
//!
//! The solver has no spin about level axes, so those are kept beside it. Its restitution pass comes
//! after friction, whose cap leaves the rebound out; μ·(1 + e) gives Coulomb's law.

use crate::shot::{Arrival, Shot};
use railproof_engine::vector::Vec2;
use rapier2d::prelude::*;

/// Steps the shot; `None` when it has not arrived after 20 s.
pub fn rigid_body(shot: &Shot, step_s: f64) -> Option<Arrival> {
    let radius = shot.cloth.radius_m;
    let inertia = 0.4 * shot.mass_kg * radius * radius;
    let mut world = PhysicsWorld::new();
    world.gravity = Vector::ZERO;
    world.integration_parameters.dt = step_s;
    world.integration_parameters.normalized_prediction_distance = 0.0;
    let (p, v) = (shot.start.position, shot.start.velocity);
    let body = RigidBodyBuilder::dynamic()
        .translation(Vector::new(p.x, p.y))
        .linvel(Vector::new(v.x, v.y))
        .angvel(shot.start.spin.z)
        .additional_mass_properties(MassProperties::new(Vector::ZERO, shot.mass_kg, inertia))
        .can_sleep(false);
    let ball = world.insert_body(body);
    let material = |builder: ColliderBuilder| {
        builder
            .density(0.0)
            .friction(shot.friction * (1.0 + shot.restitution))
            .restitution(shot.restitution)
    };
    world.insert_collider(material(ColliderBuilder::ball(radius)), Some(ball));
    let wall = ColliderBuilder::cuboid(10.0, 0.1).translation(Vector::new(0.0, radius + 0.1));
    world.insert_collider(material(wall), None);

    let (mut wx, mut wy, mut time_s) = (shot.start.spin.x, shot.start.spin.y, 0.0);
    while time_s < 20.0 {
        let body = &mut world.bodies[ball];
        let (from, velocity) = (body.translation(), body.linvel());
        let slip = velocity + Vector::new(-radius * wy, radius * wx);
        let slide = shot.cloth.sliding_deceleration_m_s2;
        // Slip falls at (7/2)·μs·g; in the step that would turn it round it is brought to 0.
        let (acceleration, slides) = if slip.length() > 3.5 * slide * step_s {
            (slip.normalize() * -slide, true)
        } else {
            let roll = shot.cloth.rolling_deceleration_m_s2;
            (slip * (-2.0 / 7.0 / step_s) - velocity.normalize_or_zero() * roll, false)
        };
        body.reset_forces(true);
        body.add_force(acceleration * shot.mass_kg, true);
        world.step();
        time_s += step_s;
        let body = &world.bodies[ball];
        let (to, velocity) = (body.translation(), body.linvel());
        if slides {
            wx += 2.5 * acceleration.y * step_s / radius;
            wy -= 2.5 * acceleration.x * step_s / radius;
        } else {
            (wx, wy) = (-velocity.y / radius, velocity.x / radius);
        }
        if to.y <= -shot.back_m && velocity.y < 0.0 {
            let share = (from.y + shot.back_m) / (from.y - to.y);
            return Some(Arrival {
                time_s: time_s - step_s * (1.0 - share),
                x_m: from.x + share * (to.x - from.x),
                velocity: Vec2::new(velocity.x, velocity.y),
            });
        }
    }
    None
}

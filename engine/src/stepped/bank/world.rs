//! One ball and one cushion in a world of the rigid-body solver.

use crate::equipment::Equipment;
use crate::motion::BallState;
use crate::stepped::Softness;
use crate::stepped::cloth::ClothPush;
use crate::stepped::solver::{ball_body, faithful_world};
use crate::vector::{Vec2, Vec3};
use rapier2d::prelude::*;

/// The ball is put this far into the cushion at first touch, m, so that the solver sees a contact
/// and not a gap of rounding.
const TOUCH_M: f64 = 1e-12;

/// Keeps the point of contact on the ball's surface; the solver would put it half-way into the
/// overlap and so shorten the lever arm of friction.
struct EquatorContact {
    radius_m: f64,
}

impl PhysicsHooks for EquatorContact {
    fn modify_solver_contacts(&self, context: &mut ContactModificationContext) {
        let bodies = context.bodies;
        let Some(ball) = context.rigid_body1.or(context.rigid_body2).and_then(|it| bodies.get(it))
        else {
            return;
        };
        let surface = ball.translation() + Vector::new(0.0, self.radius_m);
        if let Some(manifold) = context.rigid_mut() {
            for contact in manifold.solver_contacts.iter_mut() {
                let shift = surface - (contact.anchor1 + contact.anchor2) * 0.5;
                contact.anchor1 += shift;
                contact.anchor2 += shift;
            }
        }
    }
}

/// The stepped world. The solver has position, velocity and spin about the vertical; spin about
/// the level axes is kept here beside it.
pub(super) struct BallWorld {
    world: PhysicsWorld,
    ball: RigidBodyHandle,
    ball_surface: ColliderHandle,
    cushion: Option<ColliderHandle>,
    contact: EquatorContact,
    level_spin: Vec2,
    mass_kg: f64,
    inertia_kg_m2: f64,
}

impl BallWorld {
    /// A ball in the state `start`, and a cushion that it touches when its centre is at `groove_y_m`.
    pub(super) fn new(equipment: &Equipment, start: &BallState, groove_y_m: f64) -> Self {
        let (radius_m, mass_kg) = (equipment.ball.radius_m(), equipment.ball.mass_kg);
        let inertia_kg_m2 = 0.4 * mass_kg * radius_m * radius_m;
        let mut world = faithful_world();
        let body = ball_body(start, mass_kg, radius_m);
        let ball = world.insert_body(body);
        let friction = equipment.cushion.nose_friction;
        let surface = ColliderBuilder::ball(radius_m)
            .density(0.0)
            .friction(friction)
            .restitution(0.0)
            .active_hooks(ActiveHooks::MODIFY_SOLVER_CONTACTS);
        let ball_surface = world.insert_collider(surface, Some(ball));
        let nose = ColliderBuilder::new(SharedShape::halfspace(Vector::new(0.0, -1.0)))
            .translation(Vector::new(0.0, groove_y_m + radius_m))
            .friction(friction)
            .restitution(0.0);
        let cushion = Some(world.insert_collider(nose, None));
        Self {
            world,
            ball,
            ball_surface,
            cushion,
            contact: EquatorContact { radius_m },
            level_spin: Vec2::new(start.spin.x, start.spin.y),
            mass_kg,
            inertia_kg_m2,
        }
    }

    /// The ball now.
    pub(super) fn state(&self) -> BallState {
        let body = &self.world.bodies[self.ball];
        let (position, velocity) = (body.translation(), body.linvel());
        BallState {
            position: Vec2::new(position.x, position.y),
            velocity: Vec2::new(velocity.x, velocity.y),
            spin: Vec3::new(self.level_spin.x, self.level_spin.y, body.angvel()),
        }
    }

    /// Steps by `step_s` under the cloth's push and returns the cushion's impulse, N·s.
    ///
    /// Half of the push enters as a force on the solver's step and half as an impulse after it
    /// (the velocity form of Verlet's rule): the solver alone moves a ball with the velocity at the
    /// step's end, which would cost ½·acceleration·step of distance each second.
    pub(super) fn advance(&mut self, push: &ClothPush, step_s: f64) -> f64 {
        self.world.integration_parameters.dt = step_s;
        let half = Vector::new(push.velocity.x, push.velocity.y) * (0.5 * self.mass_kg);
        let body = &mut self.world.bodies[self.ball];
        body.reset_forces(true);
        body.reset_torques(true);
        body.add_force(half / step_s, true);
        body.add_torque(self.inertia_kg_m2 * push.spin_z / step_s, true);
        self.world.step_with_events(&self.contact, &());
        self.world.bodies[self.ball].apply_impulse(half, true);
        self.level_spin += push.level_spin;
        self.cushion
            .and_then(|cushion| self.world.contact_pair(cushion, self.ball_surface))
            .map_or(0.0, ContactPair::total_impulse_magnitude)
    }

    /// Puts the ball at first touch, at most rounding away from where it is, and gives the contact
    /// its softness.
    pub(super) fn begin_contact(&mut self, groove_y_m: f64, softness: &Softness, step_s: f64) {
        let x = self.world.bodies[self.ball].translation().x;
        self.world.bodies[self.ball].set_translation(Vector::new(x, groove_y_m + TOUCH_M), true);
        let coefficients = softness.for_step(step_s);
        self.world.integration_parameters.contact_softness = coefficients;
        self.world.integration_parameters.static_contact_softness = coefficients;
    }

    /// Takes the cushion away: once the ball has left, the cushion recovers behind it.
    pub(super) fn end_contact(&mut self) {
        if let Some(cushion) = self.cushion.take() {
            self.world.remove_collider(cushion);
        }
    }

    /// Lets the centre rest where it is.
    pub(super) fn stop(&mut self) {
        self.world.bodies[self.ball].set_linvel(Vector::ZERO, true);
        self.level_spin = Vec2::ZERO;
    }
}

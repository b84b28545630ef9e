//! The balls as bodies of the rigid-body solver.

use crate::motion::BallState;
use crate::shot::{ShotBall, touching_m};
use crate::stepped::Softness;
use crate::stepped::solver::{ball_body, faithful_world};
use crate::vector::Vec2;
use rapier2d::prelude::*;

/// Which balls may push each other and with what friction, told to the solver at every step.
struct PairContacts {
    count: usize,
    /// Friction of each pair in contact; `count` to a row.
    friction: Vec<Option<f64>>,
    /// Distance at which the pair touches, m, where it is not the sum of the radii.
    unlike_m: Vec<Option<f64>>,
}

impl PhysicsHooks for PairContacts {
    fn modify_solver_contacts(&self, context: &mut ContactModificationContext) {
        let place = |handle: ColliderHandle| {
            context.colliders.get(handle).and_then(|it| usize::try_from(it.user_data).ok())
        };
        let (Some(one), Some(other)) = (place(context.collider1), place(context.collider2)) else {
            return;
        };
        let slot = one.min(other) * self.count + one.max(other);
        let apart = [context.rigid_body1, context.rigid_body2]
            .map(|it| it.and_then(|it| context.bodies.get(it)).map(RigidBody::translation));
        let Some(manifold) = context.rigid_mut() else { return };
        let Some(friction) = self.friction.get(slot).copied().flatten() else {
            manifold.solver_contacts.clear();
            return;
        };
        *manifold.friction = friction;
        if let ([Some(one), Some(other)], Some(touching_m)) = (apart, self.unlike_m[slot]) {
            let gap_m = (other - one).length() - touching_m;
            for contact in manifold.solver_contacts.iter_mut() {
                contact.dist = gap_m;
            }
        }
    }
}

/// The balls in the solver. It has place, velocity and spin about the vertical.
pub(super) struct SolverBalls {
    world: PhysicsWorld,
    bodies: Vec<(RigidBodyHandle, ColliderHandle)>,
    contacts: PairContacts,
    softness: Softness,
}

impl SolverBalls {
    pub(super) fn new(balls: &[ShotBall], softness: Softness) -> Self {
        let mut world = faithful_world();
        let mut bodies = Vec::with_capacity(balls.len());
        for (place, start) in balls.iter().enumerate() {
            let (radius_m, mass_kg) = (start.ball.radius_m(), start.ball.mass_kg);
            let body = world.insert_body(ball_body(&start.state, mass_kg, radius_m));
            let surface = ColliderBuilder::ball(radius_m)
                .density(0.0)
                .restitution(0.0)
                .user_data(place as u128)
                .active_hooks(ActiveHooks::MODIFY_SOLVER_CONTACTS);
            bodies.push((body, world.insert_collider(surface, Some(body))));
        }
        let count = balls.len();
        let mut unlike_m = vec![None; count * count];
        for one in 0..count {
            for other in one + 1..count {
                let (a, b) = (&balls[one].ball, &balls[other].ball);
                if a.diameter_m != b.diameter_m {
                    unlike_m[one * count + other] = Some(touching_m(a, b));
                }
            }
        }
        let contacts = PairContacts { count, friction: vec![None; count * count], unlike_m };
        Self { world, bodies, contacts, softness }
    }

    /// Lets no balls push each other.
    pub(super) fn part_all(&mut self) {
        self.contacts.friction.fill(None);
    }

    /// Lets two balls push each other, the lower place first.
    pub(super) fn join(&mut self, [one, other]: [usize; 2], friction: f64) {
        let slot = one * self.contacts.count + other;
        self.contacts.friction[slot] = Some(friction);
    }

    fn is_joined(&self, [one, other]: [usize; 2]) -> bool {
        self.contacts.friction[one * self.contacts.count + other].is_some()
    }

    /// Steps the balls that are still on the table; their states come back moved.
    pub(super) fn step(&mut self, states: &mut [BallState], on_table: &[bool], step_s: f64) {
        let parameters = &mut self.world.integration_parameters;
        parameters.dt = step_s;
        let coefficients = self.softness.for_step(step_s);
        parameters.contact_softness = coefficients;
        parameters.static_contact_softness = coefficients;
        for (place, state) in states.iter().enumerate().filter(|(place, _)| on_table[*place]) {
            let body = &mut self.world.bodies[self.bodies[place].0];
            body.set_linvel(Vector::new(state.velocity.x, state.velocity.y), true);
            body.set_angvel(state.spin.z, true);
        }
        self.world.step_with_events(&self.contacts, &());
        for (place, state) in states.iter_mut().enumerate().filter(|(place, _)| on_table[*place]) {
            let body = &self.world.bodies[self.bodies[place].0];
            let (position, velocity) = (body.translation(), body.linvel());
            state.position = Vec2::new(position.x, position.y);
            state.velocity = Vec2::new(velocity.x, velocity.y);
            state.spin.z = body.angvel();
        }
    }

    /// The normal impulse between two balls in the last step, N·s.
    pub(super) fn impulse_n_s(&self, [one, other]: [usize; 2]) -> f64 {
        // The solver keeps the last impulse of a contact that it was not given.
        if !self.is_joined([one, other]) {
            return 0.0;
        }
        self.world
            .contact_pair(self.bodies[one].1, self.bodies[other].1)
            .map_or(0.0, ContactPair::total_impulse_magnitude)
    }

    /// Takes a ball off the table.
    pub(super) fn remove(&mut self, place: usize) {
        self.world.remove_body(self.bodies[place].0);
    }
}

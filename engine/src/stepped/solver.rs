//! The rigid-body solver, set so that a soft contact is the spring and damper that was asked for, and
//! a ball as a body of it. Everything that steps balls starts here.

use crate::motion::BallState;
use rapier2d::prelude::*;

/// An empty world whose contacts are solved once a step, softly, and only where surfaces overlap;
/// what each setting is for stands in [the module](super).
pub(super) fn faithful_world() -> PhysicsWorld {
    let mut world = PhysicsWorld::new();
    world.gravity = Vector::ZERO;
    let parameters = &mut world.integration_parameters;
    parameters.num_solver_iterations = 1;
    parameters.num_internal_pgs_iterations = 1;
    // No relaxing pass: it would solve the contact as rigid.
    parameters.num_internal_stabilization_iterations = 0;
    parameters.warmstart_coefficient = 0.0;
    parameters.normalized_prediction_distance = 0.0;
    parameters.normalized_max_corrective_velocity = Real::MAX;
    parameters.normalized_max_linear_velocity = Real::MAX;
    parameters.max_ccd_substeps = 0;
    parameters.contact_recycling = false;
    world
}

/// A uniform solid ball: its inertia is a sphere's and not a disc's. Spin about the level axes is
/// not the solver's.
pub(super) fn ball_body(state: &BallState, mass_kg: f64, radius_m: f64) -> RigidBodyBuilder {
    let inertia_kg_m2 = 0.4 * mass_kg * radius_m * radius_m;
    RigidBodyBuilder::dynamic()
        .translation(Vector::new(state.position.x, state.position.y))
        .linvel(Vector::new(state.velocity.x, state.velocity.y))
        .angvel(state.spin.z)
        .additional_mass_properties(MassProperties::new(Vector::ZERO, mass_kg, inertia_kg_m2))
        .allow_fast_rotation(true)
        .can_sleep(false)
}

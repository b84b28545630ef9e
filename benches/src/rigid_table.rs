//! A whole shot stepped on rapier2d as one would set it up: balls, walls, and the cloth's friction as a
//! force on every step, all at one step length.
//!
//! Each ball has two surfaces: one at its radius for other balls, one at the groove's distance for noses
//! and jaws. The solver has no spin about level axes, so those are kept beside it and balls do not
//! carry them over to each other. μ·(1 + e) makes up for the solver's cap on friction.

use railproof_engine::motion::{BallState, ClothMotion};
use railproof_engine::rail::Pocket;
use railproof_engine::shot::ShotBall;
use railproof_engine::vector::Vec2;
use railproof_engine::world::World;
use rapier2d::prelude::*;

/// The end of a ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidEnd {
    /// When it fell, or the end, s.
    pub time_s: f64,
    /// Its state then.
    pub state: BallState,
    /// Where it fell.
    pub pocket: Option<Pocket>,
}

/// One ball in the solver, and its spin beside it.
struct Ball {
    body: RigidBodyHandle,
    wx: f64,
    wy: f64,
    end: Option<RigidEnd>,
}

/// Steps a shot of the equipment's own balls until a time. The walls' restitution is that at speed 0,
/// friction between balls that at a slip of 1 m/s.
pub fn rigid_table(world: &World, balls: &[ShotBall], step_s: f64, until_s: f64) -> Vec<RigidEnd> {
    let equipment = world.equipment();
    let cloth = ClothMotion::new(equipment);
    let (mut solver, mut players) = set_up(world, balls, step_s);
    let mut time_s = 0.0;
    while time_s < until_s {
        for player in players.iter_mut().filter(|player| player.end.is_none()) {
            let body = &mut solver.bodies[player.body];
            push(body, player, &cloth, equipment.ball.mass_kg, step_s);
        }
        solver.step();
        time_s += step_s;
        for player in players.iter_mut().filter(|player| player.end.is_none()) {
            let state = state_of(&solver.bodies[player.body], player);
            let fallen = world
                .pockets()
                .iter()
                .find(|pocket| pocket.drop.normal.dot(state.position) >= pocket.drop.offset_m);
            if let Some(pocket) = fallen {
                player.end = Some(RigidEnd { time_s, state, pocket: Some(pocket.pocket) });
                solver.remove_body(player.body);
            }
        }
    }
    players
        .iter()
        .map(|player| {
            player.end.unwrap_or_else(|| RigidEnd {
                time_s,
                state: state_of(&solver.bodies[player.body], player),
                pocket: None,
            })
        })
        .collect()
}

fn set_up(world: &World, balls: &[ShotBall], step_s: f64) -> (PhysicsWorld, Vec<Ball>) {
    let equipment = world.equipment();
    let (radius, mass) = (equipment.ball.radius_m(), equipment.ball.mass_kg);
    let mut solver = PhysicsWorld::new();
    solver.gravity = Vector::ZERO;
    solver.integration_parameters.dt = step_s;
    solver.integration_parameters.normalized_prediction_distance = 0.0;
    let groups = |member, other| InteractionGroups::new(member, other, InteractionTestMode::And);
    let (among, walls, at_walls) = (Group::GROUP_1, Group::GROUP_2, Group::GROUP_3);
    let surface = |shape: SharedShape, restitution: f64, friction: f64| {
        ColliderBuilder::new(shape)
            .density(0.0)
            .restitution(restitution)
            .friction(friction * (1.0 + restitution))
    };
    let cushion = &equipment.cushion;
    let at_wall = |shape| surface(shape, cushion.restitution, cushion.nose_friction);
    for solid in world.solid().shapes() {
        let wall = at_wall(solid.shape.clone()).position(solid.pose);
        solver.insert_collider(wall.collision_groups(groups(walls, at_walls)), None);
    }
    let contact = &equipment.ball_contact;
    let inertia = 0.4 * mass * radius * radius;
    let players = balls.iter().map(|ball| {
        let (p, v, w) = (ball.state.position, ball.state.velocity, ball.state.spin);
        let body = RigidBodyBuilder::dynamic()
            .translation(Vector::new(p.x, p.y))
            .linvel(Vector::new(v.x, v.y))
            .angvel(w.z)
            .additional_mass_properties(MassProperties::new(Vector::ZERO, mass, inertia))
            .can_sleep(false);
        let body = solver.insert_body(body);
        let outer = surface(SharedShape::ball(radius), contact.restitution, contact.friction_at_1);
        solver.insert_collider(outer.collision_groups(groups(among, among)), Some(body));
        let inner = at_wall(SharedShape::ball(equipment.groove_m()));
        solver.insert_collider(inner.collision_groups(groups(at_walls, walls)), Some(body));
        Ball { body, wx: w.x, wy: w.y, end: None }
    });
    let players = players.collect();
    (solver, players)
}

fn state_of(body: &RigidBody, ball: &Ball) -> BallState {
    let (position, velocity) = (body.translation(), body.linvel());
    BallState {
        position: Vec2::new(position.x, position.y),
        velocity: Vec2::new(velocity.x, velocity.y),
        spin: railproof_engine::vector::Vec3::new(ball.wx, ball.wy, body.angvel()),
    }
}

/// The cloth's force over the step.
fn push(body: &mut RigidBody, ball: &mut Ball, cloth: &ClothMotion, mass: f64, step_s: f64) {
    let radius = cloth.radius_m;
    let velocity = body.linvel();
    let slip = velocity + Vector::new(-radius * ball.wy, radius * ball.wx);
    let slide = cloth.sliding_deceleration_m_s2;
    let slides = slip.length() > 3.5 * slide * step_s;
    let acceleration = if slides {
        slip.normalize() * -slide
    } else {
        let roll = (cloth.rolling_deceleration_m_s2 * step_s).min(velocity.length()) / step_s;
        slip * (-2.0 / 7.0 / step_s) - velocity.normalize_or_zero() * roll
    };
    let after = velocity + acceleration * step_s;
    if slides {
        ball.wx += 2.5 * acceleration.y * step_s / radius;
        ball.wy -= 2.5 * acceleration.x * step_s / radius;
    } else {
        (ball.wx, ball.wy) = (-after.y / radius, after.x / radius);
    }
    let fade = (cloth.pivot_deceleration_rad_s2 * step_s).min(body.angvel().abs());
    body.set_angvel(body.angvel() - fade * body.angvel().signum(), true);
    body.reset_forces(true);
    body.add_force(acceleration * mass, true);
}

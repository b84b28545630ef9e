//! Shots among things laid on the table: boxes against rails, in corners, against each other, and balls
//! whose spin holds them there.

use crate::strategies::{DEFAULT_CASES, cases, nine_foot};
use proptest::prelude::*;
use railproof_engine::equipment::Equipment;
use railproof_engine::motion::BallState;
use railproof_engine::rail::Pocket;
use railproof_engine::shot::{Ending, EventKind, LEAST_PARTING_M_S, Shot, ShotBall, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Meeting, Obstacle, World};

/// The distance past a surface at which rounding may leave a centre, m.
const ROUNDING_M: f64 = 1e-9;

fn equipment() -> impl Strategy<Value = Equipment> {
    (nine_foot(&[0.0, 0.005, 0.015]), 0.3..1.0_f64).prop_map(|(mut equipment, restitution)| {
        let cushion = &mut equipment.cushion;
        cushion.restitution = restitution;
        cushion.restitution_floor = cushion.restitution_floor.min(restitution);
        equipment
    })
}

/// A box, and what it is laid against: nothing, a rail, or the neighbourhood of a corner.
fn obstacle() -> impl Strategy<Value = Obstacle> {
    let place = prop_oneof![
        (-1.2..1.2f64, -0.6..0.6f64),
        (-1.2..1.2f64, prop::sample::select(vec![-0.6, 0.6, 0.58, -0.62])),
        (prop::sample::select(vec![-1.25, 1.22]), -0.6..0.6f64),
        (1.0..1.15f64, 0.45..0.6f64),
        (0.0..0.25f64, 0.0..0.25f64),
    ];
    let turned = prop_oneof![
        Just(0.0),
        Just(core::f64::consts::FRAC_PI_2),
        -core::f64::consts::PI..core::f64::consts::PI
    ];
    (place, 0.03..0.4f64, 0.02..0.1f64, turned, 0.0..1.0f64, 0.0..0.5f64).prop_map(
        |((x, y), length_m, width_m, turned, restitution, friction)| Obstacle {
            restitution,
            friction,
            ..Obstacle::rectangle("box", Vec2::new(x, y), length_m, width_m, turned)
        },
    )
}

fn state() -> impl Strategy<Value = BallState> {
    let place = prop_oneof![
        (-1.24..1.24f64, -0.6..0.6f64),
        (-1.2..1.2f64, prop::sample::select(vec![-0.607, 0.607])),
        (1.0..1.2f64, 0.5..0.607f64),
        (-0.1..0.35f64, -0.1..0.35f64),
    ];
    let velocity =
        prop_oneof![Just((0.0, 0.0)), (-5.0..5.0f64, -5.0..5.0f64), (-0.4..0.4f64, -0.4..0.4f64)];
    (place, velocity, (-150.0..150.0f64, -150.0..150.0f64, -150.0..150.0f64)).prop_map(
        |((x, y), (vx, vy), (wx, wy, wz))| BallState {
            position: Vec2::new(x, y),
            velocity: Vec2::new(vx, vy),
            spin: Vec3::new(wx, wy, wz),
        },
    )
}

/// The balls of a draw that can lie together on this table.
fn apart(world: &World, drawn: &[BallState]) -> Vec<ShotBall> {
    let diameter = world.equipment().ball.diameter_m;
    let mut kept: Vec<ShotBall> = Vec::new();
    for state in drawn {
        let clear = |other: &ShotBall| (other.state.position - state.position).norm() > diameter;
        if world.grown().obstructed(state.position).is_none() && kept.iter().all(clear) {
            kept.push(ShotBall::of(world.equipment(), *state));
        }
    }
    kept
}

/// The distance of a ball past a surface, m; 0 for one that is clear of all.
fn past_m(world: &World, place: Vec2) -> f64 {
    match world.grown().obstructed(place) {
        Some((past_m, Meeting::Touch(_))) => past_m,
        _ => 0.0,
    }
}

/// A ball that drops does so within its pocket's mouth.
fn drops_in(world: &World, pocket: Pocket, place: Vec2) -> bool {
    let drop = world.pocket(pocket).drop;
    (place - drop.middle).norm() <= drop.half_width_m + ROUNDING_M
}

fn holds_up(world: &World, balls: &[ShotBall], shot: &Shot) -> Result<(), TestCaseError> {
    let radius = world.equipment().ball.radius_m();
    for end in &shot.ends {
        prop_assert!(matches!(end.ending, Ending::AtRest | Ending::Dropped(_)), "{:?}", end);
        prop_assert!(past_m(world, end.state.position) <= ROUNDING_M, "rests inside: {:?}", end);
    }
    let mut last_s = 0.0;
    for event in &shot.events {
        prop_assert!(event.time_s >= last_s, "{} after {}", event.time_s, last_s);
        last_s = event.time_s;
        let (mut was, mut is, mut added) =
            (event.before.energy_per_mass(radius), event.after.energy_per_mass(radius), 0.0);
        let mut places = vec![event.before.position, event.after.position];
        if let EventKind::Ball(touch) = event.kind {
            was += touch.other_before.energy_per_mass(radius);
            is += touch.other_after.energy_per_mass(radius);
            added = 0.25 * LEAST_PARTING_M_S * LEAST_PARTING_M_S;
            places.extend([touch.other_before.position, touch.other_after.position]);
        }
        prop_assert!(is <= was * (1.0 + 1e-9) + added + 1e-15, "{:?}: {} to {}", event, was, is);
        for place in places {
            let past = past_m(world, place);
            prop_assert!(past <= ROUNDING_M, "{} m inside at {:?}", past, event);
        }
        if let EventKind::Drop(pocket) = event.kind {
            prop_assert!(drops_in(world, pocket, event.after.position), "{:?}", event);
        }
    }
    for ball in 0..balls.len() {
        let mut energy = f64::INFINITY;
        let end = shot.ends[ball];
        for step in 0..=200 {
            let time_s = end.time_s * f64::from(step) / 200.0;
            let state = shot.state_at(ball, time_s).expect("it is in the shot");
            let past = past_m(world, state.position);
            prop_assert!(past <= ROUNDING_M, "{} m inside at {} s: {:?}", past, time_s, state);
            if balls.len() == 1 {
                // While a contact lasts, the velocity along it is all that shows.
                let is = state.energy_per_mass(radius);
                let lasts = world.equipment().cushion.contact_time_s > 0.0;
                prop_assert!(lasts || is <= energy * (1.0 + 1e-6) + 1e-9, "{} to {}", energy, is);
                energy = is;
            }
        }
    }
    Ok(())
}

/// Four times the usual number of cases, or what `RAILPROOF_CASES` says.
fn shots() -> ProptestConfig {
    let config = cases(1);
    let usual = std::env::var_os("RAILPROOF_CASES").is_none();
    ProptestConfig { cases: if usual { 4 * DEFAULT_CASES } else { config.cases }, ..config }
}

proptest! {
    #![proptest_config(shots())]

    #[test]
    fn among_obstacles_every_shot_ends_and_nothing_is_ever_inside_anything(
        equipment in equipment(),
        obstacles in prop::collection::vec(obstacle(), 0..4),
        drawn in prop_oneof![4 => prop::collection::vec(state(), 1..2), 1 => prop::collection::vec(state(), 2..5)],
    ) {
        // A box over a pocket can't be laid.
        let Ok(world) = World::new(&equipment, &obstacles) else { return Ok(()) };
        let balls = apart(&world, &drawn);
        if balls.is_empty() {
            return Ok(());
        }
        let shot = play(&world, &balls, None).unwrap_or_else(|error| panic!("{error}"));
        holds_up(&world, &balls, &shot)?;
    }
}

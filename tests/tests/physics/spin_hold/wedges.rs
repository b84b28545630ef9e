//! A ball in a wedge of rail and box.

use super::{driven_towards, nine_foot, played, sound};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::motion::BallState;
use railproof_engine::shot::Ending;
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Obstacle, World};

/// Where the box's side meets the left rail's nose, m: far from pockets.
const MEETS_X_M: f64 = -0.2;

/// A wedge that opens towards the head: the left rail above, a box's side below.
struct Wedge {
    world: World,
    /// Into the rail and into the box.
    normals: [Vec2; 2],
    /// Where the centre of a ball is that touches both.
    vertex: Vec2,
}

fn wedge(equipment: &Equipment, angle_deg: f64, friction: f64) -> Wedge {
    let angle = angle_deg.to_radians();
    let side = Vec2::new(-angle.cos(), -angle.sin());
    let into_box = Vec2::new(angle.sin(), -angle.cos());
    let nose_m = 0.5 * equipment.table.width_m;
    let corner = Vec2::new(MEETS_X_M, nose_m);
    let middle = corner + side * 0.38 + into_box * 0.02;
    let turned = side.y.atan2(side.x);
    let mut obstacle = Obstacle::rectangle("box", middle, 0.8, 0.04, turned);
    obstacle.friction = friction;
    let world = World::new(equipment, &[obstacle]).expect("a box fits there");
    // On the groove, and a radius from the box's side.
    let groove_m = nose_m - equipment.groove_m();
    let up_m = groove_m - nose_m;
    let x_m = MEETS_X_M + (angle.cos() * up_m - equipment.ball.radius_m()) / angle.sin();
    let vertex = Vec2::new(x_m, groove_m);
    assert_eq!(world.grown().touched(vertex).count(), 2, "{angle_deg} degrees");
    Wedge { world, normals: [Vec2::new(0.0, 1.0), into_box], vertex }
}

/// Between the two normals: 0 is into the rail, 1 into the box.
fn between(normals: [Vec2; 2], share: f64) -> Vec2 {
    normals[0] * (1.0 - share) + normals[1] * share
}

#[test]
fn a_ball_that_its_spin_drives_into_a_wedge_rests_at_its_vertex() {
    for model in [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar] {
        let equipment = nine_foot(model);
        for angle_deg in (5..=85).step_by(5) {
            let wedge = wedge(&equipment, f64::from(angle_deg), 0.2);
            for share in [0.3, 0.5, 0.7] {
                let way = between(wedge.normals, share);
                let spin = driven_towards(way, 1.5, equipment.ball.radius_m());
                let start = BallState { position: wedge.vertex, velocity: Vec2::ZERO, spin };
                let shot = played(&wedge.world, &[start]);
                sound(&wedge.world, &shot);
                let end = shot.ends[0];
                let off = (end.state.position - wedge.vertex).norm();
                assert!(
                    end.ending == Ending::AtRest && off < 2e-3,
                    "{model:?}, {angle_deg} degrees, {share}: {off} m off, {end:?}"
                );
            }
        }
    }
}

#[test]
fn whatever_way_a_ball_comes_into_a_wedge_it_comes_to_rest_outside_everything() {
    for model in [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar] {
        let equipment = nine_foot(model);
        for angle_deg in (5..=85).step_by(5) {
            let wedge = wedge(&equipment, f64::from(angle_deg), 0.1);
            let out = between(wedge.normals, 0.5).unit_or_zero() * -0.08;
            let place = wedge.vertex + out;
            if wedge.world.grown().obstructed(place).is_some() {
                continue;
            }
            for (speed, side) in [(0.05, 0.0), (0.5, 40.0), (2.0, -60.0), (6.0, 10.0)] {
                let velocity = out.unit_or_zero() * -speed;
                let spun = driven_towards(out * -1.0, 3.0, equipment.ball.radius_m());
                let spin = Vec3::new(spun.x, spun.y, side);
                let start = BallState { position: place, velocity, spin };
                sound(&wedge.world, &played(&wedge.world, &[start]));
            }
        }
    }
}

/// Without friction at the two walls the cloth alone rubs the spin off, at (5/2)·μs·g whatever the
/// wedge (derived: the walls' forces pass through the centre).
#[test]
fn smooth_walls_leave_the_spin_to_the_cloth() {
    let mut equipment = nine_foot(RailModel::Planar);
    equipment.cushion.nose_friction = 0.0;
    let (slip_m_s, radius_m) = (1.5, equipment.ball.radius_m());
    for angle_deg in [10.0, 40.0, 80.0] {
        let wedge = wedge(&equipment, angle_deg, 0.0);
        let spin = driven_towards(between(wedge.normals, 0.5), slip_m_s, radius_m);
        let start = BallState { position: wedge.vertex, velocity: Vec2::ZERO, spin };
        let shot = played(&wedge.world, &[start]);
        let rubbed_s = slip_m_s / (2.5 * equipment.sliding_deceleration_m_s2());
        let stopped_s = shot.ends[0].time_s;
        assert!((stopped_s - rubbed_s).abs() < 1e-6, "{stopped_s} s, not {rubbed_s} s");
        assert!((shot.ends[0].state.position - wedge.vertex).norm() < 1e-12);
    }
}

/// A ball that also spins about the vertical rubs along both walls. The same by an integration of its own:
/// a resting ball whose forces balance, Coulomb friction along each wall at the height of the centre.
#[test]
fn rough_walls_take_side_as_an_integration_of_forces_has_it() {
    let (wall, slip_m_s, end_s): (f64, f64, f64) = (0.15, 1.5, 0.1);
    let mut equipment = nine_foot(RailModel::Planar);
    equipment.cushion.nose_friction = wall;
    equipment.cloth.pivot_deceleration_rad_s2 = 0.0;
    let radius_m = equipment.ball.radius_m();
    let cloth_m_s2 = equipment.sliding_deceleration_m_s2();
    for angle_deg in [30.0, 45.0, 80.0] {
        for (share, side) in [(0.4, 1.2_f64), (0.5, -1.2), (0.6, 1.2)] {
            let wedge = wedge(&equipment, angle_deg, wall);
            let [n1, n2] = wedge.normals;
            let spin = driven_towards(between(wedge.normals, share), slip_m_s, radius_m);
            // Per mass: spins as R·w, forces as accelerations, torques times 5/2.
            let (mut level, mut up) = (Vec2::new(spin.x, spin.y) * radius_m, side);
            let steps = 100_000;
            let step_s = end_s / f64::from(steps);
            for _ in 0..steps {
                let slip = Vec2::new(-level.y, level.x);
                let drive = slip * (-cloth_m_s2 / slip.norm());
                // A wall pushes along −n and rubs against the ball's surface, which moves along ±(ẑ × n):
                // f1·g1 + f2·g2 = drive.
                let rubs = |n: Vec2| n + Vec2::new(-n.y, n.x) * (wall * up.signum());
                let (g1, g2) = (rubs(n1), rubs(n2));
                let sine = g1.cross(g2);
                let (f1, f2) = (drive.cross(g2) / sine, g1.cross(drive) / sine);
                assert!(f1 > 0.0 && f2 > 0.0, "{angle_deg} degrees, {share}: {f1}, {f2}");
                level = level - level * (2.5 * cloth_m_s2 * step_s / level.norm());
                up -= 2.5 * wall * (f1 + f2) * up.signum() * step_s;
            }
            let spin = Vec3::new(spin.x, spin.y, side / radius_m);
            let start = BallState { position: wedge.vertex, velocity: Vec2::ZERO, spin };
            let shot = played(&wedge.world, &[start]);
            let state = shot.state_at(0, end_s).expect("it is in the shot");
            assert!((state.position - wedge.vertex).norm() < 1e-12, "{state:?}");
            let (got, lost) = (radius_m * state.spin.z, (side - up).abs());
            assert!(lost > 0.05, "{lost}");
            assert!(
                (got - up).abs() < 0.01 * lost,
                "{angle_deg} degrees, {share}: {got} m/s, by forces {up} m/s of {side} m/s"
            );
        }
    }
}

//! The closed-form path of a free ball against a plain step-by-step integration that only knows the
//! forces, with the change from slide to roll located by bisection.

use super::table::{RADIUS_M, equipment};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::vector::{Vec2, Vec3};

/// Position, velocity, spin: x, y, vx, vy, wx, wy, wz.
type Seven = [f64; 7];

fn pack(state: &BallState) -> Seven {
    let (p, v, w) = (state.position, state.velocity, state.spin);
    [p.x, p.y, v.x, v.y, w.x, w.y, w.z]
}

fn slip(s: &Seven) -> (f64, f64) {
    (s[2] - RADIUS_M * s[5], s[3] + RADIUS_M * s[4])
}

fn rate(s: &Seven, rolls: bool, cloth: &ClothMotion) -> Seven {
    let pivot = if s[6] == 0.0 { 0.0 } else { -cloth.pivot_deceleration_rad_s2 * s[6].signum() };
    if rolls {
        let speed = s[2].hypot(s[3]);
        let (ax, ay) = (
            -cloth.rolling_deceleration_m_s2 * s[2] / speed,
            -cloth.rolling_deceleration_m_s2 * s[3] / speed,
        );
        return [s[2], s[3], ax, ay, -ay / RADIUS_M, ax / RADIUS_M, pivot];
    }
    let (ux, uy) = slip(s);
    let size = ux.hypot(uy);
    let (fx, fy) = (
        -cloth.sliding_deceleration_m_s2 * ux / size,
        -cloth.sliding_deceleration_m_s2 * uy / size,
    );
    // Torque of the force at (0, 0, −R) over I = (2/5)·m·R².
    [s[2], s[3], fx, fy, 2.5 * fy / RADIUS_M, -2.5 * fx / RADIUS_M, pivot]
}

fn ahead(s: &Seven, rate: &Seven, by: f64) -> Seven {
    let mut moved = *s;
    for (value, change) in moved.iter_mut().zip(rate) {
        *value += by * change;
    }
    // Pivot friction brings spin about the vertical to rest, never past it.
    if moved[6] * s[6] < 0.0 {
        moved[6] = 0.0;
    }
    moved
}

/// One step by the explicit midpoint rule. It never asks for the force at the end of the step,
/// where a slip that is just spent has no direction.
fn midpoint(s: &Seven, rolls: bool, h: f64, cloth: &ClothMotion) -> Seven {
    let middle = ahead(s, &rate(s, rolls, cloth), 0.5 * h);
    ahead(s, &rate(&middle, rolls, cloth), h)
}

/// Longest piece of the step over which slip keeps its direction.
fn slide_part(s: &Seven, h: f64, cloth: &ClothMotion) -> f64 {
    let (before, rate) = (slip(s), rate(s, false, cloth));
    let keeps = |part: f64| {
        let after = slip(&ahead(s, &rate, part));
        before.0 * after.0 + before.1 * after.1 > 0.0
    };
    if keeps(h) {
        return h;
    }
    let (mut low, mut high) = (0.0, h);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if keeps(middle) { low = middle } else { high = middle }
    }
    low
}

#[test]
fn path_is_what_small_steps_of_the_forces_give() {
    let cloth = ClothMotion::new(&equipment());
    let step = 1e-3;
    let mut changes = 0;
    for (vx, vy, wx, wy, wz) in [
        (2.0, 0.0, 0.0, 0.0, 0.0),
        (2.0, 0.0, 35.0, 0.0, 12.0),
        (1.0, 1.5, -60.0, 90.0, -8.0),
        (-0.8, 2.2, 40.0, 100.0, 25.0),
        (0.5, -0.5, -150.0, 30.0, 40.0),
        (1.2, 0.9, -0.9 / RADIUS_M, 1.2 / RADIUS_M, 5.0),
        (0.0, 0.0, 80.0, -20.0, 0.0),
    ] {
        let start = BallState {
            position: Vec2::new(0.1, -0.2),
            velocity: Vec2::new(vx, vy),
            spin: Vec3::new(wx, wy, wz),
        };
        let path = Path::new(start, cloth);
        let mut stepped = pack(&start);
        let (ux, uy) = slip(&stepped);
        let mut rolls = ux.hypot(uy) < 1e-12;
        for index in 0_u32..3000 {
            let mut left = step;
            if !rolls {
                let part = slide_part(&stepped, step, &cloth);
                stepped = midpoint(&stepped, false, part, &cloth);
                left -= part;
                if left > 0.0 {
                    rolls = true;
                    changes += 1;
                    let at = f64::from(index) * step + part;
                    let ours = path.rolls_from_s();
                    assert!((ours - at).abs() < 1e-9, "{start:?}: rolls at {at} or {ours}");
                }
            }
            if rolls {
                // Stop short of rest, where the direction of travel is lost.
                if stepped[2].hypot(stepped[3]) < 2.0 * step * cloth.rolling_deceleration_m_s2 {
                    break;
                }
                stepped = midpoint(&stepped, true, left, &cloth);
            }
            let ours = pack(&path.state_at(f64::from(index + 1) * step));
            // Spins are compared as surface speeds, m/s. Pivot friction that ends inside a step is
            // good to half a step of its rate.
            let room = [1e-9, 1e-9, 1e-9, 1e-9, 1e-9, 1e-9, 0.5 * step * 10.0 * RADIUS_M];
            for (i, room) in room.into_iter().enumerate() {
                let unit = if i < 4 { 1.0 } else { RADIUS_M };
                let off = (ours[i] - stepped[i]).abs() * unit;
                assert!(off < room, "{start:?}: entry {i} off by {off} after step {index}");
            }
        }
    }
    assert_eq!(changes, 6, "all but the one that rolls from the start change to roll");
}

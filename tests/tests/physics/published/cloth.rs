//! A ball on cloth (Coriolis 1835): slide, roll and roll-out.

use super::{exact, printed};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::units::{FOOT_M, INCH_M};
use railproof_engine::vector::{Vec2, Vec3};

const G: f64 = 9.81;
const R: f64 = 0.028_575;

fn cloth(radius_m: f64, sliding: f64, g: f64) -> ClothMotion {
    ClothMotion {
        radius_m,
        sliding_deceleration_m_s2: sliding * g,
        rolling_deceleration_m_s2: 0.0128 * g,
        pivot_deceleration_rad_s2: 10.0,
    }
}

/// A ball at the origin that moves along x; `backspin` turns against the motion.
fn along_x(speed: f64, backspin: f64) -> BallState {
    BallState {
        position: Vec2::ZERO,
        velocity: Vec2::new(speed, 0.0),
        spin: Vec3::new(0.0, -backspin, 0.0),
    }
}

/// (time, speed, distance) where rolling begins.
fn rolls(path: &Path) -> (f64, f64, f64) {
    let time = path.rolls_from_s();
    let state = path.state_at(time);
    (time, state.velocity.x, state.position.x)
}

/// Derived from Newton–Euler: t = 2v₀/(7μg), d = 12v₀²/(49μg), v = (5/7)v₀.
#[test]
fn a_stunned_ball_begins_to_roll() {
    let (time, speed, distance) = rolls(&Path::new(along_x(2.0, 0.0), cloth(R, 0.2, G)));
    exact(time, 2.0 * 2.0 / (7.0 * 0.2 * G));
    exact(speed, 10.0 / 7.0);
    exact(distance, 12.0 * 4.0 / (49.0 * 0.2 * G));
    printed(time, "0.291248");
    printed(distance, "0.499282");
    printed(speed, "1.428571");
}

/// Derived from Newton–Euler: backspin 2v₀/R leaves v₀/7 after 6v₀/(7μg).
#[test]
fn backspin_of_twice_the_roll_leaves_a_seventh_of_the_speed() {
    for speed in [0.5, 2.0, 7.0] {
        let start = along_x(speed, 2.0 * speed / R);
        let (time, left, _) = rolls(&Path::new(start, cloth(R, 0.2, G)));
        exact(time, 6.0 * speed / (7.0 * 0.2 * G));
        exact(left, speed / 7.0);
    }
}

/// A ball of 8 in diameter thrown at 15 ft/s with backspin 9 rad/s, μ = 0.10, g = 32.2 ft/s²:
/// Beer & Johnston, *Vector Mechanics for Engineers: Dynamics*, exercise on uniform slip and roll,
/// quoted from memory. The same with backspin 18 rad/s is derived.
#[test]
fn a_thrown_ball_with_backspin_in_feet() {
    let thrown = |backspin: f64| {
        let start = along_x(15.0 * FOOT_M, backspin);
        let path = Path::new(start, cloth(4.0 * INCH_M, 0.1, 32.2 * FOOT_M));
        let (time, speed, distance) = rolls(&path);
        (time, speed / FOOT_M, distance / FOOT_M)
    };
    let (time, speed, distance) = thrown(9.0);
    printed(time, "1.597");
    printed(speed, "9.86");
    printed(distance, "19.85");

    // Slip 15 + 18/3 = 21 ft/s; speed 15 − (2/7)·21 = 9 ft/s; mean speed 12 ft/s.
    let (time, speed, distance) = thrown(18.0);
    exact(time, 2.0 * 21.0 / (7.0 * 3.22));
    exact(speed, 9.0);
    exact(distance, 12.0 * 2.0 * 21.0 / (7.0 * 3.22));
    printed(time, "1.8634");
    printed(speed, "9.000");
    printed(distance, "22.360");
}

/// Bowling ball of radius 0.11 m sent at 8.5 m/s without spin, μ = 0.21: Halliday, Resnick &
/// Walker, *Fundamentals of Physics*, problem on a bowling ball, quoted from memory.
#[test]
fn a_bowling_ball() {
    let path = Path::new(along_x(8.5, 0.0), cloth(0.11, 0.21, G));
    let (time, speed, distance) = rolls(&path);
    let (start, later) = (path.state_at(0.0), path.state_at(0.5 * time));
    printed((later.velocity.x - start.velocity.x) / (0.5 * time), "-2.1");
    // The book counts the turning against its positive sense.
    printed(-(later.spin.y - start.spin.y) / (0.5 * time), "-47");
    printed(time, "1.2");
    printed(distance, "8.6");
    printed(speed, "6.1");
}

/// Computed by an independent program: 2 m/s with wx·R = 1 m/s across the travel, μs = 0.2.
#[test]
fn spin_across_the_travel_bends_the_slide() {
    let start = BallState {
        position: Vec2::ZERO,
        velocity: Vec2::new(2.0, 0.0),
        spin: Vec3::new(1.0 / R, 0.0, 0.0),
    };
    let path = Path::new(start, cloth(R, 0.2, G));
    let end = path.state_at(path.rolls_from_s());
    printed(path.rolls_from_s(), "0.325625");
    printed(end.velocity.x, "1.428571");
    printed(end.velocity.y, "-0.285714");
    printed(end.position.x, "0.558215");
    printed(end.position.y, "-0.046518");
    // Derived: slip (2, 1), velocity v₀ − (2/7)u₀.
    exact(path.rolls_from_s(), 2.0 * 5.0_f64.sqrt() / (7.0 * 0.2 * G));
    exact(end.velocity.x, 10.0 / 7.0);
    exact(end.velocity.y, -2.0 / 7.0);
}

/// Derived: a rolling ball stops after v²/(2μr·g) and v/(μr·g).
#[test]
fn roll_out() {
    let start = along_x(1.0, -1.0 / R);
    let path = Path::new(start, cloth(R, 0.2, G));
    let rest = path.state_at(path.centre_rests_from_s());
    exact(rest.position.x, 1.0 / (2.0 * 0.0128 * G));
    exact(path.centre_rests_from_s(), 1.0 / (0.0128 * G));
    printed(rest.position.x, "3.98191");
    printed(path.centre_rests_from_s(), "7.96381");
    assert_eq!(rest.velocity, Vec2::ZERO);
}

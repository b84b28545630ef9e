//! The cost of the search for the first contact of two moving centres, by the contacts there are to find.
//!
//! Every figure is for 1,000 different questions: divide by 1,000.

use divan::Bencher;
use railproof_engine::contact::{Arc, StraightEdge, first_between, first_within};
use railproof_engine::motion::{BallState, ClothMotion, Path, Segment};
use railproof_engine::vector::{Vec2, Vec3};

const DISTANCE_M: f64 = 0.057_15;
const COUNT: u32 = 1000;

fn main() {
    divan::main();
}

/// Position, velocity, acceleration, and how long.
type Question = (Vec2, Vec2, Vec2, f64);

fn turned(angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(cos, sin)
}

/// Numbers from 0 to 1 spread evenly in several dimensions (Kronecker sequences of square roots).
fn shares(index: u32) -> impl Fn(f64) -> f64 {
    move |prime: f64| (f64::from(index + 1) * prime.sqrt()).fract()
}

/// A ball rolls or slides at another that rests 0.2 to 1.5 m away, and passes its centre by this many
/// ball diameters, the curve of its path left out of account.
fn questions(miss: f64, slides: bool) -> Vec<Question> {
    (0..COUNT)
        .map(|index| {
            let share = shares(index);
            let towards = turned(6.3 * share(2.0));
            let side =
                Vec2::new(-towards.y, towards.x) * if share(11.0) < 0.5 { 1.0 } else { -1.0 };
            let p = towards * -(0.2 + 1.3 * share(3.0)) + side * (miss * DISTANCE_M);
            let speed = 1.5 + 3.0 * share(5.0);
            let (slowing, turn) = if slides { (2.0, 0.6 * (share(7.0) - 0.5)) } else { (0.1, 0.0) };
            let (sin, cos) = turn.sin_cos();
            let a = (towards * cos + side * sin) * -slowing;
            let until_s = if slides { 0.3 * speed } else { 10.0 * speed };
            (p, towards * speed, a, until_s.min(1.0))
        })
        .collect()
}

fn run(bencher: Bencher, questions: &[Question]) {
    bencher.bench(|| {
        let ask = |(p, v, a, until_s): &Question| first_within(*p, *v, *a, DISTANCE_M, *until_s);
        questions.iter().filter_map(ask).sum::<f64>()
    });
}

#[divan::bench]
fn balls_that_part(bencher: Bencher) {
    let questions: Vec<_> =
        questions(0.5, true).into_iter().map(|(p, v, a, t)| (-p, v, a, t)).collect();
    run(bencher, &questions);
}

#[divan::bench]
fn balls_out_of_reach(bencher: Bencher) {
    let questions: Vec<_> =
        questions(0.5, true).into_iter().map(|(p, v, a, t)| (p, v, a, 0.03 * t)).collect();
    run(bencher, &questions);
}

#[divan::bench(args = [2.0, 5.0])]
fn balls_that_pass(bencher: Bencher, miss: f64) {
    run(bencher, &questions(miss, true));
}

#[divan::bench(args = [0.1, 0.5, 0.9])]
fn rolling_balls_that_meet(bencher: Bencher, miss: f64) {
    run(bencher, &questions(miss, false));
}

#[divan::bench(args = [0.1, 0.5, 0.9])]
fn sliding_balls_that_meet(bencher: Bencher, miss: f64) {
    run(bencher, &questions(miss, true));
}

#[divan::bench(args = [0.1, 0.9])]
fn balls_on_frictionless_cloth(bencher: Bencher, miss: f64) {
    let questions: Vec<_> =
        questions(miss, true).into_iter().map(|(p, v, _, t)| (p, v, Vec2::ZERO, t)).collect();
    run(bencher, &questions);
}

/// Overlap at the nearest, m; negative for a clearance.
#[divan::bench(args = [1e-3, 1e-6, 1e-9, 1e-15, 0.0, -1e-15, -1e-9, -1e-6, -1e-3])]
fn balls_that_graze(bencher: Bencher, overlap_m: f64) {
    let questions: Vec<Question> = (0..COUNT)
        .map(|index| {
            let share = shares(index);
            let n = turned(6.3 * share(2.0));
            let u = Vec2::new(-n.y, n.x) * (1.0 + 3.0 * share(3.0));
            let a = turned(6.3 * share(5.0)) * 2.0;
            let before = 0.05 + 0.2 * share(7.0);
            let p = n * (DISTANCE_M - overlap_m) - u * before + a * (0.5 * before * before);
            (p, u - a * before, a, 2.0 * before)
        })
        .collect();
    run(bencher, &questions);
}

fn segments(miss: f64) -> Vec<Segment> {
    let as_segment = |(position, velocity, acceleration, duration_s): Question| Segment {
        position,
        velocity,
        acceleration,
        duration_s,
    };
    questions(miss, true).into_iter().map(as_segment).collect()
}

#[divan::bench]
fn edges(bencher: Bencher) {
    let segments = segments(0.5);
    let line = StraightEdge::between(turned(0.3), Vec2::new(0.3, -1.0), Vec2::new(-0.3, 1.0));
    bencher.bench(|| {
        segments.iter().filter_map(|stretch| line.first_contact(stretch, 1.0)).sum::<f64>()
    });
}

#[divan::bench(args = [0.3, 3.0])]
fn round_corners(bencher: Bencher, miss: f64) {
    let segments = segments(miss);
    let arc =
        Arc { centre: Vec2::ZERO, radius_m: 0.5 * DISTANCE_M, from: turned(0.2), to: turned(1.9) };
    bencher.bench(|| {
        segments.iter().filter_map(|stretch| arc.first_contact(stretch, 1.0)).sum::<f64>()
    });
}

/// A sliding ball against one that rests or rolls, anywhere on a table.
#[divan::bench(args = [false, true])]
fn paths_on_a_table(bencher: Bencher, both_move: bool) {
    let cloth = ClothMotion {
        radius_m: 0.5 * DISTANCE_M,
        sliding_deceleration_m_s2: 1.96,
        rolling_deceleration_m_s2: 0.1,
        pivot_deceleration_rad_s2: 10.0,
    };
    let path = |index: u32, speed: f64| {
        let share = shares(index);
        let position = Vec2::new(2.4 * share(2.0), 1.2 * share(3.0));
        let velocity = turned(6.3 * share(5.0)) * (speed * (0.3 + share(7.0)));
        let spin = Vec3::new(share(11.0) - 0.5, share(13.0) - 0.5, 0.0) * (50.0 * speed);
        Path::new(BallState { position, velocity, spin }, cloth)
    };
    let other_speed = if both_move { 1.5 } else { 0.0 };
    let pairs: Vec<(Path, Path)> =
        (0..COUNT).map(|index| (path(index, 2.0), path(index + COUNT, other_speed))).collect();
    bencher.bench(|| {
        let ask = |(a, b): &(Path, Path)| first_between(a, b, 0.0, 0.1, 0.2, DISTANCE_M, 3.0);
        pairs.iter().filter_map(ask).sum::<f64>()
    });
}

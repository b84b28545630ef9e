//! Crossing times and table geometry against dense sampling.

use super::table::{RADIUS_M, equipment};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::rail::{BankGeometry, Line, Pocket, Rail};
use railproof_engine::vector::{Vec2, Vec3};

/// First time at which sampled positions pass the line towards growing normal·p, by halving.
fn sampled_crossing(path: &Path, normal: Vec2, offset_m: f64, until_s: f64) -> Option<f64> {
    let over = |time_s: f64| normal.dot(path.state_at(time_s).position) - offset_m;
    let samples = 20_000_u32;
    let time = |index: u32| until_s * f64::from(index) / f64::from(samples);
    let index = (0..samples).find(|i| over(time(*i)) < 0.0 && over(time(i + 1)) >= 0.0)?;
    let (mut low, mut high) = (time(index), time(index + 1));
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if over(middle) < 0.0 { low = middle } else { high = middle }
    }
    Some(high)
}

#[test]
fn first_crossing_is_the_one_that_samples_show() {
    let cloth = ClothMotion::new(&equipment());
    let (mut crossed, mut missed) = (0, 0);
    for (v, w) in [
        (Vec2::new(0.4, 2.0), Vec3::ZERO),
        // Draw that bends the path back, and follow that bends it on.
        (Vec2::new(1.0, 1.0), Vec3::new(150.0, -30.0, 0.0)),
        (Vec2::new(1.5, 0.6), Vec3::new(-120.0, -140.0, 20.0)),
        (Vec2::new(0.2, 0.1), Vec3::new(0.0, 8.0, 0.0)),
    ] {
        let start = BallState { position: Vec2::new(0.2, 0.1), velocity: v, spin: w };
        let path = Path::new(start, cloth);
        let until_s = path.rests_from_s().min(20.0);
        for (index, offset_m) in (0_u32..48).map(|i| (i, -0.9 + 0.07 * f64::from(i))) {
            let (sin, cos) = (0.61 * f64::from(index)).sin_cos();
            let normal = Vec2::new(cos, sin);
            let exact = path.first_crossing(normal, offset_m, 0.0);
            match (exact, sampled_crossing(&path, normal, offset_m, until_s)) {
                (Some(exact), Some(sampled)) => {
                    assert!((exact - sampled).abs() < 1e-9, "{v:?} {index}: {exact} {sampled}");
                    crossed += 1;
                }
                (None, None) => missed += 1,
                (exact, sampled) => {
                    panic!("{v:?} {w:?} line {index}: {exact:?} by formula, {sampled:?} by samples")
                }
            }
        }
    }
    assert!(crossed > 30 && missed > 30, "{crossed} crossed, {missed} missed");
}

#[test]
fn groove_is_where_a_sampled_sphere_first_meets_the_nose() {
    let equipment = equipment();
    let nose_m = equipment.cushion.nose_height_m;
    // Of the sphere's points at the nose's height, the one that reaches furthest.
    let mut reach_m = 0.0_f64;
    let count = 200_000_u32;
    for index in 0..count {
        let angle = core::f64::consts::PI * (f64::from(index) / f64::from(count) - 0.5);
        let (sin, cos) = angle.sin_cos();
        if ((RADIUS_M + RADIUS_M * sin) - nose_m).abs() < 1e-6 {
            reach_m = reach_m.max(RADIUS_M * cos);
        }
    }
    assert!((equipment.groove_m() - reach_m).abs() < 1e-6, "{reach_m}");
}

#[test]
fn sight_reading_is_where_the_line_extended_meets_the_sights() {
    let equipment = equipment();
    let bank = BankGeometry::new(&equipment, Rail::Left, Pocket::HeadRight).unwrap();
    for (contact, start) in [(1.5, 3.3), (2.0, 4.4), (3.5, 2.0), (0.5, 9.0)] {
        // Walk the line in table coordinates and see where it is as far out as the sights.
        let (far, near) = (
            bank.to_table(Vec2::new(start * bank.diamond_m, 0.0)),
            bank.to_table(Vec2::new(contact * bank.diamond_m, bank.span_m)),
        );
        let sights_m = 0.5 * equipment.table.width_m + equipment.table.sight_setback_m;
        let number_where = |y_m: f64| {
            let (mut low, mut high) = (-2.0, 3.0);
            for _ in 0..80 {
                let middle = 0.5 * (low + high);
                if far.y + middle * (near.y - far.y) < y_m { low = middle } else { high = middle }
            }
            let x_m = far.x + low * (near.x - far.x);
            // From the head rail's nose line, in eighths of the length.
            (x_m + 0.5 * equipment.table.length_m) / (equipment.table.length_m / 8.0)
        };
        let sight = Line::new(contact, start).groove_to_sight(&bank);
        let (contact_seen, start_seen) = (number_where(sights_m), number_where(-sights_m));
        assert!((sight.contact - contact_seen).abs() < 1e-9, "{contact_seen}");
        assert!((sight.start - start_seen).abs() < 1e-9, "{start_seen}");
    }
}

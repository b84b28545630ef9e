//! One planar bank and one nose-and-cloth impact, by the engine and by its rivals, in one run; their
//! errors are printed first.

use divan::{Bencher, black_box};
use railproof_benches::fixed_step_impact::fixed_step_impact;
use railproof_benches::rigid_body::rigid_body;
use railproof_benches::runge_kutta::runge_kutta;
use railproof_benches::shot::{Arrival, Shot};
use railproof_engine::impact::{Bounce, CushionContact, nose_and_cloth};
use railproof_engine::vector::{Vec2, Vec3};

fn main() {
    print_errors();
    divan::main();
}

/// 45° rolling at 1 m/s onto a cushion with sinθ = 0.4.
fn impact() -> (CushionContact, Bounce) {
    let contact = CushionContact {
        sin_theta: 0.4,
        cos_theta: 0.84_f64.sqrt(),
        nose_friction: 0.14,
        impact_cloth_friction: 0.212,
        restitution: 0.98,
        ..Shot::reference().contact()
    };
    let (speed, radius) = (0.5_f64.sqrt(), contact.radius_m);
    let spin = Vec3::new(-speed / radius, speed / radius, 0.0);
    (contact, Bounce { velocity: Vec2::new(speed, speed), spin })
}

fn print_errors() {
    let shot = Shot::reference();
    let Some(exact) = shot.closed_form() else { return };
    println!("reference bank: arrives after {:.7} s at {:.7} m", exact.time_s, exact.x_m);
    let row = |name: &str, arrival: Option<Arrival>| match arrival {
        Some(arrival) => {
            let (along_m, time_s) = arrival.error_from(&exact);
            println!("  {name:<28} off by {:9.5} mm, {:9.5} ms", 1e3 * along_m, 1e3 * time_s);
        }
        None => println!("  {name:<28} never arrives"),
    };
    row("rapier2d, 1 ms steps", rigid_body(&shot, 1e-3));
    row("rapier2d, 0.1 ms steps", rigid_body(&shot, 1e-4));
    row("fourth-order steps, 1 ms", runge_kutta(&shot, 1e-3));
    let (contact, before) = impact();
    let engine = nose_and_cloth(&contact, before);
    let stepped = fixed_step_impact(&contact, before, 5000);
    let off = (engine.velocity - stepped.velocity).norm();
    println!("nose-and-cloth impact, 5000 steps: {off:.1e} m/s from the engine\n");
}

#[divan::bench]
fn bank_closed_form(bencher: Bencher) {
    let shot = Shot::reference();
    bencher.bench(|| black_box(&shot).closed_form());
}

#[divan::bench(args = [1e-3, 1e-4], sample_count = 10, sample_size = 1)]
fn bank_rapier2d(bencher: Bencher, step_s: f64) {
    let shot = Shot::reference();
    bencher.bench(|| rigid_body(black_box(&shot), step_s));
}

#[divan::bench(args = [1e-3])]
fn bank_fourth_order_steps(bencher: Bencher, step_s: f64) {
    let shot = Shot::reference();
    bencher.bench(|| runge_kutta(black_box(&shot), step_s));
}

#[divan::bench]
fn impact_engine(bencher: Bencher) {
    let (contact, before) = impact();
    bencher.bench(|| nose_and_cloth(black_box(&contact), black_box(before)));
}

#[divan::bench(args = [5000])]
fn impact_fixed_steps(bencher: Bencher, steps: u32) {
    let (contact, before) = impact();
    bencher.bench(|| fixed_step_impact(black_box(&contact), black_box(before), steps));
}
